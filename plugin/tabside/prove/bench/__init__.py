"""The craft on the bench, as drawn or with one mistake in it, and what a meter then shows."""
