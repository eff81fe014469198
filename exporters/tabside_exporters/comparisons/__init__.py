"""Two revisions on paper: what differs, and what to do at the bench in the order of work."""
