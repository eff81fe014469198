"""Our scripts in the user's plugin folder of KiCad: the buttons and the script door."""

from __future__ import annotations

import json
import os
from collections.abc import Iterator
from importlib.resources import files
from importlib.resources.abc import Traversable

from tabside.kicad.folders import KiCad
from tabside.kicad.install.record import our_folder, read_record
from tabside.kicad.install.settings import parse_settings, settings_bytes
from tabside.kicad.install.work import Installation, Removal
from tabside.kicad.jobset import STARTER, starter
from tabside.kicad.versions import has_button

# KiCad 9.0.8 wants two dots in it, though its schema does not say so.
IDENTIFIER = "local.tabside.wiring"
PACKAGE_FOLDER = IDENTIFIER.replace(".", "_")  # where KiCad's package manager unpacks it

# What the script door needs; the buttons need all.
DOOR = "tabside_door.py"
DOOR_FILES = frozenset({DOOR, "tabside_start.py"})


def loaded_files() -> dict[str, bytes]:
    """What KiCad loads: path below the plugin's folder -> content."""
    return files_below("loaded")


def files_below(folder: str) -> dict[str, bytes]:
    """The files in one of our folders: path below it -> content."""
    return dict(sorted(_below(files("tabside.kicad") / folder, "")))


def _below(folder: Traversable, path: str) -> Iterator[tuple[str, bytes]]:
    for entry in folder.iterdir():
        if entry.is_dir():
            if entry.name != "__pycache__":
                yield from _below(entry, f"{path}{entry.name}/")
        else:
            yield path + entry.name, entry.read_bytes()


def is_package(kicad: KiCad) -> bool:
    """Whether KiCad's own package manager has put Tabside in."""
    return (kicad.packages / PACKAGE_FOLDER / "plugin.json").exists()


class Scripts:
    """The plugin's folder."""

    name = "scripts"

    def install(self, work: Installation) -> None:
        wanted = loaded_files()
        if not has_button(work.kicad.version):
            wanted = {name: content for name, content in wanted.items() if name in DOOR_FILES}
        if os.name == "posix":
            wanted[STARTER] = starter(work.command)
        work.own_folder(our_folder(work.kicad), wanted, "the plugin")

    def remove(self, work: Removal) -> None:
        environment = work.kicad.cache / "python-environments" / IDENTIFIER
        work.changes.remove_tree(environment, "remove the Python environment that KiCad made for the plugin")
        _forget_buttons(work)

    def state(self, kicad: KiCad) -> str:
        record = read_record(kicad)
        package = is_package(kicad)
        if record is None:
            return "as a package of KiCad's package manager" if package else "not installed"
        return f"version {record.version}" + (", and as a package of KiCad's package manager" if package else "")


def _forget_buttons(work: Removal) -> None:
    """KiCad keeps the order of the buttons where a person has arranged them."""
    path = work.kicad.editor_settings
    content = work.changes.read(path)
    if content is None:
        return
    settings = parse_settings(content, path)
    plugins = settings.get("plugins")
    listed = plugins.get("actions") if isinstance(plugins, dict) else None
    if not isinstance(listed, list):
        return
    others = [entry for entry in listed if IDENTIFIER not in json.dumps(entry)]
    if len(others) != len(listed):
        listed[:] = others
        work.edit(path, settings_bytes(settings), "forget the order of the buttons")
