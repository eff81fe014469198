"""One cell as text, safe to open in a spreadsheet and true to what was drawn."""

from __future__ import annotations

import re

from tabside.documents.rows import CellKind, Column
from tabside.facts import wire
from tabside.words.visible_text import visible_lines

NOT_KNOWN = "not known"

# A spreadsheet takes a cell that begins like this for a formula.
_FORMULA = ("=", "+", "-", "@", "\t", "\r", "\n")
# Read with another separator, or line by line, a cell begins behind each of these, too.
_INNER_FORMULA = re.compile(r"(?<=[;,\t\r\n])(?=[ \"]*[=@]|[+\-])")


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
    """The text with each character that has no shape of its own written out."""
    return visible_lines(text)


def formula_safe(text: str) -> str:
    """The text, with an apostrophe wherever a spreadsheet would take what follows for a formula."""
    safe = _INNER_FORMULA.sub("'", text)
    return f"'{safe}" if safe.startswith(_FORMULA) else safe
