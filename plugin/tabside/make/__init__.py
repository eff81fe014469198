"""How each cable is made."""
