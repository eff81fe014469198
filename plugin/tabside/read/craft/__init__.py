"""The craft file."""
