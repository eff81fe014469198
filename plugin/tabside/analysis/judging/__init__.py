"""What becomes of each joint."""
