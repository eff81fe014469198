"""The wires that sheets speak of: where each comes from, and what is cut from stock."""
