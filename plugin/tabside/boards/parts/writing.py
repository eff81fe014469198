"""The parts of boards put on the disk: all files or none, even when the process is killed between two of them."""

from __future__ import annotations

import os
from collections.abc import Mapping
from contextlib import suppress
from pathlib import Path, PurePosixPath

from tabside.boards.parts.library_tables import BLOCKS, SYMBOLS
from tabside.errors import TabsideError
from tabside.files import clear_unfinished, read_file
from tabside.files_together import Replacement, replaced_together
from tabside.files_together import undo_broken_off as undo
from tabside.interruption import PARTS_JOURNAL

_ENDINGS = (".kicad_sym", ".kicad_sch", ".json")


def write_together(folder: Path, changes: Mapping[str, bytes]) -> tuple[str, ...]:
    """Give these files (names below the folder, parts separated by "/") their content; returns their paths.

    Raises: TabsideError when one cannot be written; then nothing was changed.
    """
    for name in changes:
        _must_be_inside(folder, name)
    made = [path for name in changes for path in (folder / name).parents if not path.exists()]
    files = []
    for name, content in changes.items():
        before = read_file(folder / name)
        if before != content:
            files.append(Replacement(name, before, content))
    try:
        folder.mkdir(parents=True, exist_ok=True)
        if files:
            with replaced_together(folder / PARTS_JOURNAL, files):
                pass
    except OSError as error:
        _remove_empty(made)
        raise TabsideError(f"cannot be written ({error.strerror})", file=folder) from None
    except TabsideError:
        _remove_empty(made)
        raise
    return tuple(str(folder / name) for name in changes)


def undo_broken_off(folder: Path) -> str | None:
    """Undo the writing of parts into this folder that was killed; returns what was done, None when nothing had to be.

    Raises: TabsideError when the journal cannot be understood, or a file cannot be written.
    """
    journal = folder / PARTS_JOURNAL
    if not os.path.lexists(journal):
        if folder.is_dir():
            clear_unfinished(journal)
        return None
    names: list[str] = []

    def allowed(name: str) -> bool:
        names.append(name)
        return _is_part(folder, name)

    said = undo(journal, allowed)
    _remove_empty([folder / parent for name in names for parent in PurePosixPath(name).parents])
    return f"writing the parts of boards {said}"


def _must_be_inside(folder: Path, name: str) -> None:
    """A link in somebody's project must not lead our writing to another place."""
    for part in [name, *map(str, PurePosixPath(name).parents)][:-1]:
        if (folder / part).is_symlink():
            raise TabsideError(
                "is a link; nothing was written, put the file or folder itself there", file=folder / part
            )


def _is_part(folder: Path, name: str) -> bool:
    """A file that a library has, in the folder itself: a made-up journal reaches nothing else, by a link either."""
    plain = not name.startswith("/") and ".." not in PurePosixPath(name).parts and not set("\\:\0") & set(name)
    if not plain or not (name in (SYMBOLS.file, BLOCKS.file) or name.endswith(_ENDINGS)):
        return False
    return Path(os.path.realpath(folder / name)).is_relative_to(os.path.realpath(folder))


def _remove_empty(folders: list[Path]) -> None:
    for folder in sorted(folders, key=lambda path: len(path.parts), reverse=True):
        with suppress(OSError):  # something is in it
            folder.rmdir()
