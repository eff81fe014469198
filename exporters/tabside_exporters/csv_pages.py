"""Pages as CSV: one header line, then the rows and nothing else, so that any reader of CSV takes them as they are.

What every page carries stands in the last column, `about`, on every row: a row that is copied elsewhere keeps it.  A
table without rows gets one row that has nothing but `about`.
"""

from __future__ import annotations

import csv
import io

from tabside.plan.documents import CellKind, Format, Page

from .cells import cell_text, clean, formula_safe

ABOUT = "about"


def write_csv(page: Page) -> bytes:
    """UTF-8 without byte order mark, lines ended by a line feed."""
    about = formula_safe(clean("; ".join(page.about.lines())))
    columns = page.document.columns
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow([*(column.name for column in columns), ABOUT])
    for row in page.table.itertuples(index=False, name=None):
        texts = [(cell_text(value, column), column) for value, column in zip(row, columns, strict=True)]
        # A number is no formula, whatever its sign.
        numbers = (CellKind.WHOLE, CellKind.TENTHS)
        writer.writerow([*(t if column.kind in numbers else formula_safe(t) for t, column in texts), about])
    if page.table.empty:
        writer.writerow([*("" for _ in columns), about])
    return out.getvalue().encode()


FORMAT = Format(id="csv", suffix="csv", title="comma-separated values, for spreadsheets", write=write_csv)
