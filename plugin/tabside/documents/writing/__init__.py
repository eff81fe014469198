"""How documents reach the disk: all of a folder in one go, or not at all."""
