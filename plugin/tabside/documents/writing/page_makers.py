"""Pages about no drawing, made by an installed package: found by their entry point."""

from __future__ import annotations

import tempfile
import webbrowser
from collections.abc import Callable
from importlib.metadata import entry_points
from pathlib import Path

from tabside.errors import TabsideError
from tabside.files import replace_file

# What each page of ours says in its head: it may fetch nothing, and has the one style that it carries.
_SIGN = b"content=\"default-src 'none'; style-src 'sha256-"
_HEAD = 1024


def page_maker(group: str, name: str) -> Callable[..., bytes]:
    """What makes the page.  Raises: TabsideError when no package offers it."""
    found = [offer for offer in entry_points(group=group) if offer.name == name]
    if not found:
        raise TabsideError("no package offers this page; install Tabside again")
    make: Callable[..., bytes] = found[0].load()
    return make


def write_page(path: Path, content: bytes) -> None:
    """Write it whole, over nothing but an earlier page of ours.

    Raises: TabsideError when something else is there, or when it cannot be written.
    """
    if path.is_file() and not _is_ours(path):
        raise TabsideError("is there already and is no page of Tabside's; give another name", file=path)
    try:
        replace_file(path, content)
    except OSError as error:
        raise TabsideError(f"cannot be written ({error.strerror})", file=path) from None


def in_own_folder(name: str) -> Path:
    """Where a page may be written that nobody gave a place."""
    return Path(tempfile.mkdtemp(prefix="tabside-")) / name


def address_of(path: Path, place: str = "") -> str:
    """What a browser opens: the page, at the place of this name on it."""
    return path.resolve().as_uri() + (f"#{place}" if place else "")


def open_page(address: str) -> bool:
    """Open it in the browser; False when there is none."""
    return webbrowser.open(address)


def _is_ours(path: Path) -> bool:
    """An empty file is nobody's."""
    try:
        with path.open("rb") as file:
            head = file.read(_HEAD)
    except OSError:
        return False
    return not head or _SIGN in head
