"""Whether KiCad has a drawing open: it may hold changes that are not in the files yet."""

from __future__ import annotations

import os
from collections.abc import Iterable
from pathlib import Path


def is_open_in_kicad(root: str | Path, files: Iterable[str] = ()) -> bool:
    """Whether KiCad's lock lies beside the root sheet, or beside any of `files`, which are relative to its folder.

    KiCad 6 to 9 write `~<file>.lck` while a file is open, and leave it behind when they end without closing it.
    """
    return bool(locks_beside(root, files))


def locks_beside(root: str | Path, files: Iterable[str] = ()) -> list[Path]:
    """KiCad's locks beside the root sheet and beside `files`, which are relative to its folder."""
    first = Path(root)
    named = [first, *(first.parent / file for file in files)]
    # KiCad locks the file that was opened: the link, or what it leads to.
    sheets = dict.fromkeys([*named, *(Path(os.path.realpath(sheet)) for sheet in named)])
    locks = [sheet.with_name(f"~{sheet.name}.lck") for sheet in sheets]
    return [lock for lock in locks if lock.exists()]
