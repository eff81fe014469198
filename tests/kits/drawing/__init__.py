"""Draws schematics for tests, as text that KiCad reads."""
