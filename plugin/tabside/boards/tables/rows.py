"""The rows of a table: CSV, a workbook (read by openpyxl), or lines of text."""

from __future__ import annotations

import csv
import io
import re
import zipfile
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

from tabside.errors import TabsideError
from tabside.ordinary_file import read_ordinary

LARGEST_TABLE = 4 * 1024 * 1024
LARGEST_UNPACKED = 16 * 1024 * 1024  # of a workbook, which is a zip file
MOST_ELEMENTS, MOST_SHEETS = 200_000, 100  # of its XML
MOST_ROWS, MOST_CELLS = 10_000, 300
WORKBOOKS = (".xlsx", ".xlsm")
_XML = (".xml", ".rels", ".vml")
_TABLES = (".csv", ".tsv")


class Row(NamedTuple):
    """One row or line, and where it stands."""

    at: str  # "line 7", "sheet GPS, row 7"
    cells: tuple[str, ...]  # () for a blank one
    section: str = ""  # the sheet's name, when there are several

    @property
    def text(self) -> str:
        return " | ".join(self.cells)


def rows_of(path: Path) -> list[Row]:
    """The rows of a file.

    Raises: TabsideError when it cannot be read, is too large, or is damaged.
    """
    raw = read_ordinary(path, path.name, LARGEST_TABLE)
    ending = path.suffix.lower()
    if ending in WORKBOOKS:
        rows = list(_of_workbook(raw, path.name))
    elif ending in _TABLES:
        rows = list(_of_csv(_text(raw, path.name), path.name))
    else:
        rows = list(rows_of_text(_text(raw, path.name)))
    if len(rows) > MOST_ROWS:
        raise TabsideError(f"has more than {MOST_ROWS} rows; cut out the pinouts", file=path.name)
    return rows


def rows_of_text(text: str) -> Iterator[Row]:
    """Lines as pasted; cells are parted by bars or tabs."""
    for n, line in enumerate(text.splitlines(), 1):
        mark = "|" if "|" in line else "\t" if "\t" in line.strip() else None
        inner = line.strip().strip("|") if mark == "|" else line
        cells = [line] if mark is None else inner.split(mark)
        yield _row(f"line {n}", cells)


def _row(at: str, cells: list[str], section: str = "") -> Row:
    tidy = [" ".join(cell.replace("**", "").replace("`", "").split()) for cell in cells[:MOST_CELLS]]
    while tidy and not tidy[-1]:
        tidy.pop()
    return Row(at, tuple(tidy), section)


def _text(raw: bytes, name: str) -> str:
    wide = raw[:2] in (b"\xff\xfe", b"\xfe\xff")
    for encoding in ("utf-16",) if wide else ("utf-8-sig", "cp1252"):
        try:
            return raw.decode(encoding)
        except UnicodeDecodeError:
            continue
    raise TabsideError("is not text; save it as UTF-8, CSV or XLSX", file=name)


def _of_csv(text: str, name: str) -> Iterator[Row]:
    try:
        mark = csv.Sniffer().sniff(text[:10_000], ",;\t|").delimiter
    except csv.Error:
        mark = ","
    try:
        for n, cells in enumerate(csv.reader(io.StringIO(text), delimiter=mark, strict=True), 1):
            yield _row(f"line {n}", cells)
            if n > MOST_ROWS:
                return
    except csv.Error as error:
        raise TabsideError(f"is no CSV table that can be read ({error}); save it again", file=name) from None


def _of_workbook(raw: bytes, name: str) -> Iterator[Row]:
    import openpyxl

    try:
        _must_be_small(raw, name)
        book = openpyxl.load_workbook(io.BytesIO(raw), read_only=True, data_only=True)
        many = len(book.worksheets) > 1
        for sheet in book.worksheets:
            at = f"sheet {sheet.title}, row" if many else "row"
            cells = sheet.iter_rows(max_row=MOST_ROWS + 1, max_col=MOST_CELLS, values_only=True)
            for n, values in enumerate(cells, 1):
                yield _row(f"{at} {n}", ["" if v is None else _whole(str(v)) for v in values], sheet.title)
            yield Row(at, ())
    except TabsideError:
        raise
    except Exception:  # openpyxl raises whatever its parts raise on a damaged workbook
        raise TabsideError("is no workbook that can be read; save it again as XLSX or CSV", file=name) from None


def _must_be_small(raw: bytes, name: str) -> None:
    """A workbook is a zip file of XML: a few kilobytes can hold millions of rows, styles or sheets."""
    elements = sheets = 0
    with zipfile.ZipFile(io.BytesIO(raw)) as packed:
        parts = [part for part in packed.infolist() if not part.filename.startswith("xl/media/")]
        size = sum(part.file_size for part in parts)
        for part in parts if size <= LARGEST_UNPACKED else ():
            text = packed.read(part)
            if b"<!DOCTYPE" in text or b"<!ENTITY" in text or (b"\0" in text and part.filename.endswith(_XML)):
                raise TabsideError("is no workbook that can be read; save it again as XLSX or CSV", file=name)
            elements += text.count(b"<") if part.filename.endswith(_XML) else 0
            sheets += text.count(b"sheetId")
    if size > LARGEST_UNPACKED or elements > MOST_ELEMENTS or sheets > MOST_SHEETS:
        raise TabsideError("is too large when unpacked; save the pinouts alone", file=name)


def _whole(text: str) -> str:
    """A workbook keeps 1 as 1.0 at times."""
    return text[:-2] if re.fullmatch(r"\d+\.0", text) else text
