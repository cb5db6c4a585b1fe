"""Records to text and bytes, one format a module; nothing here opens a file."""
