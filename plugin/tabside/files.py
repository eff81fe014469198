"""Files read and replaced whole: what is there is never half-written."""

from __future__ import annotations

import os
import stat
from contextlib import suppress
from typing import TYPE_CHECKING, overload

from tabside.errors import TabsideError
from tabside.ordinary_file import read_ordinary

if TYPE_CHECKING:
    from pathlib import Path  # what only reads goes without it

UNFINISHED = ".tabside-new"  # ends the name of a file that is not whole yet


def clear_unfinished(path: Path) -> None:
    """Remove what killed processes left of new contents of this file."""
    import glob
    from pathlib import Path

    for left in Path(os.path.realpath(path)).parent.glob(f".{glob.escape(path.name)}.*{UNFINISHED}"):
        with suppress(OSError):
            left.unlink()


def read_file(path: str | os.PathLike[str]) -> bytes | None:
    """The content of a file, or None when there is no such file.

    Raises: TabsideError when it is there and cannot be read.
    """
    # A link that leads nowhere is there, and cannot be read.
    return read_ordinary(path, str(path)) if os.path.lexists(path) else None


@overload
def sha256_of(content: bytes) -> str: ...


@overload
def sha256_of(content: bytes | None) -> str | None: ...


def sha256_of(content: bytes | None) -> str | None:
    """What tells one content from another; None where there is no file."""
    import hashlib

    return None if content is None else hashlib.sha256(content).hexdigest()


def written_ns(path: str | os.PathLike[str]) -> int | None:
    """When a file was written last, in nanoseconds since 1970; None where it cannot be asked."""
    try:
        return os.stat(path).st_mtime_ns
    except OSError:
        return None


def replace_file(path: Path, content: bytes | None) -> None:
    """Give a file this content in one step, so that it is never half-written; None removes it.

    A link to a file stays a link, and the file keeps its permissions.

    Raises: TabsideError when a device, a pipe or a socket is there, itself or at the end of a link: it is left alone.
    """
    import tempfile  # what only reads goes without it, and the dozen modules that it brings
    from pathlib import Path

    target = Path(os.path.realpath(path))
    if target.exists() and not (target.is_file() or target.is_dir()):
        raise TabsideError("is not an ordinary file; nothing was written", file=path)
    if content is None:
        with suppress(FileNotFoundError, NotADirectoryError):
            path.unlink()
        return
    target.parent.mkdir(parents=True, exist_ok=True)
    mode = stat.S_IMODE(target.stat().st_mode) if target.exists() else 0o644
    handle, name = tempfile.mkstemp(prefix=f".{target.name}.", suffix=UNFINISHED, dir=target.parent)
    try:
        with os.fdopen(handle, "wb") as out:
            out.write(content)
            out.flush()
            os.fsync(out.fileno())
        os.chmod(name, mode)
        os.replace(name, target)
    except BaseException:
        with suppress(OSError):
            os.unlink(name)
        raise
