"""What the hands do with each cable, step by step as in a plan, and what is measured on the way."""
