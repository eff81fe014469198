"""What people read: names of contacts and roles, lengths, cautions, the verdict in words."""
