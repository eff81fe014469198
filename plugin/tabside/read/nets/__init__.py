"""From sheets to nets, as KiCad has them."""
