"""What is taken from stock, cut and bought."""
