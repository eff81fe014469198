"""Frozen data that all parts of Tabside share.  Imports nothing else of ours, opens no file, prints nothing."""
