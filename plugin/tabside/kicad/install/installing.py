"""What `tabside kicad install | status | remove` do, for every version of KiCad of this user."""

from __future__ import annotations

import os
import shutil
import sys
from collections.abc import Callable, Sequence
from pathlib import Path
from typing import Any

from tabside import __version__
from tabside.errors import TabsideError
from tabside.files import clear_unfinished
from tabside.files_together import undo_broken_off as undo
from tabside.kicad.folders import KiCad, find_kicads, settings_home
from tabside.kicad.install.changes import Changes
from tabside.kicad.install.health import problems_of
from tabside.kicad.install.record import read_record
from tabside.kicad.install.running import running_kicad
from tabside.kicad.install.things import THINGS, Thing
from tabside.kicad.install.work import Installation, Removal
from tabside.kicad.machine import Machine
from tabside.kicad.programs import installed_programs
from tabside.kicad.versions import remark

Planned = list[tuple[KiCad, Changes]]
Refused = list[TabsideError]  # of versions of KiCad that are left as they are


def chosen_kicads(machine: Machine, only: Sequence[str] | None) -> tuple[KiCad, ...]:
    """The versions of KiCad on this machine, started or not, or those of them that are named (`9.0`).

    Raises: TabsideError when there is none, or not the named one.
    """
    found = find_kicads(machine, installed_programs(machine))
    there = ", ".join(kicad.name for kicad in found)
    if not found:
        raise TabsideError(
            f"no KiCad found: no program kicad-cli, and none has been used here (looked in {settings_home(machine)}); "
            "start KiCad once, close it, try again"
        )
    for name in only or ():
        if name not in {kicad.name.split()[0] for kicad in found}:
            raise TabsideError(f"no KiCad {name} is here; there is {there}")
    return tuple(kicad for kicad in found if not only or kicad.name.split()[0] in only)


def plan_install(kicads: Sequence[KiCad], command: list[str], enable_api: bool) -> tuple[Planned, Refused]:
    """What installing would do, and why some versions are left.

    A file of theirs cannot be understood, or is in the way; the others are not held up by that.
    """

    def install(kicad: KiCad, changes: Changes) -> None:
        work = Installation(kicad, command, __version__, enable_api, changes)
        for thing in THINGS:
            thing.install(work)
        work.finish()
        changes.remarks.extend(_remarks(kicad))

    return _each(kicads, install)


def plan_removal(kicads: Sequence[KiCad]) -> tuple[Planned, Refused]:
    """What removing would do, and why some versions are left."""

    def remove(kicad: KiCad, changes: Changes) -> None:
        work = Removal(kicad, changes)
        for thing in THINGS:
            thing.remove(work)
        work.finish()

    return _each(kicads, remove)


def _each(kicads: Sequence[KiCad], plan: Callable[[KiCad, Changes], None]) -> tuple[Planned, Refused]:
    planned: Planned = []
    refused: Refused = []
    for kicad in kicads:
        changes = Changes()
        try:
            plan(kicad, changes)
        except TabsideError as error:
            said = f"{error.what.removesuffix('; nothing was changed')}; KiCad {kicad.name} is left as it is"
            refused.append(TabsideError(said, file=error.file, line=error.line, column=error.column))
        else:
            planned.append((kicad, changes))
    return planned, refused


def carry_out(planned: Planned, machine: Machine) -> None:
    """Do what was planned.

    Raises: TabsideError when KiCad is running, or something cannot be written.
    """
    for kicad, changes in planned:
        running = running_kicad(machine, kicad) if changes.steps else None
        if running is not None:
            raise TabsideError(
                f"KiCad is running: {running}, and would overwrite the settings; close it and try again, "
                "nothing was changed"
            )
    together = Changes()
    for _, changes in planned:
        together.join(changes)
    together.carry_out(journal_of(machine))


def journal_of(machine: Machine) -> Path:
    """Where the journal lies while files are replaced; it is there afterwards only when that was killed."""
    return settings_home(machine) / ".tabside-installing"


def undo_broken_off(machine: Machine) -> str | None:
    """Undo an install or remove that was killed; returns what was done, None where there is nothing to undo.

    Raises: TabsideError when KiCad is running, or something cannot be written.
    """
    journal = journal_of(machine)
    if not os.path.lexists(journal):
        clear_unfinished(journal)
        return None
    for kicad in find_kicads(machine):
        running = running_kicad(machine, kicad)
        if running is not None:
            raise TabsideError(
                f"an earlier install was broken off and KiCad is running: {running}; close it, try again"
            )
    return f"an earlier install or remove {undo(journal, allowed=os.path.isabs)}"


def status(machine: Machine) -> dict[str, Any]:
    """Every version of KiCad and how our things stand in it."""
    kicads = find_kicads(machine, installed_programs(machine))
    return {"format": "tabside/kicad/1", "kicads": [_state(machine, kicad) for kicad in kicads]}


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
    record, running = read_record(kicad), running_kicad(machine, kicad)
    return {
        "kicad": kicad.name,
        "settings": str(kicad.settings),
        "plugins": str(kicad.plugins),
        "running": running,
        "installed": None if record is None else record.version,
        "command": None if record is None else record.command,
        **{thing.name: _how(thing, kicad) for thing in THINGS},
        "remarks": _remarks(kicad),
        "problems": [{"what": problem.what, "fix": problem.fix} for problem in problems_of(machine, kicad, running)],
    }


def _how(thing: Thing, kicad: KiCad) -> str:
    """Its state; a damaged file of one KiCad does not end the status of all."""
    try:
        return thing.state(kicad)
    except TabsideError as error:
        return f"cannot be read: {error}"


def _remarks(kicad: KiCad) -> list[str]:
    said = remark(kicad.version)
    remarks = [] if said is None else [said]
    if kicad.imports:
        remarks.append(
            f"KiCad {kicad.name} has never been started, and its first start offers to take over the settings of the "
            "older version: start it, answer, close it, and install again"
        )
    if kicad.flatpak:
        remarks.append("a Flatpak sees only what is inside it: not tried; a button will say if it cannot start Tabside")
    return remarks
