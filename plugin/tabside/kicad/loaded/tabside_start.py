"""Starts the installed command `tabside` from a script that KiCad runs.

Standard library only, Python 3.9: KiCad runs these scripts with an interpreter of its own choice.
"""

from __future__ import annotations

import json
import os
import re
import shutil
import subprocess
from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import NamedTuple

RECORD = "tabside-installed.json"  # beside this script, written by `tabside kicad install`
INSTALL_AGAIN = "Install Tabside and run `tabside kicad install` in a terminal."

# KiCad points its scripts to modules of its own and, for a button, to a virtual environment of its own.  Tabside is
# another Python's program and must see neither.
FOREIGN = ("PYTHONPATH", "PYTHONHOME", "PYTHONSTARTUP", "PYTHONUSERBASE", "VIRTUAL_ENV", "__PYVENV_LAUNCHER__")

# The command's words for whose nets count; see `whose_rules`.
NEWEST_RULES = 10
_VERSION_FOLDER = re.compile(r"(\d+)\.\d+")
_VERSION_VARIABLE = re.compile(r"KICAD(\d+)_SYMBOL_DIR")


class DoorError(Exception):
    """What keeps a button or the script door from doing its job: what is wrong, and what to do about it."""

    def __init__(self, what: str, todo: str) -> None:
        super().__init__(f"{what} {todo}")
        self.what = what
        self.todo = todo


class Answer(NamedTuple):
    """What `tabside` said: exit status 0 nothing found, 1 findings, anything else could not run."""

    status: int
    out: str
    err: str

    @property
    def ran(self) -> bool:
        return self.status in (0, 1) and bool(self.out.strip())  # Python ends with 1 too when a program breaks

    @property
    def complaint(self) -> str:
        """The line that says what is wrong, without the name of the program."""
        lines = [line for line in self.err.splitlines() if line.strip()] or ["it ended without a message"]
        named = [line for line in lines if line.startswith("tabside: ") and not line.startswith("tabside: warning: ")]
        line = (named or lines)[-1]
        return line[len("tabside: ") :] if line.startswith("tabside: ") else line


def run_tabside(arguments: Sequence[str], folder: Path) -> Answer:
    """Run `tabside` in a folder.

    Raises: DoorError when it is not there or cannot be started.
    """
    here = Path(__file__).resolve().parent
    command = find_tabside(here, os.environ)
    # Windows would open a console window for the command.
    flags = getattr(subprocess, "CREATE_NO_WINDOW", 0)
    try:
        done = subprocess.run(
            [*command, *arguments, *whose_rules(here, os.environ)],
            cwd=str(folder),
            env=clean_environment(os.environ),
            stdin=subprocess.DEVNULL,
            capture_output=True,
            encoding="utf-8",
            errors="replace",
            creationflags=flags,
        )
    except OSError as error:
        reason = error.strerror or str(error)
        raise DoorError(f"Tabside at {command[0]} could not be started: {reason}.", INSTALL_AGAIN) from None
    return Answer(done.returncode, done.stdout, done.stderr)


def whose_rules(here: Path, environment: Mapping[str, str]) -> list[str]:
    """The option that has the nets made by the rules of the KiCad that runs this script.

    Its version is that of the folder of KiCad's that the script was installed in, else that of KiCad's own variables;
    the user may have kept those of an older KiCad beside them.  Without either, the drawing's own format decides.
    """
    folders = [found[1] for part in reversed(here.parts) if (found := _VERSION_FOLDER.fullmatch(part))]
    named = [found[1] for name in environment if (found := _VERSION_VARIABLE.fullmatch(name))]
    versions = [int(folders[0])] if folders else [int(number) for number in named]
    return ["--kicad", str(min(max(9, *versions), NEWEST_RULES))] if versions else []


def find_tabside(here: Path, environment: Mapping[str, str]) -> list[str]:
    """The command line that starts Tabside: as recorded at installation, else as found on PATH.

    Raises: DoorError when there is none.
    """
    for record in _records(here):
        command = _recorded(record)
        if command and Path(command[0]).exists():
            return command
    found = shutil.which("tabside", path=environment.get("PATH"))
    if found is None:
        raise DoorError("The command tabside was not found on this computer.", INSTALL_AGAIN)
    return [found]


def _records(here: Path) -> list[Path]:
    """The record beside this script; KiCad's package manager unpacks to 3rdparty/plugins/NAME, beside plugins/."""
    return (
        [here / RECORD, here.parents[2] / "plugins" / "tabside" / RECORD] if len(here.parents) > 2 else [here / RECORD]
    )


def _recorded(record: Path) -> list[str]:
    try:
        command = json.loads(record.read_text(encoding="utf-8"))["command"]
    except (OSError, ValueError, KeyError, TypeError):
        return []
    return [word for word in command if isinstance(word, str)] if isinstance(command, list) else []


def clean_environment(environment: Mapping[str, str]) -> dict[str, str]:
    """The environment without what KiCad set for its own Python."""
    clean = {name: value for name, value in environment.items() if name not in FOREIGN}
    clean["PYTHONUTF8"] = "1"  # file names in messages come over the pipe as UTF-8 on Windows too
    return clean
