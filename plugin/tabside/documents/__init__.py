"""What each document holds, and how documents are written."""
