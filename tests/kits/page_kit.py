"""A page with one text column for trying what a format does to a cell."""

from tabside.documents.about import About
from tabside.documents.document import Document, Page
from tabside.documents.rows import CellKind, Column

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
    rows = tuple({"name": name, "contact": contact, "gauge_awg": gauge, "length_mm": length} for name in names)
    document = Document("tryout", "Try-out", "name", COLUMNS, lambda build: rows, bench=bench)
    return Page(document, about, rows, None, tuple(notes))
