"""Crafts made in memory, and what is asked of them."""
