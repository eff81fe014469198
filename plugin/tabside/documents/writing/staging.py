"""A folder of documents that is never half-written.

New files are made in a temporary folder inside the target (the same file system, so that each moves in one step) and
then replace the old ones, file by file; one that holds the same already only gets the new time.
`tabside-manifest.json` lists the files that are ours: only they are replaced or removed.  It is written before the
first file moves, so that after a crash the next export still knows its own; a journal beside the staged files says
what each one held, so that the next export can put them back.

`files_together` replaces a few files wherever they lie, and keeps their old contents in its journal.  Here there may be
many and large ones, old ones to remove, and a list of what is ours: the old files stay files until all is done.
"""

from __future__ import annotations

import json
import os
import shutil
import tempfile
from collections.abc import Iterator, Mapping, Sequence
from contextlib import ExitStack, contextmanager, suppress
from pathlib import Path
from threading import Thread
from typing import NamedTuple

from tabside.errors import TabsideError
from tabside.file_locks import Lock, lock
from tabside.files import sha256_of
from tabside.interruption import put_off, wrote
from tabside.ordinary_file import read_ordinary
from tabside.words.contacts import counted

MANIFEST = "tabside-manifest.json"
_FORMAT = "tabside/manifest/1"
_STAGING = ".tabside-staging-"
_LARGEST_MANIFEST = 4 * 1024**2
_LARGEST_DOCUMENT = 1024**3
_JOURNAL = "journal"
_BEFORE = "before"
_AT_ONCE = 32  # files that are open while they are written


def replace_files(to: Path, files: Mapping[str, bytes], *, keep_others: bool = False) -> tuple[str, ...]:
    """Make `files` (name -> content) the documents in folder `to`, which is made when missing.

    A document of ours that somebody changed is made again.  Files of an earlier export that are not among `files` are
    removed, unless somebody changed them or `keep_others` is set.  What Tabside did not write is left alone.  When it
    cannot be done, the folder is as it was; when an earlier export was killed in the middle, what it had replaced is
    put back first.

    Returns what a person should know, a line each: a link that was followed, files of others, leftovers put right.

    Raises: TabsideError when the folder cannot be written, when a file of that name is not ours, or when another
    export is writing there.
    """
    with _told(to):
        remarks = _followed(to)
        made = not to.exists()
        to.mkdir(parents=True, exist_ok=True)
        try:
            with _alone_in(to):
                remarks += undo_broken_off(to)
                remarks += _others(to)
                with put_off():
                    _replace(to, files, keep_others=keep_others)
                    wrote(f"the documents in {to}")
        except BaseException:
            if made:
                _remove_empty(to)
            raise
    return tuple(remarks)


def _followed(to: Path) -> list[str]:
    return [f"{to} is a link; the documents are in {os.path.realpath(to)}"] if to.is_symlink() and to.is_dir() else []


def _others(to: Path) -> list[str]:
    """A folder that holds other things and no documents yet may have been named by mistake."""
    if os.path.lexists(to / MANIFEST) or not any(to.iterdir()):
        return []
    return [f"{to} holds other files; they are left alone"]


@contextmanager
def _alone_in(to: Path) -> Iterator[None]:
    """Nobody else writes there meanwhile."""
    if not hasattr(os, "O_DIRECTORY"):  # Windows opens no folder
        yield
        return
    handle = os.open(to, os.O_RDONLY | os.O_DIRECTORY)
    try:
        if lock(handle) is Lock.THEIRS:
            raise TabsideError("another Tabside is writing there; wait for it and try again", file=to)
        yield
    finally:
        os.close(handle)


def undo_broken_off(to: Path) -> list[str]:
    """Put back what exports that were killed had replaced in that folder, and clear away what they left.

    Returns a line for each.  Files that somebody changed since stay.
    """
    remarks = []
    for staging in sorted(to.glob(f"{_STAGING}*")):
        if staging.is_dir() and not staging.is_symlink():
            back = _put_back(to, staging)
            shutil.rmtree(staging, ignore_errors=True)
            done = (
                f"what it had replaced ({counted(len(back), 'file')}) is as it was"
                if back
                else "it had replaced nothing"
            )
            remarks.append(f"an earlier export into {to} was broken off; {done}, and its leftovers are cleared away")
    return remarks


