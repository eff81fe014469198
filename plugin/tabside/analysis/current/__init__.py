"""What flows in each lead."""
