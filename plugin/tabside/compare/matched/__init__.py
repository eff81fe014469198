"""Which place of the old drawing is which of the new one, whatever either calls it."""
