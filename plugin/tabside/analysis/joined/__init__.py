"""What leads, boards and parts join, before anything is judged."""
