"""Whether KiCad has a drawing open: it may hold changes that are not in the files yet."""

from __future__ import annotations

import os
from collections.abc import Iterable, Mapping
from enum import StrEnum

from tabside.errors import TabsideError
from tabside.files import read_file, written_ns

FilePath = str | os.PathLike[str]
ON_SCREEN = "TABSIDE_ON_SCREEN"  # what the button in KiCad saw: "changed", "saved", or "unknown"


class OnScreen(StrEnum):
    """Whether the files are what KiCad shows."""

    SAVED = "saved"
    MAY_DIFFER = "may differ"  # KiCad has the drawing open
    CHANGED = "changed"  # KiCad holds changes that are not in the files


def on_screen(root: FilePath, files: Iterable[str] = (), environment: Mapping[str, str] = os.environ) -> OnScreen:
    """What can be told of the root sheet and of `files`, which are relative to its folder."""
    sheets = _sheets(root, files)
    seen = environment.get(ON_SCREEN)
    if seen == "changed" or any(_holds_changes(copy, sheet) for sheet in sheets for copy in _copies(root, sheet)):
        return OnScreen.CHANGED
    if seen == "saved":
        return OnScreen.SAVED
    return OnScreen.MAY_DIFFER if seen or _locks(sheets) else OnScreen.SAVED


def asked_by_button(environment: Mapping[str, str] = os.environ) -> bool:
    """Whether a button in KiCad asks: its pages are kept fresh."""
    return ON_SCREEN in environment


def unsaved_warning(root: FilePath, files: Iterable[str] = ()) -> tuple[str, ...]:
    """One line when KiCad holds changes that are not in the files, or has opened one since it was saved last."""
    named = list(files)
    if on_screen(root, named) is OnScreen.CHANGED:
        return ("KiCad holds changes of this drawing that are not saved: they are not read",)
    if opened_since_saved(root, named) and os.environ.get(ON_SCREEN) != "saved":
        return ("KiCad has this drawing open and has not saved it since: changes since then are not read",)
    return ()


def opened_since_saved(root: FilePath, files: Iterable[str] = ()) -> bool:
    """Whether KiCad opened a sheet after it was saved last: what was drawn since is in no file."""
    locked = ((_lock(sheet), sheet) for sheet in _sheets(root, files))
    return any(_written(lock) > _written(sheet) for lock, sheet in locked if os.path.exists(lock))


def is_open_in_kicad(root: FilePath, files: Iterable[str] = ()) -> bool:
    """Whether KiCad's lock lies beside the root sheet, or beside any of `files`, which are relative to its folder.

    KiCad 6 to 10 write `~<file>.lck` while a file is open, and leave it behind when they end without closing it.
    """
    return bool(locks_beside(root, files))


def locks_beside(root: FilePath, files: Iterable[str] = ()) -> list[str]:
    """KiCad's locks beside the root sheet and beside `files`, which are relative to its folder."""
    return _locks(_sheets(root, files))


def _sheets(root: FilePath, files: Iterable[str]) -> list[str]:
    folder = os.path.dirname(root)
    named = [os.fspath(root), *(os.path.join(folder, file) for file in files)]
    # KiCad locks the file that was opened: the link, or what it leads to.
    return list(dict.fromkeys([*named, *(os.path.realpath(sheet) for sheet in named)]))


def _locks(sheets: Iterable[str]) -> list[str]:
    return [lock for lock in map(_lock, sheets) if os.path.lexists(lock)]


def _lock(sheet: str) -> str:
    folder, name = os.path.split(sheet)
    return os.path.join(folder, f"~{name}.lck")


def _copies(root: FilePath, sheet: str) -> list[str]:
    """Where KiCad keeps what was not saved yet.

    Source: KiCad 9.0.8 wrote `_autosave-<file>` beside the file after some minutes with a change, and took it away
    when it saved.  KiCad 10.0.7 has the folder `.history` for it, which stayed empty when its editor was started alone;
    that it mirrors the project there is from its messages and was not seen.
    """
    folder, name = os.path.split(sheet)
    beside = os.path.join(folder, f"_autosave-{name}")
    project = os.path.dirname(root)
    inside = os.path.join(project, "") if project else ""
    if not sheet.startswith(inside) or os.path.isabs(sheet) != os.path.isabs(root):  # a sheet elsewhere
        return [beside]
    return [beside, os.path.join(project, ".history", sheet.removeprefix(inside))]


def _holds_changes(copy: str, sheet: str) -> bool:
    """Whether it is newer than the file, and says something else."""
    try:
        return _written(copy) > _written(sheet) and read_file(copy) != read_file(sheet)
    except TabsideError:  # then it is not known; that the sheet cannot be read is told elsewhere
        return False


def _written(file: str) -> int:
    """When it was written; long ago where there is none."""
    return written_ns(file) or 0
