"""From board files to boards whose plugs are resolved: the one place that joins their reading and wiring."""

from __future__ import annotations

import os
from collections.abc import Iterable

from tabside.errors import TabsideError
from tabside.model.board import BoardFile
from tabside.model.craft import HeldBoard
from tabside.model.names import as_name
from tabside.read.craft.board_file import read_board_file
from tabside.wiring.board_plugs import held_board


def read_board(path: str | os.PathLike[str]) -> HeldBoard:
    """The board of a board file, with its plugs resolved to contacts.

    Raises: TabsideError with file and key.
    """
    board = read_board_file(path)
    return held_board(board if board.drawn_in is None else _own_board(board, board.drawn_in))


def _own_board(board: BoardFile, drawn_in: str) -> BoardFile:
    """The board with the signals of its own KiCad project."""
    from pathlib import Path  # most boards have no project

    from tabside.read import read_drawing
    from tabside.wiring.own_boards import with_own_signals

    root = Path(board.folder) / drawn_in
    root = root.with_suffix(".kicad_sch") if root.suffix == ".kicad_pro" else root
    if not root.is_file():
        what = f'board.drawn_in: "{drawn_in}" is not there; write the path from this file to the project\'s .kicad_sch'
        raise TabsideError(what, file=board.file)
    return with_own_signals(board, read_drawing(root))


def read_boards(paths: Iterable[str | os.PathLike[str]]) -> tuple[HeldBoard, ...]:
    """The boards of several files, in the order of their names.

    Raises: TabsideError as `read_board`, and when two files hold boards of one name.
    """
    found: dict[str, HeldBoard] = {}
    for path in paths:
        held = read_board(path)
        key = as_name(held.board.name)
        if key in found:
            what = f'board.name: "{held.board.name}" is the name in {found[key].board.file}, too; give one another name'
            raise TabsideError(what, file=held.board.file)
        found[key] = held
    return tuple(found[key] for key in sorted(found))
