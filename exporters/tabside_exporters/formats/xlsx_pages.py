"""Pages as a workbook: every cell is text, never a formula, a number or a link.

What every page carries stands on top of each sheet: a sheet that is printed alone keeps it.  The bytes depend on the
page alone: the file's own date is fixed, and its archive holds no clock.
"""

from __future__ import annotations

import io
import re
from collections.abc import Iterable, Sequence
from datetime import datetime
from typing import TYPE_CHECKING

import xlsxwriter
from msgspec import Struct

from tabside.documents.document import Format, Page
from tabside.documents.rows import CellKind, Column, Row
from tabside.words.cautions import CAUTIONS
from tabside_exporters.formats.cells import cell_text, clean

if TYPE_CHECKING:
    from xlsxwriter.format import Format as Look
    from xlsxwriter.worksheet import Worksheet

_DATE = datetime(1980, 1, 1)
_LONGEST = 32_767  # characters that a cell takes
_CLIPPED = " ... (cut here: longer than a cell takes)"
_WIDEST, _NARROWEST = 24, 6  # widths of columns, in characters
_LINE_POINTS = 15
_NOT_IN_SHEET_NAMES = re.compile(r"[\[\]:*?/\\]")
_LONGEST_SHEET_NAME = 31


class _Looks(Struct, frozen=True):
    plain: Look
    wide: Look  # runs over all columns
    loud: Look
    head: Look
    cell: Look
    to_right: Look


def write_xlsx(page: Page) -> bytes:
    """One workbook: a sheet with the table, and one with the totals where the document has some."""
    file = io.BytesIO()
    book = xlsxwriter.Workbook(file, {"in_memory": True})
    book.set_properties({"title": clean(page.document.title), "created": _DATE})
    text = {"num_format": "@", "valign": "top"}
    framed = text | {"border": 1, "text_wrap": True}
    looks = _Looks(
        plain=book.add_format(text),
        wide=book.add_format(text | {"text_wrap": True}),
        loud=book.add_format(text | {"text_wrap": True, "bold": True, "font_size": 14, "border": 2}),
        head=book.add_format(framed | {"bold": True, "bottom": 2}),
        cell=book.add_format(framed),
        to_right=book.add_format(framed | {"align": "right"}),
    )
    columns, totals = page.document.columns, page.document.totals
    shown = [column for column in columns if column.on_page or page.totals is None]
    _sheet(book, looks, page, page.document.title, shown, page.rows)
    if totals is not None and page.totals:
        _sheet(book, looks, page, f"{page.document.title[:20]} totals", totals.columns, page.totals)
    book.close()
    return file.getvalue()


def _sheet(
    book: xlsxwriter.Workbook, looks: _Looks, page: Page, name: str, columns: Sequence[Column], table: Sequence[Row]
) -> None:
    sheet = book.add_worksheet(_NOT_IN_SHEET_NAMES.sub(" ", clean(name))[:_LONGEST_SHEET_NAME])
    rows = [[_text(row[column.name], column) for column in columns] for row in table]
    widths = [_width(column.name, (row[n] for row in rows)) for n, column in enumerate(columns)]
    for n, width in enumerate(widths):
        sheet.set_column(n, n, width, looks.plain)
    lines = _Lines(sheet, looks, len(columns), sum(widths))
    lines.add(f"{page.document.title}: {page.about.craft_line}", looks.loud)
    if page.about.not_cleared:
        lines.add(page.about.not_cleared, looks.loud)
    lines.add_all(page.about.lines()[bool(page.about.not_cleared) + 1 :])
    if page.document.bench:
        lines.add_all(f"Caution: {caution}" for caution in CAUTIONS)
    head = lines.next + 1
    for n, column in enumerate(columns):
        sheet.write_string(head, n, column.name, looks.head)
    look_of = [looks.to_right if column.kind.is_number else looks.cell for column in columns]
    for at, row in enumerate(rows, head + 1):
        sheet.set_row(at, _LINE_POINTS * max(map(_lines_needed, row, widths)))
        for n, (text, look) in enumerate(zip(row, look_of, strict=True)):
            sheet.write_string(at, n, _fitting(text), look)
    lines.next = head + len(rows) + 2
    if not rows:
        lines.add(f"No {page.document.row}.", looks.wide)
    lines.add_all(page.notes)
    lines.add_all(f"{column.name}: {column.meaning}" for column in columns)
    _for_paper(sheet, page, head)


class _Lines:
    """Lines of text over the whole width of a sheet, as high as they need to be."""

    def __init__(self, sheet: Worksheet, looks: _Looks, columns: int, width: float) -> None:
        self._sheet, self._looks, self._last, self._width = sheet, looks, columns - 1, width
        self.next = 0

    def add_all(self, lines: Iterable[str]) -> None:
        for line in lines:
            self.add(line, self._looks.wide)

    def add(self, text: str, look: Look) -> None:
        text = _fitting(clean(text))
        if self._last:
            self._sheet.merge_range(self.next, 0, self.next, self._last, "", look)
        self._sheet.write_string(self.next, 0, text, look)
        larger = 1.5 if look is self._looks.loud else 1.0
        self._sheet.set_row(self.next, _lines_needed(text, self._width / larger) * _LINE_POINTS * larger)
        self.next += 1


def _for_paper(sheet: Worksheet, page: Page, head: int) -> None:
    """All columns on one page's width, the head on each page, and whose page it is."""
    sheet.ignore_errors({"number_stored_as_text": "A1:XFD1048576"})
    sheet.set_landscape()
    sheet.set_margins(left=0.4, right=0.4, top=0.4, bottom=0.6)
    sheet.fit_to_pages(1, 0)
    sheet.repeat_rows(head)
    about = page.about
    said = f"{about.craft_line}, {about.drawing_hash}" + (f"  {about.not_cleared}" if about.not_cleared else "")
    sheet.set_footer(f"&L{_plain_footer(said)}&R&P / &N")


def _plain_footer(text: str) -> str:
    """Without signs that mean something in a footer; the format takes 255 characters in all."""
    return " ".join(clean(text).split())[:110].replace("&", "&&")


def _text(value: object, column: Column) -> str:
    return "\N{BALLOT BOX}" if column.kind is CellKind.TICK else cell_text(value, column)


def _lines_needed(text: str, width: float) -> int:
    """How many lines a text takes in a column of this width, at most as many as a row can show (409 points)."""
    if len(text) < width - 1 and "\n" not in text:
        return 1
    return min(27, sum(1 + int(len(line) / max(1.0, width - 1)) for line in text.split("\n")))


def _fitting(text: str) -> str:
    return text if len(text) <= _LONGEST else text[: _LONGEST - len(_CLIPPED)] + _CLIPPED


def _width(head: str, cells: Iterable[str]) -> int:
    longest = max((len(line) for text in cells for line in text.split("\n")), default=0)
    return max(_NARROWEST, len(head) + 1, min(longest + 2, _WIDEST))


FORMAT = Format(id="xlsx", suffix="xlsx", title="workbook, for spreadsheets; cells are text", write=write_xlsx)
