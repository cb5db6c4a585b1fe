"""What we were given: base design records, and the reading and checking of design files."""
