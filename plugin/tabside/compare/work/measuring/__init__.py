"""What is measured and looked at: which rows, with which cable, and what is out of the way for them."""
