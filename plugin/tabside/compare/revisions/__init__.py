"""What is compared: a drawing on the disk, one of a git revision, or a saved export."""
