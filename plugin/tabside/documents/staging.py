"""A folder of documents that is never half-written.

New files are made in a temporary folder inside the target (the same file system, so that each moves in one step) and
then replace the old ones, file by file.  `tabside-manifest.json` lists the files that are ours: only they are replaced
or removed.  It is written before the first file moves, so that after a crash the next export still knows its own.
"""

from __future__ import annotations

import hashlib
import json
import os
import shutil
import tempfile
from collections.abc import Iterable, Iterator, Mapping
from contextlib import contextmanager, suppress
from pathlib import Path

from tabside.errors import TabsideError
from tabside.ordinary_file import read_ordinary

MANIFEST = "tabside-manifest.json"
_FORMAT = "tabside/manifest/1"
_STAGING = ".tabside-staging-"
_LARGEST_MANIFEST = 4 * 1024**2


def replace_files(to: Path, files: Mapping[str, bytes]) -> None:
    """Make `files` (name -> content) the documents in folder `to`, which is made when missing.

    A document of ours that somebody changed is made anew.  Files of an earlier export that are not among `files` are
    removed, unless somebody changed them.  What Tabside did
    not write is left alone.  When it cannot be done, the folder is as it was.

    Raises: TabsideError when the folder cannot be written, or when a file of that name is not ours.
    """
    with _told(to):
        made = not to.exists()
        to.mkdir(parents=True, exist_ok=True)
        try:
            _replace(to, files)
        except BaseException:
            if made:
                _remove_empty(to)
            raise


def _replace(to: Path, files: Mapping[str, bytes]) -> None:
    ours = _read_manifest(to)
    for name, content in files.items():
        _must_be_ours(to / name, content, ours)
    new = {name: _sha256(content) for name, content in files.items()}
    leftover = {name: digest for name, digest in ours.items() if name not in new}
    staging = Path(tempfile.mkdtemp(prefix=_STAGING, dir=to))
    try:
        for name, content in files.items():
            _write(staging / name, content)
        _write(staging / "both", _manifest(leftover | new, complete=False))
        _write(staging / "new", _manifest(new, complete=True))
        stale = [name for name, digest in leftover.items() if _unchanged(to / name, digest)]
        with _restored_on_failure(to, staging, [MANIFEST, *files, *stale]):
            os.replace(staging / "both", to / MANIFEST)
            for name in files:
                os.replace(staging / name, to / name)
            for name in stale:
                (to / name).unlink()
            os.replace(staging / "new", to / MANIFEST)
    finally:
        shutil.rmtree(staging, ignore_errors=True)


@contextmanager
def _restored_on_failure(to: Path, staging: Path, names: Iterable[str]) -> Iterator[None]:
    """Put the files back as they were when the block fails."""
    before = staging / "before"
    before.mkdir()
    kept = {name: (to / name).is_file() for name in names}
    for name in [name for name, existed in kept.items() if existed]:
        shutil.copy2(to / name, before / name)
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
    if not os.path.lexists(path) or (path.name in ours and not path.is_dir()):
        return
    if path.is_file() and path.read_bytes() == content:
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
    return {name: digest for name, digest in files.items() if Path(name).name == name and "\\" not in name}


def _manifest(files: Mapping[str, str], *, complete: bool) -> bytes:
    said = {"format": _FORMAT, "complete": complete, "files": dict(sorted(files.items()))}
    return (json.dumps(said, indent=1) + "\n").encode()


def _unchanged(path: Path, digest: str) -> bool:
    return path.is_file() and not path.is_symlink() and _sha256(path.read_bytes()) == digest


def _sha256(content: bytes) -> str:
    return hashlib.sha256(content).hexdigest()


def _write(path: Path, content: bytes) -> None:
    with path.open("xb") as out:
        out.write(content)
        out.flush()
        os.fsync(out.fileno())


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
