"""The rows of a document, and what its columns mean."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from enum import StrEnum

from msgspec import Struct

from tabside.errors import TabsideError

# By column name.  None is not known; "" says that the column does not apply to the row.
Row = Mapping[str, object]


class CellKind(StrEnum):
    TEXT = "text"
    CONTACT = "contact"  # a contact's number as drawn: an integer in JSON when it is decimal
    WHOLE = "whole number"
    GAUGE = "AWG number"  # whole; 0 is 1/0, -3 is 4/0
    TENTHS = "number with one decimal"
    HUNDREDTHS = "number with two decimals"
    TICK = "box to tick"  # filled in by hand; the cell is ""

    @property
    def is_number(self) -> bool:
        return self in (CellKind.WHOLE, CellKind.GAUGE, CellKind.TENTHS, CellKind.HUNDREDTHS)


class Column(Struct, frozen=True):
    """One column of a document."""

    name: str
    meaning: str  # for the reader of a page
    kind: CellKind = CellKind.TEXT
    on_page: bool = True  # False: left out of a page on which totals stand in a table of their own
    below: bool = False  # long texts, often the same: a page may number them and list them below its table
    place: str = ""  # of board, termination and contact in a row: a page may show them as one place, under this name


def checked_rows(rows: Iterable[Row], columns: Sequence[Column], document: str) -> tuple[Row, ...]:
    """The rows with their columns in order, and numbers of the column's kind.

    Raises: TabsideError when a row has other columns than the document says, or a cell of another kind.
    """
    names = [column.name for column in columns]
    expected = set(names)
    checked: list[Row] = []
    for row in rows:
        if row.keys() != expected:
            given = ", ".join(map(str, row))
            raise TabsideError(f"document {document} gives columns {given}; it must give {', '.join(names)}")
        checked.append({column.name: _checked_cell(row[column.name], column, document) for column in columns})
    return tuple(checked)


def json_rows(rows: Iterable[Row], columns: Sequence[Column]) -> list[dict[str, object]]:
    """The rows for JSON: what is not known or does not apply is null, contacts are integers when decimal."""
    return [{column.name: _json_cell(row[column.name], column) for column in columns} for row in rows]


def _checked_cell(value: object, column: Column, document: str) -> object:
    if value is None or value == "":
        return value
    kind = column.kind
    if kind in (CellKind.WHOLE, CellKind.GAUGE) and isinstance(value, int):
        return value
    if kind in (CellKind.TENTHS, CellKind.HUNDREDTHS) and isinstance(value, int | float):
        return float(value)
    if not kind.is_number and isinstance(value, str):
        return str(value)
    raise TabsideError(f"document {document}, column {column.name}: {value!r} is no {kind.value}")


def _json_cell(value: object, column: Column) -> object:
    if value is None or value == "":
        return None
    if column.kind is CellKind.CONTACT and isinstance(value, str) and value.isascii() and value.isdigit():
        return int(value)
    return value
