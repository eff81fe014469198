"""The bill of materials: what has to be there before the build day."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from msgspec.structs import replace

from tabside.documents.build import CraftBuild
from tabside.documents.document import Document
from tabside.documents.rows import CellKind, Column, Row
from tabside.facts import families
from tabside.facts.colours import colour_legend
from tabside.make.bench_needs import Shelf
from tabside.make.buy.purchase import Purchase
from tabside_exporters.tables.legend import gauge_legend

COLUMNS = (
    Column("shelf", "part of the craft, used up on the bench, tool, or needed for tests and first power"),
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
    Column("used_for", "cables, plugs, wires or references that it goes into, with how many where it is more than one"),
    Column(
        "source",
        "where the part number, or how a contact is released, was found, and how that was learnt",
        below=True,
    ),
    Column("note", "remarks"),
)


# Lines that agree in all of these are one line.  What is in stock is one of them, and is no sum: each line that draws
# on a stock names all of it.
_SAME = ("item", "part_number", "family", "ways", "gauge_awg", "colour", "unit", "in_stock", "note")


def bom(build: CraftBuild) -> Iterator[Row]:
    """One row for each kind of part."""
    return (_row(Shelf.CRAFT, purchase) for purchase in _gathered(build.purchases))


def shopping_list(build: CraftBuild) -> Iterator[Row]:
    """The BOM, and what the bench needs besides: one place to look before the work begins."""
    yield from bom(build)
    yield from (_row(need.shelf, need.what) for need in build.bench_needs)


def _gathered(lines: Sequence[Purchase]) -> Iterator[Purchase]:
    """Lines of the same part as one; not known stays not known."""
    if len({tuple(getattr(line, name) for name in _SAME) for line in lines}) == len(lines):
        yield from lines
        return
    import pandas as pd  # slow to import: only where lines are to be gathered

    def texts(name: str) -> pd.Series[str]:
        values = [getattr(line, name) for line in lines]
        return pd.Series([None if value is None else str(value) for value in values], dtype="string")

    table = pd.DataFrame({name: texts(name) for name in _SAME})
    table["first"] = range(len(lines))
    table["quantity"] = pd.array([line.quantity for line in lines], dtype="Int64")
    table["in_kits"] = [line.in_kits for line in lines]
    table["used_for"] = [line.used_for for line in lines]
    for _, same in table.groupby(list(_SAME), dropna=False, sort=False):
        quantity = same["quantity"].sum(skipna=False)
        yield replace(
            lines[same["first"].iloc[0]],
            quantity=None if pd.isna(quantity) else int(quantity),
            in_kits=int(same["in_kits"].sum()),
            used_for=tuple(place for places in same["used_for"] for place in places),
        )


def _row(shelf: Shelf, purchase: Purchase) -> Row:
    return {
        "shelf": shelf.value,
        "item": purchase.item,
        "part_number": purchase.part_number,
        "family": families.family(purchase.family).title if purchase.family else purchase.family,
        "ways": purchase.ways,
        "gauge_awg": purchase.gauge_awg,
        "colour": purchase.colour,
        "quantity": purchase.quantity,
        "unit": purchase.unit,
        "in_stock": purchase.in_stock,
        "to_buy": "" if shelf is Shelf.TOOLS else purchase.to_buy,
        "used_for": ", ".join(purchase.used_for),
        "source": purchase.source,
        "note": purchase.note,
    }


def _notes(build: CraftBuild) -> tuple[str, ...]:
    notes = (
        "Crimp contacts include spares for spoiled crimps; nothing else has spares.",
        "Boards, parts, and what tests and first power need are listed whether you have them or not.",
    )
    lines = build.purchases
    gauges = gauge_legend(line.gauge_awg for line in lines if isinstance(line.gauge_awg, int))
    return (*notes, *colour_legend(line.colour for line in lines), *gauges)


DOCUMENT = Document(
    id="bom",
    title="Shopping list (BOM)",
    purpose="What to have and what to buy before the work: parts with their numbers, tools, limiter, test connectors",
    row="part",
    columns=COLUMNS,
    rows=shopping_list,
    group="shelf",
    notes=_notes,
)
