"""The steps for the hands."""
