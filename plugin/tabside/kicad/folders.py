"""Where each installed version of KiCad keeps its settings and its plugins.

Source: KiCad 9.0.8 run with each of the variables on Linux, its source for macOS and Windows; the folders of Flatpak
are from memory.
"""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from msgspec import Struct
from msgspec.structs import replace

from tabside.kicad.machine import Machine
from tabside.kicad.programs import Program
from tabside.kicad.versions import Version, version_of

OUR_RECORD = Path("plugins/tabside/tabside-installed.json")  # below the folder of one version
FLATPAK = Path(".var/app/org.kicad.KiCad")


class KiCad(Struct, frozen=True):
    """One version of KiCad as a user has it."""

    version: Version
    settings: Path  # eeschema.json and kicad_common.json are here
    data: Path  # plugins, symbols and templates are here
    cache: Path
    flatpak: bool = False
    templates: Path | None = None  # KiCad's own tables of libraries; None where its program was not found
    imports: bool = False  # never started, and will then offer to take over the settings of an older version

    @property
    def name(self) -> str:
        text = f"{self.version[0]}.{self.version[1]}"
        return f"{text} (Flatpak)" if self.flatpak else text

    @property
    def editor_settings(self) -> Path:
        """Those of the schematic editor."""
        return self.settings / "eeschema.json"

    @property
    def common_settings(self) -> Path:
        """Those of all of its programs."""
        return self.settings / "kicad_common.json"

    @property
    def plugins(self) -> Path:
        """Where KiCad looks for the user's plugins and scripts."""
        return self.data / "plugins"

    @property
    def packages(self) -> Path:
        """Where KiCad's own package manager unpacks plugins."""
        return self.data / "3rdparty" / "plugins"


def find_kicads(machine: Machine, programs: Sequence[Program] = ()) -> tuple[KiCad, ...]:
    """Every version that has been started once, that has something of ours, or whose program is here, oldest first."""
    templates = {program.version: program.templates for program in programs}
    versions = {*_versions_in(machine), *templates}
    began = [version for version in versions if _has_settings(machine, version)]
    found = [
        replace(
            _kicad(machine, version),
            templates=templates.get(version),
            imports=version not in began and any(older < version for older in began),
        )
        for version in versions
    ]
    if machine.system == "linux":
        inside = _inside_flatpak(machine)
        found += [replace(_kicad(inside, version), flatpak=True) for version in _versions_in(inside)]
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
    return _caches(machine) / ("KiCad" if machine.system == "windows" else "kicad")


def our_cache(machine: Machine) -> Path:
    """Where Tabside keeps what it can make again."""
    return _caches(machine) / ("Tabside" if machine.system == "windows" else "tabside")


def _caches(machine: Machine) -> Path:
    """Where this user's programs keep what they can make again.

    Source: the XDG base directories on Linux; macOS and Windows from memory, not run there.
    """
    if machine.system == "windows":
        return _said(machine, "LOCALAPPDATA", machine.home / "AppData" / "Local")
    if machine.system == "macos":
        return machine.home / "Library" / "Caches"
    return _said(machine, "XDG_CACHE_HOME", machine.home / ".cache")


def _versions_in(machine: Machine) -> set[Version]:
    """The versions that have a folder of settings, or our record among their plugins."""
    settings = _folders_of_versions(settings_home(machine))
    data = _folders_of_versions(data_home(machine))
    return {*settings, *(version for version, folder in data.items() if (folder / OUR_RECORD).exists())}


def _folders_of_versions(home: Path) -> dict[Version, Path]:
    entries = [entry for entry in home.iterdir() if entry.is_dir()] if home.is_dir() else []
    versions = {entry: version_of(entry.name) for entry in entries}
    return {version: entry for entry, version in versions.items() if version is not None}


def _kicad(machine: Machine, version: Version) -> KiCad:
    name = f"{version[0]}.{version[1]}"
    return KiCad(version, settings_home(machine) / name, data_home(machine) / name, cache_home(machine) / name)


def _has_settings(machine: Machine, version: Version) -> bool:
    """Whether this version has begun with settings of its own: then it never asks for those of an older one.

    Source: KiCad 10.0.7, run; KiCad's source says the same of 9.
    """
    return _kicad(machine, version).common_settings.exists()


def _inside_flatpak(machine: Machine) -> Machine:
    app = machine.home / FLATPAK
    homes = {"XDG_CONFIG_HOME": "config", "XDG_DATA_HOME": "data", "XDG_CACHE_HOME": "cache"}
    inside = {variable: str(app / folder) for variable, folder in homes.items()}
    return Machine("linux", machine.home, inside, machine.documents)


def _said(machine: Machine, variable: str, usual: Path) -> Path:
    said = machine.environment.get(variable)
    return Path(said) if said else usual
