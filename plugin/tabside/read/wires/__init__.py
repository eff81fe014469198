"""What lies along the drawn wires, beyond the nets: stretches, notes, loose ends."""
