"""A double press does one thing: the second press ends without a word."""

from __future__ import annotations

import hashlib
import os
import sys
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import IO, Any

# Two presses this close together are one; a person who wants two looks at the first page before.
DOUBLE_S = 1.0


@contextmanager
def first_press(root: Path, button: str) -> Iterator[bool]:
    """Whether this press is to be worked on: no other of this button and drawing is at work, nor was just begun."""
    began = time.time()
    try:
        file = _lock_file(root, button).open("a+", encoding="ascii")
    except OSError:  # no room for a lock is no reason to do nothing
        yield True
        return
    with file:
        if not _locked(file):
            yield False
            return
        file.seek(0)
        before = _number(file.read())
        if before is not None and 0 <= began - before < DOUBLE_S:
            yield False
            return
        file.seek(0)
        file.truncate()
        file.write(f"{began}")
        file.flush()
        yield True


def _lock_file(root: Path, button: str) -> Path:
    """In a folder of this user's alone, since another could lie in wait in the shared one for temporary files."""
    user = os.getuid() if hasattr(os, "getuid") else "user"
    folder = Path(tempfile.gettempdir()) / f"tabside-{user}"
    folder.mkdir(mode=0o700, exist_ok=True)
    if folder.is_symlink() or (hasattr(os, "getuid") and folder.stat().st_uid != os.getuid()):
        raise PermissionError(folder)
    drawing = hashlib.sha256(os.fsencode(root.resolve())).hexdigest()[:16]
    return folder / f"{button}-{drawing}.lock"


def _locked(file: IO[Any]) -> bool:
    """Take the file for this process; it is let go when the process ends, however it ends."""
    try:
        if sys.platform == "win32":
            import msvcrt

            file.seek(1000)  # past what is read and written, which Windows would not let another process read
            msvcrt.locking(file.fileno(), msvcrt.LK_NBLCK, 1)
        else:
            import fcntl

            fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError:
        return False
    return True


def _number(text: str) -> float | None:
    try:
        return float(text)
    except ValueError:
        return None
