"""Where each installed version of KiCad keeps its settings and its plugins.

Source: KiCad 9.0.8 run with each of the variables on Linux, its source for macOS and Windows; the folders of Flatpak
are from memory.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path

from tabside.kicad.install.versions import Version, version_of

FLATPAK = Path(".var/app/org.kicad.KiCad")


@dataclass(frozen=True, slots=True)
class Machine:
    """What the folders depend on."""

    system: str  # "linux", "macos" or "windows"
    home: Path
    environment: Mapping[str, str]
    documents: Path  # Windows lets people move it


@dataclass(frozen=True, slots=True)
class KiCad:
    """One version of KiCad as a user has it."""

    version: Version
    settings: Path  # eeschema.json and kicad_common.json are here
    data: Path  # plugins, symbols and templates are here
    cache: Path
    flatpak: bool = False

    @property
    def name(self) -> str:
        text = f"{self.version[0]}.{self.version[1]}"
        return f"{text} (Flatpak)" if self.flatpak else text

    @property
    def plugins(self) -> Path:
        """Where KiCad looks for the user's plugins and scripts."""
        return self.data / "plugins"

    @property
    def packages(self) -> Path:
        """Where KiCad's own package manager unpacks plugins."""
        return self.data / "3rdparty" / "plugins"


def this_machine() -> Machine:
    """The machine that we run on."""
    home = Path.home()
    if sys.platform == "win32":
        return Machine("windows", home, os.environ, _windows_documents(home))
    return Machine("macos" if sys.platform == "darwin" else "linux", home, os.environ, home / "Documents")


def find_kicads(machine: Machine) -> tuple[KiCad, ...]:
    """Every version whose settings folder is there, oldest first: those that have been started once."""
    found = list(_versions_in(machine, flatpak=False))
    if machine.system == "linux":
        found += _versions_in(_inside_flatpak(machine), flatpak=True)
    return tuple(sorted(found, key=lambda kicad: (kicad.version, kicad.flatpak)))


def settings_home(machine: Machine) -> Path:
    """The folder that holds one settings folder for each version."""
    said = machine.environment.get("KICAD_CONFIG_HOME")
    if said:
        return Path(said)
    if machine.system == "windows":
        return _said(machine, "APPDATA", machine.home / "AppData" / "Roaming") / "kicad"
    if machine.system == "macos":
        return machine.home / "Library" / "Preferences" / "kicad"
    return _said(machine, "XDG_CONFIG_HOME", machine.home / ".config") / "kicad"


def data_home(machine: Machine) -> Path:
    """The folder that holds one folder of plugins and libraries for each version."""
    name = "kicad" if machine.system == "linux" else "KiCad"
    said = machine.environment.get("KICAD_DOCUMENTS_HOME")
    if said:
        return Path(said) / name
    if machine.system == "linux":
        return _said(machine, "XDG_DATA_HOME", machine.home / ".local" / "share") / name
    return machine.documents / name


def cache_home(machine: Machine) -> Path:
    """The folder that holds one cache for each version; KiCad makes the Python environment of a plugin in it."""
    said = machine.environment.get("KICAD_CACHE_HOME")
    if said:
        return Path(said)
    if machine.system == "windows":
        return _said(machine, "LOCALAPPDATA", machine.home / "AppData" / "Local") / "KiCad"
    if machine.system == "macos":
        return machine.home / "Library" / "Caches" / "kicad"
    return _said(machine, "XDG_CACHE_HOME", machine.home / ".cache") / "kicad"


def _versions_in(machine: Machine, flatpak: bool) -> Iterator[KiCad]:
    folder = settings_home(machine)
    if not folder.is_dir():
        return
    for entry in folder.iterdir():
        version = version_of(entry.name)
        if version is not None and entry.is_dir():
            yield KiCad(version, entry, data_home(machine) / entry.name, cache_home(machine) / entry.name, flatpak)


def _inside_flatpak(machine: Machine) -> Machine:
    app = machine.home / FLATPAK
    homes = {"XDG_CONFIG_HOME": "config", "XDG_DATA_HOME": "data", "XDG_CACHE_HOME": "cache"}
    inside = {variable: str(app / folder) for variable, folder in homes.items()}
    return Machine("linux", machine.home, inside, machine.documents)


def _said(machine: Machine, variable: str, usual: Path) -> Path:
    said = machine.environment.get(variable)
    return Path(said) if said else usual


def _windows_documents(home: Path) -> Path:
    """The Documents folder, which may have been moved to another drive or into a synchronised folder."""
    if sys.platform != "win32":
        return home / "Documents"
    import winreg

    key = r"Software\Microsoft\Windows\CurrentVersion\Explorer\User Shell Folders"
    try:
        with winreg.OpenKey(winreg.HKEY_CURRENT_USER, key) as folders:
            said, _ = winreg.QueryValueEx(folders, "Personal")
    except OSError:
        return home / "Documents"
    return Path(os.path.expandvars(str(said)))
