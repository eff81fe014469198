"""Our symbol library as one of the user's: the file, and its line in KiCad's table of symbol libraries."""

from __future__ import annotations

from pathlib import Path

from tabside.errors import TabsideError
from tabside.kicad.folders import KiCad
from tabside.kicad.install.work import Installation, Removal
from tabside.kicad.symbols import library_text
from tabside.kicad.versions import Version
from tabside.ordinary_file import read_ordinary
from tabside.read.kicad.text.parsing import parse
from tabside.read.kicad.text.sexpr import BadBrackets, Node, find, head_of, quoted, text_of
from tabside.read.kicad.text.trimming import NotSeen, lists_of

NICKNAME = "Tabside"
FILE = "tabside.kicad_sym"

_TABLE_OF_TABLES: Version = (10, 0)
_STOCK_WORDS = "KiCad Default Libraries"

NO_TABLE = (
    "the symbol library is not in KiCad's table yet: start the schematic editor once, close it, and install again"
)


class SymbolLibrary:
    """`tabside.kicad_sym`, and its line in `sym-lib-table`."""

    name = "symbol_library"

    def install(self, work: Installation) -> None:
        path = _table_path(work.kicad)
        work.own(_library_path(work.kicad), library_text(work.kicad.version).encode(), "write the symbol library")
        if work.kicad.imports:
            return
        content = work.changes.read(path)
        text = _first_table(work.kicad) if content is None else _text(content, path)
        if text is None:  # a table of ours alone would hide KiCad's own libraries
            work.changes.remarks.append(NO_TABLE)
            return
        uri = _library_path(work.kicad).as_posix()
        rows = _rows(text, path)
        if any(not _is_ours(row) for row in rows):
            raise TabsideError(
                f'has another library named "{NICKNAME}"; rename it in KiCad and try again; nothing was changed',
                file=path,
            )
        if len(rows) == 1 and text_of(parse(rows[0]), "uri") == uri:
            return
        text = _without(text, rows)  # one of ours that lies elsewhere: KiCad's folders were moved
        newline = "\r\n" if "\r\n" in text else "\n"
        end = text.rindex(")")
        new = (
            f'  (lib (name {quoted(NICKNAME)})(type "KiCad")(uri {quoted(uri)})(options "")'
            f'(descr "Terminations of small craft, with the fields that Tabside reads")){newline}'
        )
        start = text[:end] if text[:end].endswith("\n") else f"{text[:end]}{newline}"
        work.edit(path, f"{start}{new}{text[end:]}".encode(), "add the symbol library to the table")

    def remove(self, work: Removal) -> None:
        path = _table_path(work.kicad)
        content = work.changes.read(path)
        if content is None:
            return
        text = _text(content, path)
        ours = [row for row in _rows(text, path) if _is_ours(row)]
        edited = work.record.edited.get(path)
        if edited is not None and edited.copy is None and work.is_used():
            work.keep(path)  # without any table KiCad would begin again with its questions of a first start
        if ours:
            work.edit(path, _without(text, ours).encode(), "take the symbol library out of the table")

    def state(self, kicad: KiCad) -> str:
        if not _library_path(kicad).exists():
            return "not installed"
        path = _table_path(kicad)
        try:
            listed = path.exists() and any(map(_is_ours, _rows(_text(read_ordinary(path), path), path)))
        except TabsideError:
            return "written, but KiCad's table cannot be read"
        return "installed" if listed else "written, but not in KiCad's table"


def _library_path(kicad: KiCad) -> Path:
    return kicad.data / "symbols" / FILE


def _table_path(kicad: KiCad) -> Path:
    return kicad.settings / "sym-lib-table"


def _first_table(kicad: KiCad) -> str | None:
    """The table that KiCad itself begins with; None where its own libraries are not found.

    Source: KiCad 9.0.8 and 10.0.7 started for the first time: 9 copies its own table, 10 names it.
    """
    stock = None if kicad.templates is None else kicad.templates / "sym-lib-table"
    if stock is None or not stock.is_file():
        return None
    if kicad.version >= _TABLE_OF_TABLES:
        row = f'(lib (name "KiCad")(type "Table")(uri {quoted(stock.as_posix())})(options "")(descr "{_STOCK_WORDS}"))'
        return f"(sym_lib_table\n  (version 7)\n  {row}\n)\n"
    return _text(read_ordinary(stock), stock)


def _text(content: bytes, path: Path) -> str:
    """The table's text.  Raises: TabsideError when it is none."""
    try:
        text = content.decode("utf-8-sig")
        tree: Node = parse(text)
        if head_of(tree) == "sym_lib_table":
            return text
    except (UnicodeDecodeError, BadBrackets):
        pass
    raise TabsideError("is not the table of symbol libraries that KiCad writes; nothing was changed", file=path)


def _rows(text: str, path: Path) -> list[str]:
    """The texts of the lines with our nickname."""
    try:
        return [
            written
            for head, written in lists_of(text)
            if head == "lib" and find(parse(written), "name") and text_of(parse(written), "name") == NICKNAME
        ]
    except NotSeen:
        raise TabsideError("is laid out in a way that is not followed; nothing was changed", file=path) from None


def _is_ours(row: str) -> bool:
    return text_of(parse(row), "uri").endswith(f"/{FILE}")


def _without(text: str, rows: list[str]) -> str:
    """The table without these lines, each with the line break before it."""
    for row in rows:
        before, after = text.split(row, 1)
        before = before.rstrip(" \t")
        before = before.removesuffix("\n").removesuffix("\r") if before.endswith("\n") else before
        text = before + after
    return text
