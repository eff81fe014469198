"""Pages about no drawing, made by an installed package: found by their entry point."""

from __future__ import annotations

from collections.abc import Callable
from importlib.metadata import entry_points
from pathlib import Path
from typing import Any

from tabside.errors import TabsideError
from tabside.files import replace_file


def page_maker(group: str, name: str) -> Callable[..., bytes]:
    """What makes the page.  Raises: TabsideError when no package offers it."""
    found = [offer for offer in entry_points(group=group) if offer.name == name]
    if not found:
        raise TabsideError("no package offers this page; install Tabside again")
    made: Any = found[0].load()
    return made  # type: ignore[no-any-return]


def write_page(path: Path, content: bytes) -> None:
    """Write it whole.  Raises: TabsideError when it cannot be written."""
    try:
        replace_file(path, content)
    except OSError as error:
        raise TabsideError(f"cannot be written ({error.strerror})", file=path) from None
