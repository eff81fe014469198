"""Over each list, the same in every output."""

from __future__ import annotations

FIRST_TITLE = "Before all else"
LABELS_TITLE = (
    "Labels to print again: they go on in place of old labels, tags and pen marks; a tube that no loose end lets on "
    "is a strip around the wire, under clear tape"
)
NUMBERS_TITLE = "New numbers for what is there, before anything is moved, in this order, at both ends"
METER_TITLE = "The meter first, and parts before a wire is on them"
TOOLS_TITLE = "Tools, and what is used up"
STATED_TITLE = "Stated again: check it against what you have"
LAST_TITLE = "Measure last: what belongs to no single cable"
PARTS_TITLE = "Parts across wires, before any pack"
PLUG_IN_TITLE = "Plug in again"
POWER_TITLE = "Then first power"
ROWS = "The rows of tests are those of the continuity sheet of the new drawing, by its numbers."
