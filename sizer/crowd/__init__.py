"""Many people at once: lists of them, batches, who fits a boat, and a range of sizes."""
