"""All that there is to do, as lists in the order of work: what every output lays out."""
