"""What does not work of Tabside in a KiCad, and how to fix it."""

from __future__ import annotations

import os
import subprocess
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from msgspec import Struct

from tabside import __version__
from tabside.errors import TabsideError
from tabside.kicad.folders import KiCad
from tabside.kicad.install.record import Record, read_record
from tabside.kicad.install.scripts import is_package
from tabside.kicad.install.settings import parse_settings
from tabside.kicad.install.symbol_library import SymbolLibrary
from tabside.kicad.install.toolbars import CUSTOMISED, are_on_the_left
from tabside.kicad.machine import Machine
from tabside.kicad.versions import has_button
from tabside.ordinary_file import read_ordinary

INSTALL = "close KiCad and run `tabside kicad install --enable-api`"
PATIENCE_S = 20


class Problem(Struct, frozen=True):
    """One thing that does not work."""

    what: str
    fix: str


def problems_of(machine: Machine, kicad: KiCad, running: str | None) -> tuple[Problem, ...]:
    """All that stands in the way of buttons, symbols and scripts, the first to be fixed first.

    `running` names a running program of this KiCad.
    """
    record = read_record(kicad)
    if record is None and not is_package(kicad):
        return (Problem("Tabside is not installed in this KiCad", INSTALL),)
    return tuple(_problems(machine, kicad, record, running))


def _problems(machine: Machine, kicad: KiCad, record: Record | None, running: str | None) -> Iterator[Problem]:
    if running is not None:
        yield Problem(f"KiCad is running: {running}", "close it before you install or remove anything")
    if record is not None:
        yield from _installation(kicad, record)
    if has_button(kicad.version) and not kicad.imports:
        yield from _buttons(machine, kicad)
    if record is not None and not kicad.imports:
        library = SymbolLibrary().state(kicad)
        if library != "installed":
            yield Problem(f"the symbol library Tabside is {library}", INSTALL)


def _installation(kicad: KiCad, record: Record) -> Iterator[Problem]:
    if record.version != __version__:
        yield Problem(f"KiCad has the files of Tabside {record.version}, and this is {__version__}", INSTALL)
    if record.command and os.path.isabs(record.command[0]) and not Path(record.command[0]).is_file():
        yield Problem(f"the buttons cannot start Tabside: {record.command[0]} is no longer there", INSTALL)
    if is_package(kicad):
        yield Problem(
            "Tabside is there twice: installed, and as a package of KiCad's package manager",
            "uninstall one of the two; KiCad takes the package",
        )


def _buttons(machine: Machine, kicad: KiCad) -> Iterator[Problem]:
    path = kicad.common_settings
    try:
        api = parse_settings(read_ordinary(path), path).get("api", {}) if path.exists() else {}
    except TabsideError as error:
        yield Problem(
            f"KiCad's settings cannot be read: {error}", "fix the file, or move it away while KiCad is closed"
        )
        return
    if not isinstance(api, dict) or api.get("enable_server") is not True:
        fix = f"{INSTALL}; or in KiCad: Preferences > Plugins > Enable KiCad API"
        yield Problem("no buttons are shown: KiCad's API server is off", fix)
    elif machine.system == "linux" and not kicad.flatpak:
        yield from _interpreter(api)
    yield from _toolbar(kicad)


def _toolbar(kicad: KiCad) -> Iterator[Problem]:
    """Where a narrow screen shows no buttons."""
    try:
        narrow = kicad.version in CUSTOMISED and not are_on_the_left(kicad)
    except TabsideError as error:
        yield Problem(f"KiCad's toolbars cannot be read: {error}", "move the file away while KiCad is closed")
        return
    if narrow:
        yield Problem("on a screen narrower than about 1500 points no buttons are shown: the toolbar is full", INSTALL)


def _interpreter(api: dict[str, Any]) -> Iterator[Problem]:
    """KiCad makes a Python environment for the buttons, and says nothing when it cannot.

    Source: KiCad 9.0.8 on Debian, run: the setting's usual value, and that it calls the module venv.
    """
    interpreter = str(api.get("interpreter_path") or "/usr/bin/python3")
    where = f"Preferences > Plugins > Path to Python interpreter ({interpreter})"
    if not os.access(interpreter, os.X_OK):
        yield Problem(
            f"no buttons are shown: the Python that KiCad starts is missing ({interpreter})",
            f"install Python 3 there, or set another in KiCad: {where}",
        )
        return
    try:
        command = [interpreter, "-c", "import venv, ensurepip"]
        ended = subprocess.run(command, capture_output=True, check=False, timeout=PATIENCE_S)
    except subprocess.TimeoutExpired:
        return
    except OSError as error:
        yield Problem(
            f"no buttons are shown: the Python that KiCad starts cannot be started ({interpreter}: {error.strerror})",
            f"install Python 3 there, or set another in KiCad: {where}",
        )
        return
    if ended.returncode:
        yield Problem(
            f"no buttons are shown: the Python that KiCad starts ({interpreter}) cannot make an environment",
            "install its module venv (on Debian and Ubuntu: `apt install python3-venv`)",
        )
