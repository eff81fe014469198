"""First power: what feeds what, where volts are touched, and the rows of the sheet."""
