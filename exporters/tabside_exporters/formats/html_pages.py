"""Pages as HTML: one file that reads on a phone, prints on A4 and Letter, and needs neither network nor colour."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from itertools import groupby
from typing import Any

from markupsafe import Markup, escape

from tabside.documents.about import UNSAVED, About
from tabside.documents.document import Format, Page
from tabside.documents.rows import CellKind, Column, Row
from tabside.words.cautions import CAUTIONS
from tabside_exporters.formats.cells import cell_text, clean
from tabside_exporters.formats.page_templates import rendered

_DRAWN = "Each plug that changes, old and new"
_WHOLE = 16  # a piece of a word of so few characters is not broken
_PIECES = re.compile(r"(?<=[\w)])([/_:;,.=+]+)(?=[\w(])")  # behind these a long word may go on in the next line
_SIZE = re.compile(r"\d+-way\b")  # stays on one line
_WORDS = re.compile(r"[\s\u2010]+|-(?!\d)")  # a line does not end between a hyphen and a figure


def write_html(page: Page, drawings: Sequence[str] = (), beside: Sequence[tuple[str, str]] = ()) -> bytes:
    """What it belongs to, whether it may be built, cautions, table, totals, sources, notes, what the columns mean.

    `drawings`: parts of our own making that stand below the tables; `beside`: pages of the same folder, file and words.
    """
    shown = [column for column in page.document.columns if column.on_page or page.totals is None]
    listed: dict[str, int] = {}
    tables = [{"title": ""} | _table(page.rows, shown, page.document.group, listed)]
    totals = page.document.totals
    if page.totals and totals is not None:
        tables.append({"title": "Totals"} | _table(page.totals, totals.columns, "", {}))
    about = page.about
    return rendered(
        "tables/page.html.j2",
        styles=("tables/page.css", "bench/plug.css") if drawings else ("tables/page.css",),
        drawings=[Markup(drawing) for drawing in drawings],
        drawn=_DRAWN,
        title=clean(page.document.title),
        row=page.document.row,
        about=clean_about(about),
        lines=[clean(line) for line in about_lines(about)],
        beside=beside,
        cautions=CAUTIONS if page.document.bench else (),
        tables=tables,
        sources=list(listed),
        notes=[clean(note) for note in page.notes],
        notes_first=page.document.notes_first,
        columns=[_legend(columns) for columns in _cells_of(shown)],
    )


def spoken(name: str) -> str:
    """A column's name for a reader: "from board", "gauge AWG", "to connector"."""
    words = name.replace("_awg", " AWG").split("_")
    return " ".join(_SPOKEN.get(word, word) for word in words)


_SPOKEN = {  # keys keep their names, heads speak
    "termination": "connector",
    "lead": "wire",
    "leads": "wires",
    "mark": "number",
    "chosen": "how chosen",
    "there": "other end",
    "note": "remarks",
}


def clean_about(about: About) -> dict[str, str]:
    """What every page carries, without characters that have no shape of their own."""
    return {
        "craft_line": clean(about.craft_line),
        "not_cleared": about.not_cleared,
        "verdict": about.title_verdict,
        "unsaved": UNSAVED if about.unsaved else "",
        "drawing_hash": about.drawing_hash,
    }


def about_lines(about: About, *, here: bool = False) -> tuple[str, ...]:
    """What stands below the title and the banner; `here`: this page is the one that lists what was found."""
    lines = about.lines()[1 + bool(about.not_cleared) :]
    return (*lines, WHICH) if (about.errors or about.warnings) and not here else lines


WHICH = "What was found, each with its fix: on the findings page"


def _table(rows: Sequence[Row], columns: Sequence[Column], group: str, listed: dict[str, int]) -> dict[str, Any]:
    """Heads, and rows in groups; texts that stand below the table are put into `listed` with their numbers."""
    under = _cells_of([column for column in columns if column.name != group])
    headed = [(_head(columns), columns) for columns in under]
    heads = [{"name": head, "attributes": _attributes(columns[0], head)} for head, columns in headed]
    groups = [
        {"name": clean(str(name)), "rows": [[_cell(row, *cell, listed) for cell in headed] for row in found]}
        for name, found in groupby(rows, key=lambda row: row[group] if group else "")
    ]
    return {"heads": heads, "groups": groups}


def _cells_of(columns: Sequence[Column]) -> list[tuple[Column, ...]]:
    """The columns that stand in one cell: those of one place, which follow each other."""
    alone = enumerate(columns)
    return [tuple(c for _, c in found) for _, found in groupby(alone, key=lambda pair: pair[1].place or pair[0])]


def _head(columns: Sequence[Column]) -> str:
    return spoken(columns[0].place or columns[0].name)


def _legend(columns: Sequence[Column]) -> dict[str, str]:
    return {"name": _head(columns), "meaning": ", ".join(column.meaning for column in columns)}


def _cell(row: Row, head: str, columns: Sequence[Column], listed: dict[str, int]) -> dict[str, Any]:
    column = columns[0]
    tick = column.kind is CellKind.TICK
    text = "" if tick else _place(row, columns) if column.place else cell_text(row[column.name], column)
    if column.below and text:
        text = str(listed.setdefault(text, len(listed) + 1))
    attributes = _attributes(column, text, empty=not tick)
    return {"text": _breakable(text), "tick": tick, "name": head, "attributes": attributes}


def _place(row: Row, columns: Sequence[Column]) -> str:
    """ "pilot/J9:2"; "F1:2" where the part is its own board."""
    board, termination, contact = (cell_text(row[column.name], column) for column in columns)
    return f"{termination}:{contact}" if board == termination else f"{board}/{termination}:{contact}"


def _breakable(text: str) -> Markup:
    """The text with places at which its long words may go on in the next line."""
    if len(text) <= _WHOLE:  # as most cells are
        return escape(text)
    return Markup(" ").join(map(_breakable_word, text.split(" ")))


def _breakable_word(word: str) -> Markup:
    if len(word) > _WHOLE:
        return Markup("<wbr>").join(_parts(word))
    return Markup('<span class="size">{}</span>').format(word) if _SIZE.match(word) else escape(word)


def _parts(word: str) -> Iterator[str]:
    """ "Capacitor_THT:", "CP_Radial_" ...: as long as may be, and each separator at the end of its part."""
    pieces = _PIECES.sub(r"\1\n", word).split("\n")
    part = ""
    for piece in pieces:
        if part and len(part) + len(piece) > _WHOLE:
            yield part
            part = ""
        part += piece
    yield part


def _attributes(column: Column, text: str, *, empty: bool = False) -> Markup:
    whole = len(text) <= _WHOLE or all(len(piece) <= _WHOLE for word in _WORDS.split(text) for piece in _parts(word))
    classes = ["number"] * column.kind.is_number + ["short"] * whole + ["none"] * (empty and not text)
    return Markup(f' class="{" ".join(classes)}"') if classes else Markup("")


FORMAT = Format(id="html", suffix="html", title="HTML, to read on a phone and to print", write=write_html)
