"""What `tabside kicad install | status | remove` do, for every version of KiCad of this user."""

from __future__ import annotations

import shutil
import sys
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from tabside import __version__
from tabside.errors import TabsideError
from tabside.kicad.changes import Changes
from tabside.kicad.folders import KiCad, Machine, find_kicads, settings_home
from tabside.kicad.record import read_record
from tabside.kicad.running import running_kicad
from tabside.kicad.things import THINGS
from tabside.kicad.versions import remark
from tabside.kicad.work import Installation, Removal

Planned = list[tuple[KiCad, Changes]]


def chosen_kicads(machine: Machine, only: Sequence[str] | None) -> tuple[KiCad, ...]:
    """The versions of KiCad on this machine, or those of them that are named (`9.0`).

    Raises: TabsideError when there is none, or not the named one.
    """
    found = find_kicads(machine)
    there = ", ".join(kicad.name for kicad in found)
    if not found:
        raise TabsideError(
            f"no KiCad has been used here (looked in {settings_home(machine)}); start KiCad once, close it, try again"
        )
    for name in only or ():
        if name not in {kicad.name.split()[0] for kicad in found}:
            raise TabsideError(f"no KiCad {name} has been used here; there is {there}")
    return tuple(kicad for kicad in found if not only or kicad.name.split()[0] in only)


def plan_install(kicads: Sequence[KiCad], command: list[str], enable_api: bool) -> Planned:
    """What installing would do.

    Raises: TabsideError when a file of KiCad's cannot be understood or is in our way.
    """
    planned = []
    for kicad in kicads:
        changes = Changes()
        work = Installation(kicad, command, __version__, enable_api, changes)
        for thing in THINGS:
            thing.install(work)
        work.finish()
        changes.remarks.extend(_remarks(kicad))
        planned.append((kicad, changes))
    return planned


def plan_removal(kicads: Sequence[KiCad]) -> Planned:
    """What removing would do.

    Raises: TabsideError when a file of KiCad's cannot be understood.
    """
    planned = []
    for kicad in kicads:
        changes = Changes()
        work = Removal(kicad, changes)
        for thing in THINGS:
            thing.remove(work)
        work.finish()
        planned.append((kicad, changes))
    return planned


def carry_out(planned: Planned, machine: Machine) -> None:
    """Do what was planned.

    Raises: TabsideError when KiCad is running, or something cannot be written.
    """
    for kicad, changes in planned:
        running = running_kicad(machine, kicad) if changes.steps else None
        if running is not None:
            raise TabsideError(
                f"KiCad is running: {running}, and would write its settings over ours; close it and try again, "
                "nothing was changed"
            )
    together = Changes()
    for _, changes in planned:
        together.join(changes)
    together.carry_out()


def status(machine: Machine) -> dict[str, Any]:
    """Every version of KiCad and how our things stand in it."""
    return {"format": "tabside/kicad/1", "kicads": [_state(machine, kicad) for kicad in find_kicads(machine)]}


def planned_json(planned: Planned, done: bool) -> dict[str, Any]:
    """What was or would be done."""
    return {
        "format": "tabside/kicad/1",
        "done": done,
        "kicads": [
            {
                "kicad": kicad.name,
                "steps": [{"what": what, "path": str(path)} for what, path in changes.steps],
                "remarks": changes.remarks,
            }
            for kicad, changes in planned
        ],
    }


def tabside_command() -> list[str]:
    """The command line that starts this very Tabside.

    Raises: TabsideError when it cannot be told.
    """
    names = ("tabside.exe", "tabside") if sys.platform == "win32" else ("tabside",)
    beside = [Path(sys.executable).parent / name for name in names]
    started = Path(sys.argv[0])
    candidates = [*beside, *([started.absolute()] if started.stem == "tabside" else [])]
    for candidate in candidates:
        if candidate.is_file():
            return [str(candidate)]
    found = shutil.which("tabside")
    if found is None:
        raise TabsideError("cannot tell where the command tabside is installed; put it on PATH and try again")
    return [str(Path(found).absolute())]


def _state(machine: Machine, kicad: KiCad) -> dict[str, Any]:
    record = read_record(kicad)
    return {
        "kicad": kicad.name,
        "settings": str(kicad.settings),
        "plugins": str(kicad.plugins),
        "running": running_kicad(machine, kicad),
        "installed": None if record is None else record.version,
        "command": None if record is None else record.command,
        **{thing.name: thing.state(kicad) for thing in THINGS},
        "remarks": _remarks(kicad),
    }


def _remarks(kicad: KiCad) -> list[str]:
    said = remark(kicad.version)
    remarks = [] if said is None else [said]
    if kicad.flatpak:
        remarks.append("a Flatpak sees only what is inside it: not tried; a button will say if it cannot start Tabside")
    return remarks
