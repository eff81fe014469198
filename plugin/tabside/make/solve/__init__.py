"""The choice among the ways, for the whole craft at once."""
