"""KiCad parts of a board: a symbol for each plug, a block or sheet for the board, lines in the library tables."""
