"""What to measure before power."""
