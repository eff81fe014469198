"""Which board files the craft file names."""

from __future__ import annotations

import difflib
import glob
import os
from collections.abc import Sequence
from itertools import islice
from pathlib import Path

from tabside.errors import TabsideError
from tabside.read.craft.board_file import ENDING

MOST_FILES = 500


def board_paths(patterns: Sequence[str], craft_file: Path) -> list[Path]:
    """The files that `board_files` names, each once, in the order of names and of their paths.

    Raises: TabsideError when a name or pattern fits no file, or fits too many.
    """
    found: dict[Path, None] = {}
    for k, pattern in enumerate(patterns):
        key = f"craft.board_files[{k}]"
        paths = _matching(pattern, craft_file.parent)
        if not paths:
            what = f'{key}: "{pattern}" fits no file{_near(pattern, craft_file.parent)}'
            raise TabsideError(what, file=craft_file.name)
        for path in paths:
            if not path.name.endswith(ENDING):
                what = f'{key}: "{path.name}" is no board file; its name ends in {ENDING}'
                raise TabsideError(what, file=craft_file.name)
            found.setdefault(path)
        if len(found) > MOST_FILES:
            raise TabsideError(f"{key}: names more than {MOST_FILES} files; name fewer", file=craft_file.name)
    return list(found)


def _matching(pattern: str, folder: Path) -> list[Path]:
    names = glob.iglob(pattern, root_dir=folder, recursive=True)
    paths = (folder / name for name in islice(names, MOST_FILES * 4))
    return sorted(Path(os.path.normpath(path)) for path in paths if path.is_file())


def _near(pattern: str, folder: Path) -> str:
    there = [path.relative_to(folder).as_posix() for depth in ("", "*/") for path in folder.glob(f"{depth}*{ENDING}")]
    close = difflib.get_close_matches(pattern, there, n=1, cutoff=0.4) or sorted(there)[:1]
    return f'; did you mean "{close[0]}"?' if close else f"; there is no *{ENDING} in {folder.name or 'its folder'}"
