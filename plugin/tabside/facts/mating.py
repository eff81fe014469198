"""Which plugs fit which receptacles, and which only look as if they did."""

from __future__ import annotations

import re
from functools import cache

from msgspec import Struct

from tabside.facts import families, tables
from tabside.facts.part_numbers import read_circuits
from tabside.facts.sources import Source, read_source


class LookAlike(Struct, frozen=True):
    """Two plugs that are taken for each other, or fit and do harm."""

    a: str  # a family's id, or a port in words ("jst_gh 4-way CAN")
    b: str
    what_happens: str
    severity: str  # "block": does not mate, "warn": mates badly, "hazard": mates and does harm
    source: Source
    enters: str = ""  # contacts that meet when a plug of `a` enters a header of `b`: "all", "some", "shifted"; "" none
    ways: frozenset[int] | None = None  # of the plugs that go in; None: any


def mate(a: str, b: str) -> bool:
    """Whether a plug of family `a` is stated to fit a receptacle of family `b`: the same one, or named beside it.

    Not stated is False.  A "may mate" of the table is not a statement.
    """
    return a == b or b in _stated(a) or a in _stated(b)


def confusable(a: str, b: str) -> tuple[LookAlike, ...]:
    """What is known about mistaking one family for the other, in either order."""
    return tuple(row for row in look_alikes() if {row.a, row.b} == {a, b})


@cache
def goes_into(plug: str, header: str) -> LookAlike | None:
    """What is known of a plug of one family that enters a header of another, in this direction alone; None: nothing.

    A header of the plug's own family counts when the plug has more ways than it (`enters` is "shifted").
    """
    rows = [row for row in look_alikes() if row.enters and row.a == plug and row.b.split(" ")[0] == header]
    return rows[0] if rows else None


@cache
def look_alikes() -> tuple[LookAlike, ...]:
    """The whole table."""
    return tuple(
        LookAlike(
            row["family_a"],
            row["family_b"],
            row["what_happens"],
            row["severity"],
            read_source(row["source"]),
            row["a_in_b"].partition(" ")[0],
            read_circuits(row["a_in_b"].partition(" ")[2]),
        )
        for row in tables.table_rows("confusable")
    )


@cache
def _stated(family_id: str) -> frozenset[str]:
    """Ids of the families that a family's row says it mates with."""
    known = set(families.family_ids())
    if family_id not in known:
        return frozenset()
    text = re.sub(r"\bmay mate\b.*", "", families.family(family_id).mates_with)
    return frozenset(known & set(re.findall(r"\w+", text)))
