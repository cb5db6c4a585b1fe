"""What is drawn: the boat, its paddler and what is measured, each once, for page and paper."""
