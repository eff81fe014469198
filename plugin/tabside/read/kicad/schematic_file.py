"""Reads one .kicad_sch file.  Whatever is wrong with it becomes one line with file, line and column."""

from __future__ import annotations

import os

from tabside.errors import TabsideError
from tabside.ordinary_file import read_ordinary
from tabside.read.kicad.content import Memory, sheet_file_of_text, sheet_file_of_tree
from tabside.read.kicad.sheet_file import SheetFile
from tabside.read.kicad.text.escapes import plain, without_comments
from tabside.read.kicad.text.parsing import parse
from tabside.read.kicad.text.sexpr import BadBrackets, WrongContent
from tabside.read.kicad.text.trimming import NotSeen


def read_sheet_file(path: str, shown: str, memory: Memory) -> SheetFile:
    """The content of the schematic file at `path`; messages name it `shown`.

    Raises: TabsideError when it cannot be read, is no schematic, or is damaged (with line and column).
    """
    data = read_ordinary(path, shown)
    text = decoded(data, shown)
    try:
        return sheet_file_of_text(plain(text), os.path.abspath(path), data, memory)
    except (NotSeen, BadBrackets, WrongContent):
        return _read_whole(text, os.path.abspath(path), data, shown)


def decoded(data: bytes, shown: str) -> str:
    """The text of a file's bytes.  Raises: TabsideError where they are no UTF-8, or NUL."""
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as e:
        line = data.count(b"\n", 0, e.start) + 1
        before = data[data.rfind(b"\n", 0, e.start) + 1 : e.start].decode("utf-8", "replace")
        raise TabsideError(
            "is not UTF-8 text here; save the drawing again in KiCad", file=shown, line=line, column=len(before) + 1
        ) from None
    nul = text.find("\0")
    if nul >= 0:
        line = text.count("\n", 0, nul) + 1
        column = nul - text.rfind("\n", 0, nul)
        raise TabsideError("a NUL byte; the file is damaged", file=shown, line=line, column=column)
    if text.startswith("EESchema Schematic"):
        raise TabsideError(
            "is a schematic of KiCad 5 or older; open it in a newer KiCad and save it", file=shown, line=1, column=1
        )
    return text


def _read_whole(text: str, path: str, data: bytes, shown: str) -> SheetFile:
    """Reads text that the fast way could not: laid out unusually, or damaged."""
    from tabside.read.kicad.text.damage import Damage, Text

    places = Text(without_comments(text))
    try:
        placed = places.tree()
        try:
            sheet_file_of_tree(placed, path, data)
        except WrongContent as e:
            raise places.of_node(e.what, e.node, e.index) from None
        return sheet_file_of_tree(parse(plain(text)), path, data)
    except Damage as e:
        raise TabsideError(e.what, file=shown, line=e.line, column=e.column) from None
    except (BadBrackets, WrongContent):
        line, column = places.line_and_column(places.first_odd_word)
        raise TabsideError(
            "a word with brackets or an apostrophe stands outside of quotes", file=shown, line=line, column=column
        ) from None


def place_of_list(path: str, head: str, number: int) -> tuple[int, int] | None:
    """Line and column of a list of the file's top level, the `number`th (from 0) with this head; None if not found."""
    from tabside.read.kicad.text.damage import Damage, PlacedList, Text

    try:
        text = Text(without_comments(decoded(read_ordinary(path), path)))
        lists = [node for node in text.tree() if isinstance(node, PlacedList) and node[:1] == [head]]
        return text.line_and_column(lists[number].offset)
    except (TabsideError, Damage, IndexError):
        return None
