"""Figures by which finished work is accepted: what a meter may read."""

from __future__ import annotations

from functools import cache

from msgspec import Struct

from tabside.facts import tables
from tabside.facts.sources import Source, read_source


class Figure(Struct, frozen=True):
    """One figure with its unit ("" for a plain factor) and where it comes from."""

    value: float
    unit: str
    what: str
    source: Source


def figure(name: str) -> Figure:
    """The figure of this name: `wire_factor`, `lead_error`, `meter_step`, `coarse_limit`.

    Raises: KeyError when there is none.
    """
    return _figures()[name]


@cache
def _figures() -> dict[str, Figure]:
    return {
        row["figure"]: Figure(float(row["value"]), row["unit"], row["what"], read_source(row["source"]))
        for row in tables.table_rows("workmanship")
    }
