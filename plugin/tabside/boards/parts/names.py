"""How boards and plugs are called in KiCad's libraries."""

from __future__ import annotations

import re
from collections.abc import Sequence

from tabside.boards.views import BoardView

_NOT_PLAIN = re.compile(r"[^A-Za-z0-9._+-]+")


def library_name(view: BoardView) -> str:
    """The nickname of a board's symbol library.  The word in front keeps it off KiCad's own names, as `power`."""
    return f"Board_{plain(view.board.name)}"


def symbol_names(view: BoardView) -> Sequence[str]:
    """A name for each plug, in the file's order, that no other plug of the board has."""
    names: list[str] = []
    for plug in view.plugs:
        name, again = plain(plug.name), 1
        while name.casefold() in {known.casefold() for known in names}:
            again += 1
            name = f"{plain(plug.name)}_{again}"
        names.append(name)
    return names


def plain(name: str) -> str:
    """Letters, digits and a few signs that KiCad and every file system take."""
    return _NOT_PLAIN.sub("_", name).strip("._") or "plug"
