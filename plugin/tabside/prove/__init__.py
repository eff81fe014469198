"""What to measure before power, and what failed rows tell."""
