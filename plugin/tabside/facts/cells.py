"""Volts of a pack by its cells in series."""

from __future__ import annotations

from functools import cache
from typing import NamedTuple

from tabside.facts import tables
from tabside.model.roles import Volts

CELLS_MAX = 24


class Cell(NamedTuple):
    """Volts of one cell: lowest under load, usual, full."""

    empty_v: float
    nominal_v: float
    full_v: float


def cell(letters: str = "") -> Cell:
    """The kind of cell that these letters name: "" for the usual lithium cell, "HV" for one charged higher.

    Raises: KeyError when there is none.
    """
    return _cells()[letters.upper()]


def pack_volts(fewest: int, most: int | None = None, letters: str = "") -> Volts:
    """What a pack of so many cells in series reaches: from the fewest cells empty to the most cells full."""
    kind = cell(letters)
    return Volts(round(fewest * kind.empty_v, 3), round((most or fewest) * kind.full_v, 3))


@cache
def _cells() -> dict[str, Cell]:
    return {
        row["letters"]: Cell(float(row["empty_v"]), float(row["nominal_v"]), float(row["full_v"]))
        for row in tables.table_rows("battery_cells")
    }
