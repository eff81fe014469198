"""A project's own tables of libraries: our lines in them, every other line as it is."""

from __future__ import annotations

from pathlib import Path
from typing import NamedTuple

from tabside.errors import TabsideError
from tabside.read.kicad.text.parsing import parse
from tabside.read.kicad.text.sexpr import BadBrackets, find, head_of, quoted, text_of
from tabside.read.kicad.text.trimming import NotSeen, lists_of


class Table(NamedTuple):
    """One kind of table that KiCad keeps beside a project."""

    file: str
    head: str


SYMBOLS = Table("sym-lib-table", "sym_lib_table")
BLOCKS = Table("design-block-lib-table", "design_block_lib_table")


class Line(NamedTuple):
    """One library in a table."""

    name: str
    uri: str
    description: str


def with_lines(table: Table, content: bytes | None, lines: list[Line], path: Path) -> bytes:
    """The table with these libraries in it; `content` is what it holds now, None when there is none yet.

    Raises: TabsideError when it is no such table, or has another library of one of these names.
    """
    text = f"({table.head}\n  (version 7)\n)\n" if content is None else _text(table, content, path)
    for line in lines:
        text = _with_line(text, line, path)
    return text.encode()


def _with_line(text: str, line: Line, path: Path) -> str:
    for written in _rows(text, path):
        row = parse(written)
        if find(row, "name") is None or text_of(row, "name") != line.name:
            continue
        if text_of(row, "uri") == line.uri:
            return text
        what = f'has another library named "{line.name}"; rename it in KiCad and try again; nothing was changed'
        raise TabsideError(what, file=path)
    newline = "\r\n" if "\r\n" in text else "\n"
    end = text.rindex(")")
    start = text[:end] if text[:end].endswith("\n") else f"{text[:end]}{newline}"
    new = (
        f'  (lib (name {quoted(line.name)})(type "KiCad")(uri {quoted(line.uri)})(options "")'
        f"(descr {quoted(line.description)})){newline}"
    )
    return f"{start}{new}{text[end:]}"


def _text(table: Table, content: bytes, path: Path) -> str:
    try:
        text = content.decode("utf-8-sig")
        if head_of(parse(text)) == table.head:
            return text
    except (UnicodeDecodeError, BadBrackets):
        pass
    raise TabsideError(f"is not the {table.file} that KiCad writes; nothing was changed", file=path)


def _rows(text: str, path: Path) -> list[str]:
    try:
        return [written for head, written in lists_of(text) if head == "lib"]
    except NotSeen:
        raise TabsideError("is laid out in a way that is not followed; nothing was changed", file=path) from None
