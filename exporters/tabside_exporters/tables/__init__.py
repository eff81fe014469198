"""Documents that are tables."""
