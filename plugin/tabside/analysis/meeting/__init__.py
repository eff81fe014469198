"""Whether two contacts agree."""
