"""The numbers between which what a person states must lie, wherever it is stated.  `bounds` makes types of them."""

THINNEST_AWG = 40
LONGEST_MM = 1_000_000
HIGHEST_V = 1000.0
MOST_AMPERES = 10_000
MOST_LEADS = 100  # in one contact
MOST_OF_A_KIND = 1_000_000  # that lie in one drawer, or in one box
MOST_PINS = 100_000  # of a drawing: a library symbol holds its pins once, and stacked numbers stand for thousands
