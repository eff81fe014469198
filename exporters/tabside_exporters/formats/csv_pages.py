"""Pages as CSV: one header line, then the rows and nothing else, so that any reader of CSV takes them as they are.

What every page carries stands in the last column, `about`, on every row: a row that is copied elsewhere keeps it.  A
table without rows gets one row that has nothing but `about`.
"""

from __future__ import annotations

import re

from tabside.documents.document import Format, Page
from tabside.documents.rows import Column
from tabside_exporters.formats.cells import cell_text, clean, formula_safe

ABOUT = "about"
_TO_QUOTE = re.compile(r'[,;"\t\r\n]')


def write_csv(page: Page) -> bytes:
    """UTF-8 without byte order mark, lines ended by a line feed."""
    about = formula_safe(clean("; ".join(page.about.lines())))
    columns = page.document.columns
    lines = [[*(column.name for column in columns), ABOUT]]
    for row in page.rows:
        lines.append([*(_cell(row[column.name], column) for column in columns), about])
    if not page.rows:
        lines.append([*("" for _ in columns), about])
    return "".join(f"{','.join(map(_quoted, line))}\n" for line in lines).encode()


def _cell(value: object, column: Column) -> str:
    text = cell_text(value, column)
    # A number is no formula, whatever its sign.
    return text if column.kind.is_number else formula_safe(text)


def _quoted(text: str) -> str:
    """As RFC 4180 has it; Python's own writer leaves a lone return bare, which readers take for the end of a line."""
    return f'"{text.replace(chr(34), chr(34) * 2)}"' if _TO_QUOTE.search(text) else text


FORMAT = Format(id="csv", suffix="csv", title="comma-separated values, for spreadsheets", write=write_csv)
