"""How documents are written."""
