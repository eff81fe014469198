"""Files read in one go: ordinary ones of a bounded size.  A pipe would never end, a device would never stop."""

from __future__ import annotations

import os
import stat

from tabside.errors import TabsideError

LARGEST_BYTES = 256 * 1024**2


def read_ordinary(path: str | os.PathLike[str], shown: str | None = None, most_bytes: int = LARGEST_BYTES) -> bytes:
    """The bytes of an ordinary file; messages name it `shown`.

    Raises: TabsideError when it is none, is larger than `most_bytes`, or cannot be read; FileNotFoundError never: that
    is a TabsideError, too.
    """
    name = os.fspath(path) if shown is None else shown
    try:
        _must_be_ordinary(os.stat(path).st_mode, name)
        # Without waiting: between the look and the opening it may have become a pipe.
        handle = os.open(path, os.O_RDONLY | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0))
        with open(handle, "rb") as file:
            status = os.fstat(handle)
            _must_be_ordinary(status.st_mode, name)
            content = file.read(most_bytes + 1) if status.st_size <= most_bytes else b""
    except OSError as error:
        raise TabsideError(f"cannot be read: {(error.strerror or str(error)).lower()}", file=name) from None
    except ValueError:  # a NUL in the name
        raise TabsideError("cannot be read: no file can have this name", file=name) from None
    if status.st_size > most_bytes or len(content) > most_bytes:
        raise TabsideError(f"is larger than {_in_words(most_bytes)}; not read", file=name)
    return content


def _must_be_ordinary(mode: int, shown: str) -> None:
    if stat.S_ISDIR(mode):
        raise TabsideError("is a folder, not a file; name the file itself", file=shown)
    if not stat.S_ISREG(mode):
        raise TabsideError("is not an ordinary file", file=shown)


def _in_words(size: int) -> str:
    return f"{size // 1024**2} MB" if size >= 1024**2 else f"{size} bytes"
