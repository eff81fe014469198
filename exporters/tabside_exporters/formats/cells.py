"""One cell as text, safe to open in a spreadsheet and true to what was drawn."""

from __future__ import annotations

import re

from tabside.documents.rows import CellKind, Column
from tabside.facts import wire

NOT_KNOWN = "not known"

# A spreadsheet takes a cell that begins like this for a formula.
_FORMULA = ("=", "+", "-", "@", "\t", "\r", "\n")
# Control characters, halves of surrogate pairs, and marks that turn the direction of reading: a name that holds one
# could show something else than what it is.
_UNPRINTABLE = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\ud800-\udfff\u2028\u2029\u202a-\u202e\u2066-\u2069]")


def cell_text(value: object, column: Column) -> str:
    """The value as a person reads it; "not known" for None, numbers as the column wants them."""
    if value is None:
        return NOT_KNOWN
    if column.kind is CellKind.TENTHS and value != "":
        return f"{value:.1f}"
    if column.kind is CellKind.HUNDREDTHS and value != "":
        return f"{value:.2f}"
    if column.kind is CellKind.GAUGE and value != "":
        return wire.gauge_text(int(str(value)))
    return clean(str(value))


def clean(text: str) -> str:
    """The text with a replacement character for each character that has no shape of its own."""
    return _UNPRINTABLE.sub("\ufffd", text)


def formula_safe(text: str) -> str:
    """The text, with a leading apostrophe when a spreadsheet would take it for a formula."""
    return f"'{text}" if text.startswith(_FORMULA) else text
