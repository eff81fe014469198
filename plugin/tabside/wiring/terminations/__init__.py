"""Where leads meet a board: terminations and their contacts."""
