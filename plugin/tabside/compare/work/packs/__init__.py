"""Work on a pack and on what it reaches: what is live, what comes last, what can hurt."""
