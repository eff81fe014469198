"""Which schematic is open in the editor whose button was pressed."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path

from tabside_start import DoorError

SAVE = "Save the schematic (File > Save) in a folder of its own, then press the button again."


def open_root(environment: Mapping[str, str]) -> Path:
    """The root schematic of the project that KiCad names in KIPRJMOD.

    Raises: DoorError when there is none, or when several could be meant.
    """
    named = environment.get("KIPRJMOD", "").strip()
    if not named or not Path(named).is_dir():
        raise DoorError("KiCad did not say which project is open: it has not been saved yet.", SAVE)
    folder = Path(named)
    projects = sorted(folder.glob("*.kicad_pro"))
    if not projects:
        return _without_project(folder)
    chosen = projects if len(projects) == 1 else [project for project in projects if _is_open(_root(project))]
    if len(chosen) != 1:
        raise _several(folder, [_root(project).name for project in projects])
    root = _root(chosen[0])
    if not root.is_file():
        raise DoorError(f"{root.name} is not in the project's folder: the schematic has not been saved yet.", SAVE)
    return root


def _without_project(folder: Path) -> Path:
    """A schematic that was opened on its own."""
    sheets = sorted(folder.glob("*.kicad_sch"))
    if not sheets:
        raise DoorError(f"There is no saved schematic in {folder}.", SAVE)
    chosen = sheets if len(sheets) == 1 else [sheet for sheet in sheets if _is_open(sheet)]
    if len(chosen) != 1:
        raise _several(folder, [sheet.name for sheet in sheets])
    return chosen[0]


def _root(project: Path) -> Path:
    return project.with_suffix(".kicad_sch")


def _is_open(sheet: Path) -> bool:
    """The editor keeps this file beside a schematic while it is open."""
    return sheet.with_name(f"~{sheet.name}.lck").exists()


def _several(folder: Path, names: list[str]) -> DoorError:
    listed = ", ".join(names[:8]) + (" and more" if len(names) > 8 else "")
    return DoorError(
        f"Several schematics could be meant in {folder}: {listed}.",
        f"Give each project a folder of its own, or run this in a terminal: tabside export {names[0]} --to documents",
    )
