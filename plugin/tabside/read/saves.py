"""Waits for the next save of a drawing's files."""

from __future__ import annotations

import os
import time
from collections.abc import Iterable, Iterator
from pathlib import Path

# A sheet, the project's settings, the craft file, a board file.  What KiCad saves by itself beside them is not read.
OF_A_DRAWING = (".kicad_sch", ".kicad_pro", ".craft.toml", ".board.toml")
_SAVED_BY_ITSELF = "_autosave-"

# Each file's path with what tells a save: when, how long, and which file it is on the disk (replaced, or written into).
State = frozenset[tuple[str, int, int, int]]

LOOK_MS = 500  # where the system reports no saves (a share, a link's target) they are seen when looked for
_TOGETHER_MS = 300  # files that are saved one after the other are read together
_STEP_MS = 50


def state_of(folders: Iterable[Path]) -> State:
    """How the files of these folders that a drawing may be read from are now."""
    return frozenset(state for folder in folders for state in _states_in(folder))


def wait_for_save(folders: frozenset[Path], since: State, at_most_s: float | None = None) -> State:
    """The state of the folders as soon as it differs from `since`, or when `at_most_s` has passed."""
    from watchfiles import watch

    ends = None if at_most_s is None else time.monotonic() + at_most_s
    while True:
        now = _settled(folders, since)
        if now != since or (ends is not None and time.monotonic() >= ends):
            return now
        look = LOOK_MS if ends is None else max(1, min(LOOK_MS, int(1000 * (ends - time.monotonic()))))
        there = [folder for folder in sorted(folders) if folder.is_dir()]
        if not there:
            time.sleep(look / 1000)
            continue
        # Begun anew for each look, so that a folder that was renamed and made again is seen, too.
        for _ in watch(
            *there,
            watch_filter=lambda _, path: _is_read(os.path.basename(path)),
            debounce=_TOGETHER_MS,
            step=_STEP_MS,
            rust_timeout=look,
            yield_on_timeout=True,
            recursive=False,
            ignore_permission_denied=True,
        ):
            break


def _settled(folders: frozenset[Path], since: State) -> State:
    """The state once nothing has changed for a moment; files that are written all the time are taken as they are."""
    state = state_of(folders)
    for _ in range(_TOGETHER_MS // _STEP_MS):
        if state == since:
            break
        time.sleep(_STEP_MS / 1000)
        before, state = state, state_of(folders)
        if state == before:
            break
    return state


def _states_in(folder: Path) -> Iterator[tuple[str, int, int, int]]:
    try:
        names = sorted(name for name in os.listdir(folder) if _is_read(name))
    except OSError:
        return
    for name in names:
        path = os.path.join(folder, name)
        try:
            found = os.stat(path)
        except OSError:
            yield (path, 0, -1, 0)
            continue
        yield (path, found.st_mtime_ns, found.st_size, found.st_ino)


def _is_read(name: str) -> bool:
    return name.endswith(OF_A_DRAWING) and not name.startswith(_SAVED_BY_ITSELF)
