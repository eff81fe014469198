"""What the names on boards mean."""
