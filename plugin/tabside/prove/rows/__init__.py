"""The rows of the continuity sheet: all that could be measured, the fewest that find everything, and their words."""
