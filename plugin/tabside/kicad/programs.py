"""Which versions of KiCad are installed here, started or not, and where each keeps the tables of its own libraries.

Source: KiCad 9.0.8 and 10.0.7 on Debian, run; the folders of macOS and Windows from KiCad's source and from memory,
not run.  KiCad 6 has no `kicad-cli` (from memory): it is found once it has been started.
"""

from __future__ import annotations

import os
import shutil
import subprocess
import tempfile
from collections.abc import Iterator
from pathlib import Path

from msgspec import Struct

from tabside.kicad.machine import Machine
from tabside.kicad.versions import Version, version_of

PATIENCE_S = 20
_HOMES = (  # what says where a program keeps its settings
    "HOME",
    "KICAD_CONFIG_HOME",
    "KICAD_DOCUMENTS_HOME",
    "KICAD_CACHE_HOME",
    "XDG_CONFIG_HOME",
    "XDG_DATA_HOME",
    "XDG_CACHE_HOME",
    "APPDATA",
    "LOCALAPPDATA",
)


class Program(Struct, frozen=True):
    """One installed KiCad."""

    version: Version
    templates: Path  # KiCad's own tables of libraries, as they are before somebody changes them


def installed_programs(machine: Machine) -> tuple[Program, ...]:
    """Every KiCad that tells its version, oldest first."""
    found: dict[Version, Program] = {}
    for tool in command_line_tools(machine):
        version = version_of_tool(tool)
        if version is not None:
            found.setdefault(version, Program(version, templates_of(machine, tool)))
    return tuple(found[version] for version in sorted(found))


def command_line_tools(machine: Machine) -> tuple[Path, ...]:
    """Where `kicad-cli` of each installed version lies."""
    found: dict[Path, Path] = {}  # by where a link leads: /bin is often /usr/bin
    for path in _possible_tools(machine):
        if path.is_file():
            found.setdefault(path.resolve(), path)
    return tuple(found.values())


def templates_of(machine: Machine, tool: Path) -> Path:
    """The folder with `sym-lib-table` as it is shipped."""
    binaries = tool.resolve().parent
    if machine.system == "macos":
        return binaries.parent / "SharedSupport" / "template"
    return binaries.parent / "share" / "kicad" / "template"


def version_of_tool(tool: Path) -> Version | None:
    """What `kicad-cli version` says; asked in a home of its own, as it makes folders of settings in the user's."""
    with tempfile.TemporaryDirectory(prefix="tabside-") as home:
        environment = {**os.environ, **dict.fromkeys(_HOMES, home)}
        try:
            ended = subprocess.run(
                [str(tool), "version"],
                env=environment,
                capture_output=True,
                text=True,
                errors="replace",
                check=False,
                timeout=PATIENCE_S,
            )
        except (OSError, subprocess.TimeoutExpired):
            return None
    return version_of(".".join(ended.stdout.strip().split(".")[:2]))


def _possible_tools(machine: Machine) -> Iterator[Path]:
    if machine.system == "windows":
        for variable, below in (("ProgramFiles", "KiCad"), ("LOCALAPPDATA", "Programs/KiCad")):
            said = machine.environment.get(variable)
            if said:
                yield from sorted((Path(said) / below).glob("*/bin/kicad-cli.exe"))
    elif machine.system == "macos":
        for applications in (Path("/Applications"), machine.home / "Applications"):
            yield from sorted(applications.glob("KiCad*/KiCad.app/Contents/MacOS/kicad-cli"))
    else:
        path = machine.environment.get("PATH", "")
        for folder in filter(None, path.split(os.pathsep)):
            found = shutil.which("kicad-cli", path=folder)
            if found is not None:
                yield Path(found)
