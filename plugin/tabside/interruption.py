"""Ctrl-C: never between two files that belong together, and told truly afterwards."""

from __future__ import annotations

import os
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from types import FrameType

PARTS_JOURNAL = ".tabside-boards"  # lies in a folder while parts of boards are written into it

_written: list[str] = []


def journal_beside(root: str) -> str:
    """Where the journal of a stamping lies while it is under way, or after it was killed."""
    folder, name = os.path.split(root)
    return os.path.join(folder, f".{name}.stamping")


def parts_journal_beside(root: str) -> str:
    """The same for the parts of boards in a project's folder."""
    return os.path.join(os.path.dirname(root), PARTS_JOURNAL)


def wrote(what: str) -> None:
    """Note that something stands on the disk now, in words that go on after "interrupted after writing "."""
    if what not in _written:
        _written.append(what)


def in_words() -> str:
    """What an interrupted command has done."""
    return f"interrupted after writing {' and '.join(_written)}" if _written else "interrupted; nothing was changed"


@contextmanager
def put_off() -> Iterator[None]:
    """Ctrl-C waits until the block has ended."""
    import signal

    waiting: list[int] = []

    def note(number: int, frame: FrameType | None) -> None:
        waiting.append(number)

    before = None
    with suppress(ValueError):  # not the main thread, where no signal arrives
        before = signal.signal(signal.SIGINT, note)
    try:
        yield
    finally:
        if before is not None:
            signal.signal(signal.SIGINT, before)
    if waiting:
        raise KeyboardInterrupt


def no_more() -> None:
    """A second Ctrl-C, while the first is told and the process ends, changes nothing."""
    import signal

    with suppress(ValueError):
        signal.signal(signal.SIGINT, signal.SIG_IGN)
