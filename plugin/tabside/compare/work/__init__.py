"""What the hands do so that the old build becomes the new one: cable by cable, in the order of work."""