def _put_back(to: Path, staging: Path) -> list[str]:
    journal = _read_journal(staging)
    manifest = journal.get(MANIFEST)
    if manifest is None or _digest_of(to / MANIFEST) == manifest.after:  # had not begun, or was done
        return []
    back = []
    for name, state in journal.items():
        now = _digest_of(to / name)
        if now == state.before or (name != MANIFEST and now != state.after):
            continue
        if state.before is None:
            (to / name).unlink(missing_ok=True)
        elif _digest_of(staging / _BEFORE / name) == state.before:
            os.replace(staging / _BEFORE / name, to / name)
        back.append(name)
    return back


class _State(NamedTuple):
    """What a file held and was going to hold, as digests; None where there was, or was to be, no file."""

    before: str | None
    after: str | None


def _read_journal(staging: Path) -> dict[str, _State]:
    """The states by name; empty when there is no journal, or none that can be understood."""
    try:
        said = json.loads(read_ordinary(staging / _JOURNAL, most_bytes=_LARGEST_MANIFEST))
        states = {str(name): _State(*map(_optional_text, state)) for name, state in said.items()}
    except (TabsideError, ValueError, TypeError, AttributeError, RecursionError):
        return {}
    return {name: state for name, state in states.items() if _is_plain(name)}


def _optional_text(value: object) -> str | None:
    return None if value is None else str(value)


def _replace(to: Path, files: Mapping[str, bytes], *, keep_others: bool) -> None:
    ours = _read_manifest(to)
    for name, content in files.items():
        _must_be_ours(to / name, content, ours)
    new = {name: sha256_of(content) for name, content in files.items()}
    leftover = {name: digest for name, digest in ours.items() if name not in new}
    changed = {name: content for name, content in files.items() if not _is_there(to / name, new[name])}
    staging = Path(tempfile.mkdtemp(prefix=_STAGING, dir=to))
    try:
        both = _manifest(leftover | new, complete=False)
        manifest = _manifest(leftover | new if keep_others else new, complete=True)
        _write_all(staging, {**changed, "both": both, "new": manifest})
        stale = [name for name, digest in leftover.items() if not keep_others and _unchanged(to / name, digest)]
        after = {**dict.fromkeys(stale), **{name: new[name] for name in changed}, MANIFEST: _digest_of(staging / "new")}
        with _restored_on_failure(to, staging, after):
            os.replace(staging / "both", to / MANIFEST)
            for name in changed:
                os.replace(staging / name, to / name)
            for name in files.keys() - changed.keys():  # nobody can tell it from a new one, but by its time
                os.utime(to / name)
            for name in stale:
                (to / name).unlink()
            os.replace(staging / "new", to / MANIFEST)
    finally:
        shutil.rmtree(staging, ignore_errors=True)


@contextmanager
def _restored_on_failure(to: Path, staging: Path, after: Mapping[str, str | None]) -> Iterator[None]:
    """Put the files back as they were when the block fails; a journal lets the next export do it, if we are killed."""
    before = staging / _BEFORE
    before.mkdir()
    kept = {name: (to / name).is_file() for name in after}
    for name in [name for name, existed in kept.items() if existed]:
        shutil.copy2(to / name, before / name)
    states = {name: _State(_digest_of(before / name), digest) for name, digest in after.items()}
    _write_all(staging, {_JOURNAL: json.dumps(states).encode()})
    try:
        yield
    except BaseException:
        for name, existed in kept.items():
            if existed:
                os.replace(before / name, to / name)
            else:
                (to / name).unlink(missing_ok=True)
        raise


