"""What current a wire carries: by a named table and its conditions, for there is no single one."""

from __future__ import annotations

from functools import cache

from msgspec import Struct

from tabside.facts import tables
from tabside.facts.sources import Source, read_source

# Covers every size from 30 to 10 AWG, and describes single leads in open air as small craft have them.
USUAL_TABLE = "handbook_chassis"
# Sellers' figures far above every standard: shown, never a limit.
NEVER_A_LIMIT = frozenset(("rc_silicone_optimistic",))


class Row(Struct, frozen=True):
    """The current of one size in one table."""

    awg: int
    amps: float
    source: Source


class AmpacityTable(Struct, frozen=True):
    """One table, thickest size first."""

    id: str
    conditions: str
    rows: tuple[Row, ...]


class Ampacity(Struct, frozen=True):
    """What a wire may carry by a table.  `at_awg` is the row that was used."""

    amps: float
    at_awg: int
    below: bool  # the wire is thinner than every row: it carries less than `amps`
    table: AmpacityTable
    source: Source


def usable_tables() -> tuple[str, ...]:
    """Ids of the tables that may be a limit."""
    return tuple(name for name in _tables() if name not in NEVER_A_LIMIT)


def ampacity(table_id: str, awg: int) -> Ampacity:
    """The current of this size; a size without a row gets that of the next thinner row, which is less.

    Raises: KeyError when there is no such table.
    """
    table = _tables()[table_id]
    row = next((row for row in table.rows if row.awg >= awg), None)
    below = row is None
    row = row or table.rows[-1]
    return Ampacity(row.amps, row.awg, below, table, row.source)


@cache
def standards_amps(awg: int) -> Ampacity | None:
    """The most that any table of a standard lets this size carry: what exceeds it exceeds them all.  None: no table."""
    by_standards = [ampacity(name, awg) for name in usable_tables()]
    known = [found for found in by_standards if found.source.is_hard_for("")]
    return max(known, key=lambda found: found.amps, default=None)


@cache
def _tables() -> dict[str, AmpacityTable]:
    rows: dict[str, list[Row]] = {}
    conditions: dict[str, str] = {}
    for row in tables.table_rows("ampacity"):
        conditions[row["table_id"]] = row["conditions"]
        found = Row(int(row["awg"]), float(row["amps"]), read_source(row["source"]))
        rows.setdefault(row["table_id"], []).append(found)
    return {
        name: AmpacityTable(name, conditions[name], tuple(sorted(found, key=lambda row: row.awg)))
        for name, found in rows.items()
    }
