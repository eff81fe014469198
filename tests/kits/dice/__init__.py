"""Crafts and edits drawn by dice."""
