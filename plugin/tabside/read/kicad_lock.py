"""Whether KiCad has a drawing open: it may hold changes that are not in the files yet."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path


def is_open_in_kicad(root: str | Path, files: Iterable[str] = ()) -> bool:
    """Whether KiCad's lock lies beside the root sheet, or beside any of `files`, which are relative to its folder.

    KiCad 6 to 9 write `~<file>.lck` while a file is open, and leave it behind when they end without closing it.
    """
    first = Path(root)
    sheets = [first, *(first.parent / file for file in files)]
    return any(sheet.with_name(f"~{sheet.name}.lck").exists() for sheet in sheets)
