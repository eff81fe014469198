"""Documents that are pages."""
