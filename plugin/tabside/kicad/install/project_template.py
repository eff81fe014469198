"""Our project template: what File > New Project from Template offers, beside KiCad's own.

The files are drawn by `python -m fixtures.starter.draw`.
"""

from __future__ import annotations

import json
import os
import sys
from importlib.resources import files
from pathlib import Path

from tabside.kicad.folders import KiCad
from tabside.kicad.install.scripts import files_below
from tabside.kicad.install.versions import FIRST_WITH_BUTTON
from tabside.kicad.install.work import Installation, Removal

NAME = "tabside_craft"
JOBSET = "documents.kicad_jobset"
_COMMAND = "tabside "  # begins the job's command as we ship it
_START = "from tabside.starting import main; raise SystemExit(main())"
OLDEST = FIRST_WITH_BUTTON  # its schematic is in the format of KiCad 9


class ProjectTemplate:
    """The folder `tabside_craft` among the user's templates."""

    name = "project_template"

    def install(self, work: Installation) -> None:
        if work.kicad.version < OLDEST:
            return
        wanted = {**files_below(f"template/{NAME}"), "meta/icon.png": _icon()}
        wanted[JOBSET] = jobset_for(wanted[JOBSET], sys.executable, windows=os.name == "nt")
        work.own_folder(_folder(work.kicad), wanted, "the project template")

    def remove(self, work: Removal) -> None:
        """Its files are wholly ours."""

    def state(self, kicad: KiCad) -> str:
        if kicad.version < OLDEST:
            return "none in this version"
        return "installed" if (_folder(kicad) / f"{NAME}.kicad_pro").exists() else "not installed"


def jobset_for(shipped: bytes, interpreter: str, *, windows: bool) -> bytes:
    """The jobset whose job finds Tabside where it is installed, although a KiCad that was started from the desktop
    often has not the PATH of a terminal.

    On another machine the job falls back to `tabside` on the PATH; not so on Windows, where there is no `sh`.
    KiCad runs the command without a shell (source: KiCad 9.0.8 on Linux; not tried on Windows).
    """
    if not interpreter or any(sign in interpreter for sign in "\"'$`" + ("" if windows else "\\")):
        return shipped
    jobset = json.loads(shipped)
    for job in jobset["jobs"]:
        command: str = job["settings"].get("command", "")
        if command.startswith(_COMMAND):
            job["settings"]["command"] = f"{_starting(interpreter, windows)} {command.removeprefix(_COMMAND)}"
    return (json.dumps(jobset, indent=2) + "\n").encode()


def _starting(interpreter: str, windows: bool) -> str:
    if windows:
        return f'"{interpreter}" -c "{_START}"'
    script = f'p="$1"; shift; [ -x "$p" ] && exec "$p" -c "{_START}" "$@"; exec tabside "$@"'
    return f"sh -c '{script}' sh \"{interpreter}\""


def _folder(kicad: KiCad) -> Path:
    return kicad.data / "template" / NAME


def _icon() -> bytes:
    return files("tabside.kicad").joinpath("package_icon.png").read_bytes()
