"""The files that make a board a part of KiCad: planned whole, then written."""

from __future__ import annotations

import json
import re
from collections.abc import Mapping, Sequence
from pathlib import Path

from msgspec import Struct

from tabside.boards.parts.board_sheet import FORMATS, sheet_text
from tabside.boards.parts.library_tables import BLOCKS, SYMBOLS, Line, Table, with_lines
from tabside.boards.parts.names import library_name, plain, symbol_names
from tabside.boards.parts.plug_symbol import PlugSymbol, plug_symbol, symbol_node
from tabside.boards.parts.writing import write_together
from tabside.boards.views import BoardView
from tabside.errors import TabsideError
from tabside.files import read_file
from tabside.kicad.symbol_nodes import library_text_of, symbol_format
from tabside.kicad.versions import Version

FIRST_WITH_BLOCKS: Version = (9, 0)
USUAL: Version = (9, 0)
FOLDER = "board_parts"  # in a project, beside its own files
BLOCK_LIBRARY = "Boards"


class Library(Struct, frozen=True):
    """Files by their names below a folder, and the lines that the project's tables need for them."""

    files: Mapping[str, str]
    lines: Mapping[Table, tuple[Line, ...]]
    version: Version


def library_of(views: Sequence[BoardView], version: Version, uri: str = "") -> Library:
    """The parts of these boards; `uri` is where a table finds the folder.

    Raises: TabsideError when a plug's names are not known, or two boards would have files of one name.
    """
    files: dict[str, str] = {}
    symbols, blocks = [], []
    for view in views:
        made = _symbols(view)
        library, name = library_name(view), plain(view.board.name)
        if f"{library}.kicad_sym" in files:
            raise TabsideError(f'"{view.board.name}" has the same file name as another board; rename one of them')
        files[f"{library}.kicad_sym"] = symbols_text(made, version)
        words = f"Plugs of {view.heading}"
        symbols.append(Line(library, f"{uri}/{library}.kicad_sym", words))
        if version < FIRST_WITH_BLOCKS:
            files[f"sheets/{name}.kicad_sch"] = sheet_text(view, made, version, as_block=False)
            continue
        block = f"{BLOCK_LIBRARY}.kicad_blocks/{name}.kicad_block/{name}"
        files[f"{block}.kicad_sch"] = sheet_text(view, made, version, as_block=True)
        files[f"{block}.json"] = _about_block(view)
        blocks = [Line(BLOCK_LIBRARY, f"{uri}/{BLOCK_LIBRARY}.kicad_blocks", "Whole boards with all of their plugs")]
    return Library(files, {SYMBOLS: tuple(symbols), BLOCKS: tuple(blocks)}, version)


def symbols_text(symbols: Sequence[PlugSymbol], version: Version) -> str:
    """The symbol library in the format of a version of KiCad."""
    file_format = symbol_format(version)
    return library_text_of((symbol_node(symbol, symbol.name, file_format) for symbol in symbols), version)


def write_library(library: Library, folder: Path) -> tuple[str, ...]:
    """Write the files; returns their names.

    Raises: TabsideError when one cannot be written.
    """
    return write_together(folder, {name: text.encode() for name, text in library.files.items()})


def write_into(views: Sequence[BoardView], project: Path, version: Version | None) -> tuple[tuple[str, ...], Version]:
    """Write the parts into a KiCad project and its own library tables; returns the files and the version.

    Raises: TabsideError before anything is changed, when a table is not KiCad's or has other libraries of our names.
    """
    folder = project_folder(project)
    chosen = version or project_version(folder)
    library = library_of(views, chosen, f"${{KIPRJMOD}}/{FOLDER}")
    changes = {f"{FOLDER}/{name}": text.encode() for name, text in library.files.items()}
    for table, lines in library.lines.items():
        if lines:
            path = folder / table.file
            changes[table.file] = with_lines(table, read_file(path), list(lines), path)
    return write_together(folder, changes), chosen


def project_folder(project: Path) -> Path:
    """The folder of a project that is named by its folder or one of its files.

    Raises: TabsideError when there is no KiCad project.
    """
    folder = project if project.is_dir() else project.parent
    if not folder.is_dir() or not any(folder.glob("*.kicad_pro")):
        raise TabsideError("is no KiCad project: it has no .kicad_pro; name the project's folder", file=project)
    return folder


def project_version(folder: Path) -> Version:
    """The oldest version of KiCad that reads the newest schematic file there; the usual one when there is none."""
    found = 0
    for path in filter(Path.is_file, sorted(folder.glob("*.kicad_sch"))[:200]):  # a pipe would never end
        with path.open("rb") as file:
            match = re.search(rb"\(version\s+(\d{8})\)", file.read(400))
        found = max(found, int(match[1]) if match else 0)
    if not found:
        return USUAL
    return (max((version for version, first in FORMATS.items() if first <= found), default=min(FORMATS)), 0)


def _symbols(view: BoardView) -> list[PlugSymbol]:
    for plug, said in zip(view.plugs, view.board.plugs, strict=True):
        if all(signal == "" for _, signal in plug.contacts) and "Signals" in said.fields:
            what = f'{said.key} ("{plug.name}"): its names are not put to contacts; {plug.notes[0]}'
            raise TabsideError(what, file=view.board.file)
    triples = zip(view.plugs, view.board.plugs, symbol_names(view), strict=True)
    return [plug_symbol(view, plug, said, name) for plug, said, name in triples]


def _about_block(view: BoardView) -> str:
    plugs = ", ".join(plug.name for plug in view.plugs)
    about = {"description": f"{view.heading} ({plugs})", "keywords": f"board {view.board.name}", "fields": {}}
    return json.dumps(about, indent=4, ensure_ascii=False) + "\n"
