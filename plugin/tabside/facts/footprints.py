"""What the name of a KiCad footprint says: the plug family that fits, its ways, its entry, or that it is a pad."""

from __future__ import annotations

import re
from functools import cache

from msgspec import Struct

from tabside.facts import tables
from tabside.facts.sources import Source, read_source
from tabside.facts.tables import Row


class FootprintMatch(Struct, frozen=True):
    """A receptacle known by its footprint."""

    family: str  # id
    ways: int | None  # of all rows together; None when the name does not count them (coax)
    rows: int
    entry: str | None  # "side", "top", None when the name does not say
    contact_1: str | None  # "left" or "right" on face `printed`; known for side entry only
    header_part: (
        str  # the receptacle's part number without the ending for its finish, "" when the name does not give it
    )
    pitch_mm: float | None
    source: Source


# Names in KiCad's libraries Connector_Wire and TestPoint, and those that people give to their own pads.
_PAD = re.compile(r"(?:SolderWire|TestPoint|Solder_?Pads?|Wire_?Pads?|Pads?(?=[_\-\d]|$))", re.IGNORECASE)
_PLAIN = re.compile(r"\^?((?:[\w-]|\\\.)*)")
_GRID = re.compile(r"_(?P<rows>\d)x(?P<columns>\d+)")


@cache
def match_footprint(text: str) -> FootprintMatch | None:
    """The family, ways, entry and contact-1 side of a footprint's name, with or without its library.

    Source: patterns run against KiCad's footprint library 9.0.8; contact 1 computed from pads and outline.
    """
    name = _bare(text)
    for prefix, row in _patterns():
        if name.startswith(prefix) and (found := re.match(row["footprint_regex"], name)):
            return _match(row, name, found.groupdict().get("n"))
    return None


def is_pad_footprint(text: str) -> bool:
    """Whether leads are soldered to it: solder-wire, test-point and pad footprints."""
    return _PAD.match(_bare(text)) is not None


def _bare(text: str) -> str:
    """Without the library's nickname."""
    return text.strip().rpartition(":")[2]


@cache
def _patterns() -> tuple[tuple[str, Row], ...]:
    """Each row with the plain text that its pattern begins with: few names then need a regular expression."""
    rows = tables.table_rows("kicad_footprints")
    return tuple((_plain_start(row["footprint_regex"]), row) for row in rows)


def _plain_start(pattern: str) -> str:
    start = _PLAIN.match(pattern)
    return start[1].replace("\\.", ".") if start else ""


def _match(row: Row, name: str, count: str | None) -> FootprintMatch:
    grid = _GRID.search(name)
    rows = int(grid.group("rows")) if grid else 1
    columns = int(grid.group("columns")) if grid else None
    per_row = int(count) if count else columns
    pitch = re.match(r"[\d.]+", row["pitch_mm"].removeprefix("pads "))
    return FootprintMatch(
        family=row["family_id"],
        ways=None if per_row is None else per_row * rows,
        rows=rows,
        entry=_entry(row["orientation"], name),
        contact_1=row["contact_1"] if row["contact_1"] in ("left", "right") else None,
        header_part=_header(name),
        pitch_mm=float(pitch.group()) if pitch else None,
        source=read_source(row["source"]),
    )


def _entry(orientation: str, name: str) -> str | None:
    words = {"vertical": "top", "horizontal": "side"}
    if orientation in words:
        return words[orientation]
    return next((entry for word, entry in words.items() if word in name.lower()), None)


def _header(name: str) -> str:
    """The maker's number, which stands before the count of rows and ways."""
    found = re.search(r"(?:^|_)([^_]*\d[^_]*)_\dx\d", name)
    return found.group(1) if found else ""
