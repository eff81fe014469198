"""From text to lists, and where it is damaged."""
