"""Whether what is there serves again: the wire, the part, the board."""
