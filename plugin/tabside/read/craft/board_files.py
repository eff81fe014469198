"""Which board files the craft file names."""

from __future__ import annotations

import fnmatch
import glob
import os
from collections.abc import Callable, Iterator, Sequence
from contextlib import suppress
from itertools import count

from tabside.errors import TabsideError
from tabside.read.craft.board_file import ENDING
from tabside.words.contacts import listed
from tabside.words.nearest import nearest

MOST_FILES = 500
MOST_LOOKED_AT = 20_000  # entries of folders, for one pattern
_ALIKE = 0.65  # of two names without their ending: "pilot" and "pilto", not "power" and "sounder"; no source
_MOST_NAMED = 12


def board_paths(patterns: Sequence[str], craft_file: str | os.PathLike[str]) -> list[str]:
    """The files that `board_files` names, each once, in the order of names and of their paths.

    Raises: TabsideError when a name or pattern fits no file, or fits too many.
    """
    folder, craft_name = os.path.split(craft_file)
    found: dict[str, None] = {}
    for k, pattern in enumerate(patterns):
        key = f"craft.board_files[{k}]"
        paths = _matching(pattern, folder, craft_name, key)
        if not paths:
            what = f'{key}: "{pattern}" fits no file{_near(pattern, folder or os.curdir)}'
            raise TabsideError(what, file=craft_name)
        for path in paths:
            if not path.endswith(ENDING):
                what = f'{key}: "{os.path.basename(path)}" is no board file; its name ends in {ENDING}'
                raise TabsideError(what, file=craft_name)
            found.setdefault(path)
        if len(found) > MOST_FILES:
            raise TabsideError(f"{key}: names more than {MOST_FILES} files; name fewer", file=craft_name)
    return list(found)


def _matching(pattern: str, folder: str, craft_name: str, key: str) -> list[str]:
    looked_at = count(1)

    def entries(at: str) -> list[os.DirEntry[str]]:
        found = []
        with suppress(OSError, ValueError), os.scandir(at or os.curdir) as there:
            for entry in there:
                if next(looked_at) > MOST_LOOKED_AT:
                    what = f'{key}: "{pattern}" looks through more than {MOST_LOOKED_AT} files; name the folder'
                    raise TabsideError(what, file=craft_name)
                found.append(entry)
        return found

    drive, below = os.path.splitdrive(pattern.replace(os.altsep or os.sep, os.sep))
    parts = [part for part in below.split(os.sep) if part not in ("", os.curdir)]
    anchor = drive + os.sep * below.startswith(os.sep)
    paths = _fitting(anchor or folder, parts, entries)
    # What has the name of a board file is one: a link that leads nowhere, or a pipe, is not passed over in silence.
    meant = (path for path in paths if os.path.isfile(path) or (path.endswith(ENDING) and _is_there(path)))
    return sorted({os.path.normpath(path) for path in meant}, key=lambda path: path.split(os.sep))


def _is_there(path: str) -> bool:
    with suppress(ValueError):  # no file can have this name
        return os.path.lexists(path)
    return False


def _fitting(at: str, parts: Sequence[str], entries: Callable[[str], list[os.DirEntry[str]]]) -> Iterator[str]:
    """What fits the rest of a pattern below a folder; `entries` lists a folder and says when that is enough."""
    if not parts:
        yield at
        return
    part, rest = parts[0], parts[1:]
    if part == "**":
        yield from _fitting(at, rest, entries)
        for entry in entries(at):
            if not entry.name.startswith(".") and entry.is_dir(follow_symlinks=False):
                yield from _fitting(os.path.join(at, entry.name), parts, entries)
    elif glob.has_magic(part):
        for entry in entries(at):
            if (part.startswith(".") or not entry.name.startswith(".")) and fnmatch.fnmatch(entry.name, part):
                yield from _fitting(os.path.join(at, entry.name), rest, entries)
    else:
        yield from _fitting(os.path.join(at, part), rest, entries)


def _near(pattern: str, folder: str) -> str:
    """The file whose name, without folder and ending, is like the one that was written; else what there is."""
    from pathlib import Path, PurePath  # only for the message

    paths = [path.relative_to(folder) for depth in ("", "*/") for path in Path(folder).glob(f"{depth}*{ENDING}")]
    if not paths:
        return f"; there is no *{ENDING} in the folder of the craft file"
    asked = PurePath(pattern).name
    if glob.has_magic(asked):  # then its folder can be wrong
        like = nearest(pattern, (path.as_posix() for path in paths), alike=0.4)
    else:
        names = {path.name.removesuffix(ENDING): path.as_posix() for path in reversed(paths)}
        like = names.get(nearest(asked.removesuffix(ENDING), names, alike=_ALIKE) or "")
    if like is not None:
        return f'; did you mean "{like}"?'
    there = [f'"{path}"' for path in sorted(path.as_posix() for path in paths)]
    return f"; there {'is' if len(there) == 1 else 'are'} {listed(there, most=_MOST_NAMED)}"
