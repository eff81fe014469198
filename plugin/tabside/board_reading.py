"""From board files to boards whose plugs are resolved: the one place that joins their reading and wiring."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

from tabside.errors import TabsideError
from tabside.model.board import HeldBoard
from tabside.read.craft.board_file import read_board_file
from tabside.wiring.board_plugs import held_board


def read_board(path: Path) -> HeldBoard:
    """The board of a board file, with its plugs resolved to contacts.

    Raises: TabsideError with file and key.
    """
    return held_board(read_board_file(path))


def read_boards(paths: Iterable[Path]) -> tuple[HeldBoard, ...]:
    """The boards of several files, in the order of their names.

    Raises: TabsideError as `read_board`, and when two files hold boards of one name.
    """
    found: dict[str, HeldBoard] = {}
    for path in paths:
        held = read_board(path)
        key = " ".join(held.board.name.split()).casefold()
        if key in found:
            what = f'board.name: "{held.board.name}" is the name in {found[key].board.file}, too; give one another name'
            raise TabsideError(what, file=held.board.file)
        found[key] = held
    return tuple(found[key] for key in sorted(found))
