"""When, in the order of work, power comes, a joint may be made, and a measurement is possible."""
