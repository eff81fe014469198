"""The files behind all facts: read once, as rows of text, and hashed for the footers of documents."""

from __future__ import annotations

import csv
import io
import os
from functools import cache

# Folder of `data` -> the tables in it.
FOLDERS = {
    "": ("battery_cells",),
    "labels": ("label_words", "ports", "role_pairs", "roles", "synonyms"),
    "plugs": ("confusable", "connectors", "contact_currents", "contacts", "kicad_footprints", "release_face"),
    "wires": ("ampacity", "colours", "usual_colours", "wire", "workmanship"),
}
_FOLDER_OF = {name: folder for folder, names in FOLDERS.items() for name in names}
TABLES = tuple(sorted(_FOLDER_OF))

Row = dict[str, str]
_DATA = os.path.join(os.path.dirname(__file__), "data")


@cache
def table_rows(name: str) -> tuple[Row, ...]:
    """The rows of one table, in file order, each as column name -> cell, blanks around a cell taken off.

    An empty cell means "unknown", never zero and never "allowed".
    """
    columns, *rows = csv.reader(io.StringIO(_table_text(name), newline=""))
    return tuple(dict(zip(columns, map(str.strip, row), strict=True)) for row in rows if row)


@cache
def tables_version() -> str:
    """Twelve hexadecimal digits that change with any byte of any table."""
    import hashlib

    digest = hashlib.sha256()
    for name in TABLES:
        digest.update(f"{name}\n{_table_text(name)}\n".encode())
    return digest.hexdigest()[:12]


def number(cell: str) -> float | None:
    """A cell as a number, None when it is empty."""
    return float(cell) if cell else None


def whole(cell: str) -> int | None:
    """A cell as a whole number, None when it is empty."""
    return int(cell) if cell else None


def _table_text(name: str) -> str:
    with open(os.path.join(_DATA, _FOLDER_OF[name], f"{name}.csv"), encoding="utf-8") as file:
        return file.read()
