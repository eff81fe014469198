"""Of which moment a page is: pages that a button of KiCad or `tabside watch` keeps fresh say so, and renew themselves.

Documents that a person asks for carry no clock: the same drawing gives the same bytes.
"""

from __future__ import annotations

import hashlib
import os
import time
from collections.abc import Iterable
from pathlib import Path

from msgspec import Struct

from tabside.files import written_ns

STATE_FILE = "findings-state.svg"  # beside the page of findings
_SIDE = 30_000  # the largest side of the picture


class Dated(Struct, frozen=True):
    """When the drawing was saved, and by what a page finds out that it is old."""

    saved: str  # "2026-11-28 12:31:05", of the file that was saved last
    files: tuple[tuple[str, str], ...]  # path from the page's folder, sha256 of what was read
    state: tuple[int, int]  # differs from what another state of the drawing gives


def dated(root: str | Path, files: Iterable[tuple[str, str]], to: str | Path, *more: str) -> Dated:
    """Of a drawing whose `files` (relative to the root's folder, with the sha256 of what was read) were just read.

    `more`: what else the page tells of.
    """
    folder = Path(root).parent
    read = [(folder / name, digest) for name, digest in files]
    times = [written_ns(file) or 0 for file, _ in read]
    saved = time.strftime("%Y-%m-%d %H:%M:%S", time.localtime(max(times, default=0) / 1e9))
    return Dated(saved, tuple((_way(file, Path(to)), digest) for file, digest in read), _state(times, more))


def state_picture(state: tuple[int, int]) -> bytes:
    """A picture of nothing whose sides tell the state.

    A page that was opened from a file may read no other file, but it may show a picture and learn its size; so nothing
    that lies beside a page can bring anything else into it.
    """
    width, height = state
    return f'<svg xmlns="http://www.w3.org/2000/svg" width="{width}" height="{height}"/>\n'.encode()


def _state(times: list[int], more: tuple[str, ...]) -> tuple[int, int]:
    digest = hashlib.sha256(f"{times} {more}".encode()).digest()
    return (
        1 + int.from_bytes(digest[:4], "big") % _SIDE,
        1 + int.from_bytes(digest[4:8], "big") % _SIDE,
    )


def _way(file: Path, folder: Path) -> str:
    try:
        return Path(os.path.relpath(file.resolve(), folder.resolve())).as_posix()
    except ValueError:  # another drive: no page can look there
        return ""
