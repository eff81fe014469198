"""Benches that follow what we print to the letter."""
