"""The bill of materials: what has to be there before the build day."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tabside.documents.build import Build
from tabside.documents.document import CellKind, Column, Document
from tabside.make.buy.purchase import Purchase
from tabside_exporters.tables.legend import colour_legend, gauge_legend
from tabside_exporters.tables.table import table_of

if TYPE_CHECKING:
    from pandas import DataFrame

COLUMNS = (
    Column("item", "what it is"),
    Column("part_number", "the maker's number; not known where no source has it"),
    Column("family", "connector family"),
    Column("ways", "cavities of the plug", CellKind.WHOLE),
    Column("gauge_awg", "gauge of the conductor, AWG", CellKind.GAUGE),
    Column("colour", "IEC 60757 code, or as written in the drawing"),
    Column("quantity", "how many or how much", CellKind.WHOLE),
    Column("unit", "of the quantity"),
    Column("in_stock", "what the stock in the craft file gives", CellKind.WHOLE),
    Column("to_buy", "what is missing", CellKind.WHOLE),
    Column("used_for", "plugs, leads or references that it goes into, with how many where it is more than one"),
    Column("source", "where the part number was found; [A] and [B] name the maker's own document", below=True),
    Column("note", "what to mind"),
)


def bom(build: Build) -> DataFrame:
    """One row for each kind of part."""
    return table_of((_row(purchase) for purchase in build.purchases), COLUMNS)


def _row(purchase: Purchase) -> dict[str, object]:
    return {
        "item": purchase.item,
        "part_number": purchase.part_number,
        "family": purchase.family,
        "ways": purchase.ways,
        "gauge_awg": purchase.gauge_awg,
        "colour": purchase.colour,
        "quantity": purchase.quantity,
        "unit": purchase.unit,
        "in_stock": purchase.in_stock,
        "to_buy": purchase.to_buy,
        "used_for": ", ".join(purchase.used_for),
        "source": purchase.source,
        "note": purchase.note,
    }


def _notes(build: Build) -> tuple[str, ...]:
    notes = (
        "Contacts for crimping hold spoiled ones; nothing else is added for mistakes.",
        "Boards and parts are listed whether you have them or not.",
    )
    lines = build.purchases
    gauges = gauge_legend(line.gauge_awg for line in lines if isinstance(line.gauge_awg, int))
    return (*notes, *colour_legend(line.colour for line in lines), *gauges)


DOCUMENT = Document(id="bom", title="BOM", row="part", columns=COLUMNS, table=bom, notes=_notes)
