"""Sheets that are made lead by lead: from pre-crimped leads, tails, wire, or a part's own leads."""
