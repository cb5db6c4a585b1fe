"""What gets built: numbers for the bench."""
