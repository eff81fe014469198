"""Our scripts in the user's plugin folder of KiCad: the buttons and the script door."""

from __future__ import annotations

from collections.abc import Iterator
from importlib.resources import files
from importlib.resources.abc import Traversable

from .folders import KiCad
from .record import FOLDER, our_folder, read_record
from .versions import has_button
from .work import Installation, Removal

# What the script door needs; the buttons need all.
DOOR = "tabside_door.py"
DOOR_FILES = frozenset({DOOR, "tabside_start.py", "tabside_errors.py"})


def loaded_files() -> dict[str, bytes]:
    """What KiCad loads: path below the plugin's folder -> content."""
    found = dict(_below(files("tabside.kicad") / "loaded", ""))
    return dict(sorted(found.items()))


def _below(folder: Traversable, path: str) -> Iterator[tuple[str, bytes]]:
    for entry in folder.iterdir():
        if entry.is_dir():
            if entry.name != "__pycache__":
                yield from _below(entry, f"{path}{entry.name}/")
        else:
            yield path + entry.name, entry.read_bytes()


class Scripts:
    """The plugin's folder."""

    name = "scripts"

    def install(self, work: Installation) -> None:
        wanted = loaded_files()
        if not has_button(work.kicad.version):
            wanted = {name: content for name, content in wanted.items() if name in DOOR_FILES}
        before = len(work.changes.steps)
        for name, content in wanted.items():
            work.own(our_folder(work.kicad) / name, content, "write")
        changed = len(work.changes.steps) - before
        del work.changes.steps[before:]
        if changed:
            work.changes.steps.append((f"write {changed} files of the plugin", our_folder(work.kicad)))

    def remove(self, work: Removal) -> None:
        environment = work.kicad.cache / "python-environments" / FOLDER
        work.changes.remove_tree(environment, "remove the Python environment that KiCad made for the plugin")

    def state(self, kicad: KiCad) -> str:
        record = read_record(kicad)
        package = (kicad.packages / FOLDER / "plugin.json").exists()
        if record is None:
            return "as a package of KiCad's package manager" if package else "not installed"
        return f"version {record.version}" + (", and as a package of KiCad's package manager" if package else "")
