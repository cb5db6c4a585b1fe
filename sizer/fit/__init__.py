"""Is it right, which is best: uses and limits, checks, the smallest change that passes."""
