"""Pages as Markdown: a sheet for the bench that can be read as it stands, and printed."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence

from tabside.documents.document import Format, Page
from tabside.documents.rows import CellKind, Column, Row
from tabside.words.cautions import CAUTIONS
from tabside_exporters.formats.cells import cell_text, clean, formula_safe

_WIDEST = 60  # characters of the longest cell that its whole column is made as wide as
# Signs that Markdown would take for its own, wherever they stand; an underscore only at the edge of a word.
_MARKS = re.compile(r"[\\`*\[\]<>&|~]|(?<![^\W_])_|_(?![^\W_])")


def write_markdown(page: Page) -> bytes:
    """The page: what it belongs to, whether it may be built, cautions, table, totals, notes, what the columns mean."""
    about = page.about
    parts = [f"# {page.document.title}: {escaped(about.craft_line)}"]
    if about.not_cleared:
        parts.append(f"**{about.not_cleared}**")
    parts.append(_bullets(about.lines_below))
    if page.document.bench:
        parts += ["Caution:", _bullets(CAUTIONS)]
    if page.notes and page.document.notes_first:
        parts += ["## Before you begin", _bullets(page.notes)]
    shown = [column for column in page.document.columns if column.on_page or page.totals is None]
    listed: dict[str, int] = {}
    parts.append(_table(page.rows, shown, listed) if page.rows else f"No {page.document.row}.")
    if listed:
        parts += ["## Sources", "\n".join(f"{number}. {text}" for text, number in listed.items())]
    totals = page.document.totals
    if page.totals and totals is not None:
        parts += ["## Totals", _table(page.totals, totals.columns, {})]
    if page.notes and not page.document.notes_first:
        parts += ["## Notes", _bullets(page.notes)]
    parts += ["## Columns", "\n".join(f"- `{column.name}`: {column.meaning}" for column in shown)]
    return ("\n\n".join(parts) + "\n").encode()


def escaped(text: str) -> str:
    """The text on one line, shown by Markdown as it was drawn; with the apostrophe of a cell that looks a formula."""
    line = " ".join(formula_safe(clean(text)).split())
    return _MARKS.sub(lambda mark: f"\\{mark[0]}", formula_safe(line))


def _table(table: Sequence[Row], columns: Sequence[Column], listed: dict[str, int]) -> str:
    """The table; texts that stand below it are put into `listed` with their numbers."""
    rows = [[_cell(row[column.name], column, listed) for column in columns] for row in table]
    return _aligned([column.name for column in columns], rows, [column.kind.is_number for column in columns])


def _aligned(heads: Sequence[str], rows: Sequence[Sequence[str]], to_right: Sequence[bool]) -> str:
    """The rows under their heads, as wide as the widest cell; a cell beyond the limit sticks out of its column."""
    cells = [heads, *rows]
    widths = [
        max(3, *(len(row[n]) for row in cells if len(row[n]) <= _WIDEST or row is heads)) for n in range(len(heads))
    ]
    rule = [_rule(width, right) for width, right in zip(widths, to_right, strict=True)]
    lines = [heads, rule, *rows]
    return "\n".join(
        f"| {' | '.join(_padded(*cell) for cell in zip(line, widths, to_right, strict=True))} |" for line in lines
    )


def _rule(width: int, right: bool) -> str:
    return "-" * (width - 1) + ":" if right else ":" + "-" * (width - 1)


def _padded(text: str, width: int, right: bool) -> str:
    return text.rjust(width) if right else text.ljust(width)


def _cell(value: object, column: Column, listed: dict[str, int]) -> str:
    text = "\\[ \\]" if column.kind is CellKind.TICK else escaped(cell_text(value, column))
    return str(listed.setdefault(text, len(listed) + 1)) if column.below and text else text


def _bullets(lines: Iterable[str]) -> str:
    return "\n".join(f"- {escaped(line)}" for line in lines)


FORMAT = Format(id="markdown", suffix="md", title="Markdown, for the bench", write=write_markdown)
