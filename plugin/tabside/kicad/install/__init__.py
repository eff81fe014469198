"""Into KiCad and out of it again."""
