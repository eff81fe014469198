"""Pinouts read from tables: CSV, workbooks, lines pasted from a manual."""
