"""Locks on open files and folders, which end with the process however that ends."""

from __future__ import annotations

from enum import Enum

try:
    import fcntl
except ImportError:  # Windows
    fcntl = None  # type: ignore[assignment]


class Lock(Enum):
    OURS = "ours"
    THEIRS = "another process has it"
    NONE = "there are no locks here"  # on Windows, and on some file systems: two at once are up to the person


def lock(handle: int) -> Lock:
    """Takes the lock of what is open there, without waiting for it."""
    if fcntl is None:
        return Lock.NONE
    try:
        fcntl.flock(handle, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except BlockingIOError:
        return Lock.THEIRS
    except OSError:
        return Lock.NONE
    return Lock.OURS
