"""Board files: begun, read from tables, drawn back, made into KiCad parts."""
