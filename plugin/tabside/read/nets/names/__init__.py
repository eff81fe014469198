"""What the names on a drawing stand for."""
