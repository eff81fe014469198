"""What to get for the new build, and what becomes free for the drawer."""
