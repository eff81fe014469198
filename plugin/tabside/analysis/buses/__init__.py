"""Lines that several boards share: their ends, their branches, and what pulls them up."""
