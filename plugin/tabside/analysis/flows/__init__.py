"""Circuits of supplies and grounds, and what flows in them."""
