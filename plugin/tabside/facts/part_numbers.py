"""Part numbers with the count of circuits in them: `SHR-{nn}V-S-B` for 4 ways is SHR-04V-S-B."""

from __future__ import annotations

import re
from functools import cache

from msgspec import Struct

from tabside.facts.sources import Source

# Words of the tables that say which of several parts a number is; they stand before it.
_WHICH = re.compile(r"(?P<which>(?:TPA )?(?:plugs?|receptacles?)) ")
_NOTE = re.compile(r"\s*\((?P<note>[^()]*(?:\([^()]*\)[^()]*)*)\)$")
_CIRCUITS = re.compile(r",?\s*circuits (?P<counts>[\d\s-]+)")


class PartPattern(Struct, frozen=True):
    """A part number of a family for any count of ways, as its table states it."""

    template: str  # {n}: the count, {nn}: the count with two digits; with neither it names a series, not a part
    note: str
    circuits: frozenset[int] | None  # counts that exist with this number; None: those of the family

    @property
    def complete(self) -> bool:
        """Whether a count of ways makes a whole part number of it."""
        return "{n" in self.template and "x" not in self.template

    def number(self, ways: int) -> str:
        return self.template.replace("{nn}", f"{ways:02d}").replace("{n}", str(ways))


class Part(Struct, frozen=True):
    """A part to buy.  `complete` is False when the tables know the series, not the number for these ways."""

    number: str
    note: str
    source: Source
    complete: bool = True


@cache
def read_patterns(cell: str) -> tuple[PartPattern, ...]:
    """All part numbers of a cell such as `PHR-{n}` or `43025-{nn}00 (2 rows); 43645-{nn}00 (1 row)`."""
    patterns: list[PartPattern] = []
    for text in (piece.strip() for piece in cell.split("; ")) if cell else ():
        if text.startswith("-"):  # "B{nn}B-XASK-1; -1-A": another ending of the number before
            last = patterns.pop()
            patterns.append(PartPattern(last.template, f"{last.note}; also ends {text}".lstrip("; "), last.circuits))
        else:
            patterns.append(_pattern(text))
    return tuple(patterns)


def read_circuits(cell: str) -> frozenset[int] | None:
    """`2-16 20` as a set of counts; None when the cell is empty: not known, which is not "none"."""
    counts: set[int] = set()
    for piece in cell.split():
        first, _, last = piece.partition("-")
        counts.update(range(int(first), int(last or first) + 1))
    return frozenset(counts) or None


def _pattern(text: str) -> PartPattern:
    which = _WHICH.match(text)
    body = text[which.end() :] if which else text
    found = _NOTE.search(body)
    note = found.group("note") if found else ""
    template = body[: found.start()] if found else body
    counts = _CIRCUITS.search(note)
    note = _CIRCUITS.sub("", note).strip()
    named = which.group("which").replace("receptacle", "cable housing") if which else ""
    notes = [part for part in (named, note) if part]
    return PartPattern(template.strip(), "; ".join(notes), read_circuits(counts.group("counts")) if counts else None)
