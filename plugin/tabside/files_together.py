"""Several files replaced together: all of them or none, even when the process is killed between two of them.

A journal beside them holds what each file was before.  It is written before the first file is replaced and removed
after the last; while it lies there, the replacing has broken off, and the next command undoes it.
"""

from __future__ import annotations

import base64
import json
import os
import stat
import tempfile
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager, suppress
from pathlib import Path, PurePosixPath
from typing import NamedTuple

from tabside.errors import TabsideError
from tabside.file_locks import Lock, lock
from tabside.files import UNFINISHED, clear_unfinished, read_file, replace_file, sha256_of
from tabside.interruption import put_off, wrote
from tabside.ordinary_file import read_ordinary

_FORMAT = "tabside/journal/1"
_LARGEST_JOURNAL = 1024**3


class Replacement(NamedTuple):
    """A file that is there, and what takes its place."""

    name: str  # relative to the journal's folder, parts separated by "/"; or an absolute path
    before: bytes | None  # None: no file
    after: bytes | None


class _Entry(NamedTuple):
    name: str
    before: bytes | None
    after: str | None  # digest


@contextmanager
def replaced_together(journal: Path, files: Sequence[Replacement], *, as_read: bool = True) -> Iterator[None]:
    """Replace the files; when the block fails, they are as they were.

    `as_read` says that each must be as it was read, writable, and without a second name.

    Raises: TabsideError when a file has changed since it was read, may not be written, or has a second name on the
    disk; then nothing was changed.
    """
    folder = journal.parent
    clear_unfinished(journal)
    for file in files if as_read else ():
        _must_be_replaceable(folder / file.name, file.before)
    with put_off():
        done: list[Replacement] = []
        handle = None
        try:
            handle = _write_locked(journal, _journal(files))
            for file in files:
                done.append(file)
                replace_file(folder / file.name, file.after)
            yield
        except BaseException as error:
            _put_back(folder, done)
            _remove(journal)
            if isinstance(error, OSError):
                reason = (error.strerror or type(error).__name__).lower()
                at = folder / done[-1].name if done else journal
                raise TabsideError(f"cannot be written: {reason}; nothing was changed", file=at) from None
            raise
        else:
            _remove(journal)
        finally:
            if handle is not None:
                os.close(handle)
        for file in files:
            wrote(file.name)


def _write_locked(journal: Path, content: bytes) -> int | None:
    """Write the journal so that it is there whole or not at all, and locked while we live; returns the lock."""
    handle, name = tempfile.mkstemp(prefix=f".{journal.name}.", suffix=UNFINISHED, dir=journal.parent)
    try:
        locked = lock(handle) is Lock.OURS
        with os.fdopen(os.dup(handle), "wb") as out:
            out.write(content)
            out.flush()
            os.fsync(out.fileno())
        os.replace(name, journal)
    except BaseException:
        os.close(handle)
        with suppress(OSError):
            os.unlink(name)
        raise
    if locked:
        return handle
    os.close(handle)
    return None


def _is_under_way(journal: Path) -> bool:
    """Whether the process that wrote it still runs."""
    handle = os.open(journal, os.O_RDONLY | getattr(os, "O_NONBLOCK", 0))
    try:
        return lock(handle) is Lock.THEIRS
    finally:
        os.close(handle)


def _put_back(folder: Path, done: Sequence[Replacement]) -> None:
    for file in done:
        try:
            replace_file(folder / file.name, file.before)
        except OSError as error:
            reason = (error.strerror or type(error).__name__).lower()
            raise TabsideError(
                f"could not be put back as it was ({reason}); make room, and the next command does it",
                file=folder / file.name,
            ) from error


def _remove(journal: Path) -> None:
    try:
        journal.unlink(missing_ok=True)
    except OSError as error:
        raise TabsideError(f"cannot be removed ({(error.strerror or '').lower()}); delete it", file=journal) from None


def _must_be_replaceable(path: Path, before: bytes | None) -> None:
    if read_file(path) != before:
        raise TabsideError("was changed meanwhile; nothing was changed, try again", file=path)
    if before is None:
        return
    status = path.stat()
    if not status.st_mode & (stat.S_IWUSR | stat.S_IWGRP | stat.S_IWOTH) or not os.access(path, os.W_OK):
        raise TabsideError("may only be read; nothing was changed, make it writable and try again", file=path)
    if status.st_nlink > 1:
        raise TabsideError(
            "has a second name on the disk (a hard link), which would keep the old text; nothing was changed, "
            "make a copy of it under this name and try again",
            file=path,
        )


def _journal(files: Sequence[Replacement]) -> bytes:
    said = {
        "format": _FORMAT,
        "files": [
            {
                "name": file.name,
                "before": None if file.before is None else base64.b64encode(file.before).decode("ascii"),
                "after": sha256_of(file.after),
            }
            for file in files
        ],
    }
    return json.dumps(said).encode()


def undo_broken_off(journal: Path, allowed: Callable[[str], bool] | None = None) -> str:
    """Undo what a killed process had begun; returns what was done, in one line.

    A file that somebody changed since is left as it is.  `allowed` says which names a journal may hold; without it only
    schematics in its folder and below.

    Raises: TabsideError when the journal cannot be understood, or a file cannot be written.
    """
    entries, folder = _entries(journal, allowed or _is_sheet_below), journal.parent
    if _is_under_way(journal):
        raise TabsideError("another Tabside is writing there; wait for it and try again", file=journal)
    back, left = [], []
    for entry in entries:
        path = folder / entry.name
        clear_unfinished(path)
        now = read_file(path)
        if now == entry.before:
            continue
        if sha256_of(now) != entry.after:
            left.append(entry.name)
            continue
        try:
            replace_file(path, entry.before)
        except OSError as error:
            raise TabsideError(f"cannot be written: {(error.strerror or '').lower()}", file=path) from None
        back.append(entry.name)
    _remove(journal)
    told = f"was broken off between two files; {' and '.join(back) or 'nothing'} put back as before"
    return told + (f"; {' and '.join(left)} was changed since and left as it is" if left else "")


def _entries(journal: Path, allowed: Callable[[str], bool]) -> list[_Entry]:
    try:
        said = json.loads(read_ordinary(journal, str(journal), _LARGEST_JOURNAL))
        if said["format"] != _FORMAT:
            raise ValueError
        entries = [_Entry(str(row["name"]), _content(row["before"]), row["after"]) for row in said["files"]]
        if not all(allowed(entry.name) for entry in entries):
            raise ValueError
    except (ValueError, KeyError, TypeError, RecursionError):
        raise TabsideError(
            "is no journal of Tabside's that can be understood; look at what lies beside it, then delete it",
            file=journal,
        ) from None
    return entries


def _content(text: str | None) -> bytes | None:
    return None if text is None else base64.b64decode(text, validate=True)


def _is_sheet_below(name: str) -> bool:
    """A schematic in the folder itself or below: a made-up journal reaches nothing else."""
    parts = PurePosixPath(name).parts
    return (
        name.endswith(".kicad_sch")
        and not name.startswith("/")
        and "\\" not in name
        and ":" not in name
        and "\0" not in name
        and ".." not in parts
    )
