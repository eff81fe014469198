"""A page with one text column for trying what a format does to a cell."""

import pandas as pd

from tabside.documents.about import About
from tabside.documents.document import CellKind, Column, Document, Page

ABOUT = About(
    craft="Pond skater",
    revision="B",
    drawing_hash="1a2b3c4d",
    tabside_version="9.8.7",
    tables_version="fedcba987654",
    errors=2,
    warnings=1,
    leads=12,
    not_judged=3,
    accepted=("no-return (warning) at pilot/J4:2, because: buzzer is driven between both contacts",),
)
COLUMNS = (
    Column("name", "what it is called"),
    Column("contact", "where", CellKind.CONTACT),
    Column("gauge_awg", "gauge, AWG", CellKind.GAUGE),
    Column("length_mm", "length, mm", CellKind.TENTHS),
)


def page(names, *, about=ABOUT, bench=False, notes=(), contact="3", gauge=28, length=85.04):
    """One row for each name; None as a gauge or length is "not known"."""
    table = pd.DataFrame(
        {
            "name": pd.Series(list(names), dtype="string"),
            "contact": pd.Series([contact] * len(names), dtype="string"),
            "gauge_awg": pd.Series([pd.NA if gauge is None else gauge] * len(names), dtype="Int64"),
            "length_mm": pd.Series([pd.NA if length is None else length] * len(names), dtype="Float64"),
        }
    )
    document = Document("tryout", "Try-out", "name", COLUMNS, lambda build: table, bench=bench)
    return Page(document, about, table, None, tuple(notes))
