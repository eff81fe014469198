"""Pages about boards, made by an installed package: boards drawn back, and the page to enter a pinout."""

from __future__ import annotations

import tempfile
import webbrowser
from collections.abc import Callable, Sequence
from importlib.metadata import entry_points
from pathlib import Path
from typing import Any

from tabside.boards.views import BoardView
from tabside.errors import TabsideError
from tabside.files import replace_file

GROUP = "tabside.boards"  # entry-point group: "show" makes bytes of board views, "enter" of nothing


def write_boards_page(views: Sequence[BoardView], path: Path) -> None:
    """Raises: TabsideError when the page cannot be made or written."""
    _write(path, _maker("show")(views))


def write_entry_page(path: Path | None) -> Path:
    """Write the page to enter a pinout, to a folder of its own when no path is given; returns where it is.

    Raises: TabsideError when it cannot be made or written.
    """
    content = _maker("enter")()
    target = path or Path(tempfile.mkdtemp(prefix="tabside-")) / "board-entry.html"
    _write(target, content)
    return target


def open_page(path: Path) -> bool:
    """Open a page in the browser; False when there is none."""
    return webbrowser.open(path.resolve().as_uri())


def _maker(name: str) -> Callable[..., bytes]:
    found = [offer for offer in entry_points(group=GROUP) if offer.name == name]
    if not found:
        raise TabsideError("no package offers this page; install Tabside again")
    made: Any = found[0].load()
    return made  # type: ignore[no-any-return]


def _write(path: Path, content: bytes) -> None:
    try:
        replace_file(path, content)
    except OSError as error:
        raise TabsideError(f"cannot be written ({error.strerror})", file=path) from None
