"""The single slip behind several clashes."""
