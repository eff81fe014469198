"""`tabside boards new | read | show | library`: board files begun, read, drawn back, made into KiCad parts."""

from __future__ import annotations

import glob
import json
import os
import sys
from argparse import Namespace
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any

from tabside.boards.views import BoardView, PlugView, board_view, signal_words
from tabside.cli.printing.paragraphs import filled
from tabside.cli.width import WIDTH
from tabside.errors import TabsideError
from tabside.words.contacts import counted
from tabside.words.visible_text import visible


def run(arguments: Namespace) -> int:
    """Run one of the four; returns the exit status."""
    actions = {"new": _new, "read": _read, "show": _show, "library": _library}
    actions[arguments.action](arguments)
    return 0


def _new(arguments: Namespace) -> None:
    from tabside.boards.beginning import commented_file, file_name, plain_name, write_new

    name = plain_name(Path(arguments.name).name)
    path = Path(arguments.name).parent / file_name(name)
    write_new(path, commented_file(name), force=arguments.force)
    _say(
        arguments,
        {"format": "tabside/boards-new/1", "file": str(path)},
        [f"Wrote {path}. Fill it in from the maker's manual, then `tabside boards show {path}` draws it back."],
    )


def _read(arguments: Namespace) -> None:
    from tabside.boards.beginning import board_text, plain_name, write_new
    from tabside.boards.tables.reading import read_rows
    from tabside.boards.tables.rows import rows_of

    table = Path(arguments.table)
    found = read_rows(rows_of(table), table.name)
    name = plain_name(arguments.name or Path(arguments.to or table.stem.partition(".")[0]).name)
    plugs = []
    for plug in found.plugs:
        names = plug.names(table.name)
        signals = ", ".join(names) + ("," if len(names) == 1 else "")
        family = {"family": plug.family} if plug.family else {"kind": "pad"} if plug.pads else {}
        plugs.append({"name": plug.name, **family, "signals": signals})
    remarks = [f"Assumed: {text}" for text in found.assumed]
    text = board_text(
        {"name": name, "source": table.name, "held": False}, plugs, [f"Read from {table.name}.", *remarks]
    )
    if arguments.to:
        if os.path.realpath(arguments.to) == os.path.realpath(table):
            raise TabsideError("is the table itself; give another name for the board file", file=arguments.to)
        write_new(Path(arguments.to), text, force=arguments.force)
    answer = {
        "format": "tabside/boards-read/1",
        "file": arguments.to,
        "text": text,
        "plugs": plugs,
        "assumed": found.assumed,
        "not_read": found.not_read,
        "left_out": found.left_out + [beside for plug in found.plugs for beside in plug.left_out],
    }
    _say(arguments, answer, list(_read_lines(answer)))


def _read_lines(answer: dict[str, Any]) -> Iterator[str]:
    for plug in answer["plugs"]:
        what = plug.get("family") or ("solder pads" if "kind" in plug else "family not given")
        yield f"Understood {plug['name']} ({what}): {plug['signals'].rstrip(',')}"
    for key, word in (("assumed", "Assumed"), ("left_out", "Left out"), ("not_read", "Not understood")):
        for text in answer[key]:
            yield f"{word}: {text}"
    if not all("family" in plug or "kind" in plug for plug in answer["plugs"]):
        yield 'Add the family to each plug, for example family = "JST GH"; `tabside families` lists them.'
    if answer["file"]:
        yield f"Wrote {answer['file']}. Draw it back: `tabside boards show {answer['file']}`."
    else:
        yield "Nothing was written: say --to FILE."


def _show(arguments: Namespace) -> None:
    if arguments.enter:
        _enter(arguments)
        return
    if not arguments.files:
        raise TabsideError("names no board file; give one or more, or --enter")
    from tabside.board_reading import read_boards
    from tabside.boards.board_json import boards_json

    views = [board_view(held) for held in read_boards(_named(arguments.files))]
    if arguments.to:
        from tabside.boards.pages import write_boards_page

        write_boards_page(views, Path(arguments.to))
    if arguments.json:
        print(json.dumps(boards_json(views), indent=1))
        return
    for view in views:
        print("\n".join(visible(line) for line in board_lines(view)) + "\n")
    if arguments.to:
        print(f"Wrote {visible(arguments.to)}: hold it against the maker's picture, and against the real board.")


def _enter(arguments: Namespace) -> None:
    from tabside.boards.pages import write_entry_page
    from tabside.documents.writing.page_makers import address_of, open_page

    path = write_entry_page(Path(arguments.to) if arguments.to else None)
    if not arguments.to:
        open_page(address_of(path))
    _say(arguments, {"format": "tabside/boards-enter/1", "file": str(path)}, [f"The page is {path}."])


