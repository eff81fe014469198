"""Pages about boards, made by an installed package: boards drawn back, and the page to enter a pinout."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from tabside.boards.views import BoardView
from tabside.documents.writing.page_makers import in_own_folder, page_maker, write_page

GROUP = "tabside.boards"  # entry-point group: "show" makes bytes of board views, "enter" of nothing


def write_boards_page(views: Sequence[BoardView], path: Path) -> None:
    """Raises: TabsideError when the page cannot be made or written."""
    write_page(path, page_maker(GROUP, "show")(views))


def write_entry_page(path: Path | None) -> Path:
    """Write the page to enter a pinout, to a folder of its own when no path is given; returns where it is.

    Raises: TabsideError when it cannot be made or written.
    """
    content = page_maker(GROUP, "enter")()
    target = path or in_own_folder("board-entry.html")
    write_page(target, content)
    return target
