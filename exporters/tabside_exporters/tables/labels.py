"""Labels: a flag for each end of a cable and a tube for each end of a wire, and a table for label printers."""

from __future__ import annotations

from collections.abc import Iterator

from msgspec import Struct

from tabside.documents.build import CraftBuild
from tabside.documents.document import Document, Page
from tabside.documents.rows import CellKind, Column, Row
from tabside.model.craft import ContactKey
from tabside_exporters.formats.cells import clean
from tabside_exporters.formats.html_pages import about_lines, clean_about
from tabside_exporters.formats.page_templates import rendered
from tabside_exporters.formats.plain import TABLES

# All sizes in mm: common practice, no source.
_FLAG_HEIGHT, _FLAG_LEAST, _AROUND = 10.0, 18.0, 12.0
_TUBE_HEIGHT, _TUBE_LEAST = 5.0, 14.0
_FLAG_TEXT, _TUBE_TEXT = 2.4, 2.6
_LETTER = 0.66  # a letter's width against its height: the widest of common upright fonts, measured, no source
_BOLD = 0.76  # the same of bold ones
_MOST = 28  # letters of a line that is printed; the table has them all

COLUMNS = (
    Column("text", "what is printed, lines separated by a stroke"),
    Column("of", "cable or wire"),
    Column("mark", "its number"),
    Column("end", "at which end it goes: board and connector, of a wire its contact, too"),
    Column("kind", "flag: folded around the cable and stuck to itself; tube: slid over the wire"),
    Column("width_mm", "width of the whole label, mm", CellKind.TENTHS),
    Column("height_mm", "height, mm", CellKind.TENTHS),
)
_HOW = (
    'Print at 100 %, never "fit to page"; hold a ruler against the one on the page.',
    f"Flags: the middle of {_AROUND:g} mm goes around the cable, enough for a bundle of "
    f"{_AROUND / 3.1416:.1f} mm; on a thicker one the halves meet less.",
    "Tubes: slide them on before the second end is made; paper strips go under clear heat-shrink. On a wire that has "
    "both its ends (a bought cable, a new number): a strip around it, under clear tape.",
    "Sizes: common practice, no source.",
)


class Label(Struct, frozen=True):
    """One label."""

    lines: tuple[str, ...]
    of: str
    mark: str
    end: str
    kind: str  # "flag", "tube"

    @property
    def width_mm(self) -> float:
        """Of a flag both halves and the middle."""
        longest = max(len(line) for line in self.shown)
        if self.kind == "tube":
            return max(_TUBE_LEAST, _TUBE_TEXT * _BOLD * longest + 2.5)
        return 2 * self.half_mm + _AROUND

    @property
    def half_mm(self) -> float:
        """Of a flag that is stuck to its other half."""
        return max(_FLAG_LEAST, _FLAG_TEXT * _LETTER * max(len(line) for line in self.shown) + 3)

    @property
    def height_mm(self) -> float:
        return _TUBE_HEIGHT if self.kind == "tube" else _FLAG_HEIGHT

    @property
    def shown(self) -> tuple[str, ...]:
        """The lines as they are printed."""
        return tuple(line if len(line) <= _MOST else line[: _MOST - 1] + "…" for line in map(clean, self.lines))


def labels_of(build: CraftBuild) -> Iterator[Label]:
    """Flags of cables, then tubes of wires, in the order of the plan and of the wire list."""
    for cable in build.plan.cables:
        if cable.mark:
            for end in cable.ends:
                lines = (cable.mark, end.board, end.termination)
                yield Label(tuple(dict.fromkeys(lines)), "cable", cable.mark, end.shown, "flag")
    for made in build.leads:
        for key in made.lead.ends:
            line = f"{made.lead.mark} {key[0]}:{key[1]}"
            yield Label((line,), "wire", made.lead.mark, _place(build, key), "tube")


def _place(build: CraftBuild, key: ContactKey) -> str:
    board = build.craft.terminations[key[0]].board
    return f"{key[0]}:{key[1]}" if board == key[0] else f"{board}/{key[0]}:{key[1]}"


def label_table(build: CraftBuild) -> Iterator[Row]:
    """One row for each label."""
    for label in labels_of(build):
        yield {
            "text": " | ".join(label.lines),
            "of": label.of,
            "mark": label.mark,
            "end": label.end,
            "kind": label.kind,
            "width_mm": round(label.width_mm, 1),
            "height_mm": label.height_mm,
        }


def write_labels(page: Page, build: CraftBuild) -> bytes:
    """Every label at true size, with a ruler to hold against the print."""
    labels = list(labels_of(build))
    about = page.about
    return rendered(
        "tables/labels.html.j2",
        styles=("tables/page.css", "tables/labels.css"),
        title=page.document.title,
        about=clean_about(about),
        lines=[clean(line) for line in about_lines(about)],
        notes=_HOW,
        flags=[_drawn(label) for label in labels if label.kind == "flag"],
        tubes=[_drawn(label) for label in labels if label.kind == "tube"],
    )


def _drawn(label: Label) -> dict[str, object]:
    half = label.half_mm
    first = label.height_mm / 2 - 3 * (len(label.shown) - 1) / 2 + 0.9
    return {
        "width": round(label.width_mm, 2),
        "height": label.height_mm,
        "half": round(half, 2),
        "folds": [round(half, 2), round(half + _AROUND, 2)],
        "centres": [round(half / 2, 2), round(half * 1.5 + _AROUND, 2)],
        "lines": [{"text": line, "y": round(first + 3 * n, 2)} for n, line in enumerate(label.shown)],
        "said": f"{' '.join(label.shown)}, {label.of} {clean(label.mark)}, at {clean(label.end)}",
    }


def _notes(build: CraftBuild) -> tuple[str, ...]:
    return _HOW


DOCUMENT = Document(
    id="labels",
    title="Labels",
    purpose="Flags for cables and tubes for wires at true size, and a table for label printers",
    row="label",
    columns=COLUMNS,
    rows=label_table,
    notes=_notes,
    written_by={**TABLES, "html": write_labels},
)