def _library(arguments: Namespace) -> None:
    from tabside.board_reading import read_boards
    from tabside.boards.parts.library import library_of, project_folder, write_into, write_library
    from tabside.boards.parts.writing import undo_broken_off

    if not (arguments.to or arguments.into):
        raise TabsideError("say where the parts go: --to DIR, or --into PROJECT for a KiCad project")
    views = [board_view(held) for held in read_boards(_named(arguments.files))]
    version = None if arguments.kicad is None else (arguments.kicad, 0)
    for folder in filter(None, (arguments.to, arguments.into and project_folder(Path(arguments.into)))):
        if undone := undo_broken_off(Path(folder)):
            print(f"tabside: warning: {visible(undone)}", file=sys.stderr)
    files: list[str] = []
    told = []
    if arguments.to:
        files += write_library(library_of(views, version or (9, 0)), Path(arguments.to))
        told.append(f"Wrote {counted(len(views), 'board')} to {arguments.to}.")
    if arguments.into:
        written, used = write_into(views, Path(arguments.into), version)
        files += written
        told.append(_after_into(used))
    _say(arguments, {"format": "tabside/boards-library/1", "files": files}, told)


def _named(files: Sequence[str]) -> Iterator[Path]:
    """The files; a pattern that no shell has filled in (on Windows none does) means those that fit it."""
    for name in files:
        fitting = [] if os.path.lexists(name) else sorted(glob.glob(name))
        yield from map(Path, fitting or [name])


def _after_into(version: tuple[int, int]) -> str:
    if version >= (9, 0):
        place = "View > Panels > Design Blocks: double-click a board under Boards to put down all of its plugs"
        if version >= (10, 0):
            place += " (panel empty? Preferences > Manage Design Block Libraries, OK)"
    else:
        place = "Place a hierarchical sheet with a file of board_parts/sheets to put down a board; name it as the board"
    return (
        f"The project knows the boards now (for KiCad {version[0]}). Close and open the schematic editor. {place}; "
        "single plugs are in the symbol libraries Board_…. After a change of a board file run this again, then Tools > "
        "Update Symbols from Library: it keeps Board."
    )


def board_lines(view: BoardView) -> Iterator[str]:
    """A board for the terminal."""
    yield view.heading
    if view.board.source:
        yield from filled(f"Source: {view.board.source}.", "", "  ").splitlines()
    yield from filled(view.held_words, "", "  ").splitlines()
    for plug in view.plugs:
        yield ""
        yield from _plug_lines(plug)


def _plug_lines(plug: PlugView) -> Iterator[str]:
    yield f"  {plug.name}: {plug.what}"
    numbers = [number for number, _ in plug.contacts]
    names = [signal_words(signal) for _, signal in plug.contacts]
    if plug.printed is None and plug.in_hand is None:
        from_the_mark = "" if plug.kind == "pad" else ", from the contact-1 mark"
        yield from _row(f"By contact number{from_the_mark}:", numbers, names)
    if plug.printed is not None:
        yield from _row(f"As printed on the board, {plug.frame}:", *_turned(numbers, names, plug.contact_1))
    if plug.in_hand is not None:
        title = "Cable plug in the hand, locking-tab side facing you, wires down:"
        yield from _row(title, *_turned(numbers, names, plug.contact_1_in_hand))
    for rails, word in ((plug.gives, "Gives"), (plug.takes, "Takes")):
        if rails:
            yield from filled(f"{word} {rails}.", "    ", "      ").splitlines()
    yield from filled(f"Check: {plug.sentence}", "    ", "      ").splitlines()
    for note in plug.notes:
        yield from filled(f"Note: {note}", "    ", "      ").splitlines()


def _turned(numbers: list[str], names: list[str], side: str | None) -> tuple[list[str], list[str]]:
    return (numbers, names) if side == "left" else (numbers[::-1], names[::-1])


def _row(title: str, numbers: Sequence[str], names: Sequence[str]) -> Iterator[str]:
    """Contacts above their names, as many beside each other as the terminal takes; contact 1 in brackets."""
    yield f"    {title}"
    cells = [(f"[{n}]" if n == "1" else n, name) for n, name in zip(numbers, names, strict=True)]
    line: list[tuple[str, str, int]] = []
    for number, name in cells:
        width = max(len(number), len(name))
        if line and 6 + sum(w + 2 for _, _, w in line) + width > WIDTH:
            yield from _cells(line)
            line = []
        line.append((number, name, width))
    yield from _cells(line)


def _cells(line: Sequence[tuple[str, str, int]]) -> Iterator[str]:
    for k in (0, 1):
        yield ("      " + "  ".join(f"{cell[k]:<{cell[2]}}" for cell in line)).rstrip()


def _say(arguments: Namespace, answer: dict[str, Any], lines: Sequence[str]) -> None:
    if arguments.json:
        print(json.dumps(answer, indent=1))
        return
    for line in lines:
        print(filled(line, "", "  "))