def _must_be_ours(path: Path, content: bytes, ours: Mapping[str, str]) -> None:
    if path.is_file() and path.stat().st_size > _LARGEST_DOCUMENT:
        raise TabsideError(
            "is too large to be one of the documents; move it away or export to another folder", file=path
        )
    if not os.path.lexists(path) or (path.name in ours and not path.is_dir()):
        return
    if path.is_file() and path.stat().st_size == len(content) and path.read_bytes() == content:
        return
    raise TabsideError("is not from an earlier export; move it away or export to another folder", file=path)


def _read_manifest(to: Path) -> dict[str, str]:
    """Our files and their digests; empty when there is no manifest that we can read."""
    path = to / MANIFEST
    if not os.path.lexists(path):
        return {}
    try:
        said = json.loads(read_ordinary(path, str(path), _LARGEST_MANIFEST))
        if said["format"] != _FORMAT:
            raise ValueError
        files = {str(name): str(digest) for name, digest in said["files"].items()}
    except (ValueError, TypeError, KeyError, AttributeError, RecursionError):
        raise TabsideError(
            "is no list of exported files; move it away or export to another folder", file=path
        ) from None
    # A manifest that somebody made up must not reach outside its folder.
    return {name: digest for name, digest in files.items() if _is_plain(name)}


def _is_plain(name: str) -> bool:
    return Path(name).name == name and "\\" not in name and "\0" not in name


def _manifest(files: Mapping[str, str], *, complete: bool) -> bytes:
    said = {"format": _FORMAT, "complete": complete, "files": dict(sorted(files.items()))}
    return (json.dumps(said, indent=1) + "\n").encode()


def _unchanged(path: Path, digest: str) -> bool:
    return not path.is_symlink() and _digest_of(path) == digest


def _is_there(path: Path, digest: str) -> bool:
    """Whether it need not be written: it holds the same, and may be given another time."""
    return _unchanged(path, digest) and os.access(path, os.W_OK)


def _digest_of(path: Path) -> str | None:
    """None when there is no ordinary file; no digest of ours when it is larger than any document."""
    if not path.is_file():
        return None
    return "large" if path.stat().st_size > _LARGEST_DOCUMENT else sha256_of(path.read_bytes())


def _write_all(folder: Path, files: Mapping[str, bytes]) -> None:
    """New files, all on the disk when it returns."""
    names = list(files)
    for at in range(0, len(names), _AT_ONCE):
        with ExitStack() as stack:
            handles = [stack.enter_context((folder / name).open("xb")) for name in names[at : at + _AT_ONCE]]
            for handle, name in zip(handles, names[at:], strict=False):
                handle.write(files[name])
                handle.flush()
            _bring_to_disk([handle.fileno() for handle in handles])


def _bring_to_disk(descriptors: Sequence[int]) -> None:
    """All at the same time: the system then writes them in one go, which takes hardly longer than for one."""
    failed: list[OSError] = []

    def bring(descriptor: int) -> None:
        try:
            os.fsync(descriptor)
        except OSError as error:
            failed.append(error)

    started = []
    for descriptor in descriptors:
        thread = Thread(target=bring, args=(descriptor,))
        try:
            thread.start()
        except RuntimeError:  # the system gives us no more threads
            bring(descriptor)
        else:
            started.append(thread)
    for thread in started:
        thread.join()
    if failed:
        raise failed[0]


def _remove_empty(to: Path) -> None:
    with suppress(OSError):  # something is in it that is not ours
        to.rmdir()


@contextmanager
def _told(to: Path) -> Iterator[None]:
    """An error of the file system becomes one line that names the folder."""
    if os.path.lexists(to) and not to.is_dir():
        raise TabsideError("is not a folder; name another one", file=to)
    try:
        yield
    except OSError as error:
        what = (error.strerror or type(error).__name__).lower()
        name = Path(str(error.filename)).name if error.filename else ""
        at = f"{name}: " if name and name != to.name and not name.startswith(_STAGING) else ""
        raise TabsideError(
            f"cannot write the documents: {at}{what}; nothing was changed, make room for them or name another folder",
            file=to,
        ) from None
