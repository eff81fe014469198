"""Rows of plain Python values as a table whose columns have their types."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

import pandas as pd

from tabside.documents.document import CellKind, Column

_TYPES = {
    CellKind.TEXT: "string",
    CellKind.CONTACT: "string",
    CellKind.WHOLE: "Int64",
    CellKind.GAUGE: "Int64",
    CellKind.TENTHS: "Float64",
    CellKind.HUNDREDTHS: "Float64",
    CellKind.TICK: "string",
}


def table_of(rows: Iterable[Mapping[str, object]], columns: Sequence[Column]) -> pd.DataFrame:
    """A table with exactly these columns; None becomes a missing cell, whatever the column's type.

    A column of numbers is one of plain objects where "" says that the number does not apply to a row.
    """
    gathered = list(rows)
    return pd.DataFrame({column.name: _cells([row[column.name] for row in gathered], column) for column in columns})


def _cells(values: list[object], column: Column) -> pd.Series[Any]:
    mixed = column.kind.is_number and "" in values
    cells = [pd.NA if value is None else value for value in values]
    return pd.Series(cells, dtype="object" if mixed else _TYPES[column.kind])
