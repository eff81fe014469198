"""What becomes of each wire and each cable: one plan, cable by cable."""
