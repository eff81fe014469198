"""The ways in which a cable or lead could be made."""
