"""Pages as HTML: one file that reads on a phone, prints on A4 and Letter, and needs neither network nor colour."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby
from typing import Any

from markupsafe import Markup

from tabside.documents.about import UNSAVED, About
from tabside.documents.document import Format, Page
from tabside.documents.rows import CellKind, Column, Row
from tabside.words.cautions import CAUTIONS
from tabside_exporters.formats.cells import cell_text, clean
from tabside_exporters.formats.page_templates import rendered

_SHORT = 14  # a cell of so few characters is not broken


def write_html(page: Page, drawings: Sequence[str] = (), beside: Sequence[tuple[str, str]] = ()) -> bytes:
    """What it belongs to, whether it may be built, cautions, table, totals, sources, notes, what the columns mean.

    `drawings`: parts of our own making that stand below the tables; `beside`: pages of the same folder, file and words.
    """
    shown = [column for column in page.document.columns if column.on_page or page.totals is None]
    listed: dict[str, int] = {}
    tables = [_table(page.rows, shown, page.document.group, listed)]
    totals = page.document.totals
    if page.totals and totals is not None:
        tables.append({"title": "Totals"} | _table(page.totals, totals.columns, "", {}))
    about = page.about
    return rendered(
        "tables/page.html.j2",
        styles=("tables/page.css", "bench/plug.css") if drawings else ("tables/page.css",),
        drawings=[Markup(drawing) for drawing in drawings],
        title=clean(page.document.title),
        row=page.document.row,
        about=clean_about(about),
        lines=[clean(line) for line in about_lines(about)],
        beside=beside,
        cautions=CAUTIONS if page.document.bench else (),
        tables=tables,
        sources=list(listed),
        notes=[clean(note) for note in page.notes],
        columns=[{"name": spoken(column.name), "meaning": column.meaning} for column in shown],
    )


def spoken(name: str) -> str:
    """A column's name for a reader: "from board", "gauge AWG"."""
    return name.replace("_awg", " AWG").replace("_", " ")


def clean_about(about: About) -> dict[str, str]:
    """What every page carries, without characters that have no shape of their own."""
    return {
        "craft_line": clean(about.craft_line),
        "not_cleared": about.not_cleared,
        "verdict": about.title_verdict,
        "unsaved": UNSAVED if about.unsaved else "",
        "drawing_hash": about.drawing_hash,
    }


def about_lines(about: About) -> tuple[str, ...]:
    """What stands below the title and the banner."""
    lines = about.lines()[1 + bool(about.not_cleared) :]
    return (*lines, WHICH) if about.errors or about.warnings else lines


WHICH = "What was found, each with its fix: on the findings page"


def _table(rows: Sequence[Row], columns: Sequence[Column], group: str, listed: dict[str, int]) -> dict[str, Any]:
    """Heads, and rows in groups; texts that stand below the table are put into `listed` with their numbers."""
    under = [column for column in columns if column.name != group]
    groups = [
        {"name": clean(str(name)), "rows": [[_cell(row[c.name], c, listed) for c in under] for row in found]}
        for name, found in groupby(rows, key=lambda row: row[group] if group else "")
    ]
    heads = [{"name": spoken(column.name), "attributes": _attributes(column, column.name)} for column in under]
    return {"title": "", "heads": heads, "groups": groups}


def _cell(value: object, column: Column, listed: dict[str, int]) -> dict[str, Any]:
    tick = column.kind is CellKind.TICK
    text = "" if tick else cell_text(value, column)
    if column.below and text:
        text = str(listed.setdefault(text, len(listed) + 1))
    shown = spoken(column.name)
    return {"text": text, "tick": tick, "name": shown, "attributes": _attributes(column, text, empty=not tick)}


def _attributes(column: Column, text: str, *, empty: bool = False) -> Markup:
    classes = ["number"] * column.kind.is_number + ["short"] * (len(text) <= _SHORT) + ["none"] * (empty and not text)
    return Markup(f' class="{" ".join(classes)}"') if classes else Markup("")


FORMAT = Format(id="html", suffix="html", title="HTML, to read on a phone and to print", write=write_html)
