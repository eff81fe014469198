"""Whether KiCad is running: it writes its settings when it ends, over whatever was changed meanwhile."""

from __future__ import annotations

import csv
import os
import subprocess
from collections.abc import Iterator
from pathlib import Path

from msgspec.structs import replace

from tabside.kicad.folders import KiCad, settings_home
from tabside.kicad.machine import Machine

PROGRAMS = frozenset(
    {"kicad", "eeschema", "pcbnew", "kicad-cli", "gerbview", "pl_editor", "bitmap2component", "pcb_calculator"}
)

PROC = Path("/proc")


def running_kicad(machine: Machine, kicad: KiCad) -> str | None:
    """A running program of KiCad that uses this settings folder, as `eeschema (process 4711)`; None when there is none.

    Where a process does not tell which folder it uses (macOS, Windows), any of the user's counts.
    """
    if machine.system == "windows":
        found = in_task_list(_listing(["tasklist", "/fo", "csv", "/nh"]))
    elif machine.system == "macos":
        found = in_process_list(_listing(["ps", "-x", "-o", "pid=,comm="]))
    else:
        found = in_proc(PROC, machine, kicad)
    return next((f"{name} (process {process})" for name, process in found), None)


def in_proc(proc: Path, machine: Machine, kicad: KiCad) -> Iterator[tuple[str, str]]:
    """Name and number of each of the user's processes that use this settings folder, from Linux's /proc."""
    for process in sorted(proc.iterdir()) if proc.is_dir() else ():
        if not process.name.isdigit():
            continue
        try:
            name = (process / "comm").read_text().strip()
            if name not in PROGRAMS or process.stat().st_uid != os.getuid():
                continue
            said = (process / "environ").read_bytes()
        except OSError:  # it has ended meanwhile, or is not ours to look at
            continue
        if not said:  # ended, and only not yet collected by the one that started it
            continue
        environment = dict(variable.split("=", 1) for variable in os.fsdecode(said).split("\0") if "=" in variable)
        home = Path(environment.get("HOME", str(machine.home)))
        if settings_home(replace(machine, home=home, environment=environment)) == kicad.settings.parent:
            yield name, process.name


def in_process_list(listing: str) -> Iterator[tuple[str, str]]:
    """The same from `ps -x -o pid=,comm=`, where the command is a path that may hold blanks."""
    for line in listing.splitlines():
        process, _, path = line.strip().partition(" ")
        name = path.strip().rsplit("/", 1)[-1]
        if name.lower() in PROGRAMS:
            yield name, process


def in_task_list(listing: str) -> Iterator[tuple[str, str]]:
    """The same from `tasklist /fo csv /nh`."""
    for row in csv.reader(listing.splitlines()):
        if len(row) > 1 and row[0].lower().removesuffix(".exe") in PROGRAMS:
            yield row[0], row[1]


def _listing(command: list[str]) -> str:
    """What a program of the system prints; empty when it cannot be asked."""
    try:
        return subprocess.run(command, capture_output=True, text=True, errors="replace", check=False).stdout
    except OSError:
        return ""
