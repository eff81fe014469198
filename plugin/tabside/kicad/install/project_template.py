"""Our project template: what File > New Project from Template offers, beside KiCad's own.

The files are drawn by `python -m fixtures.starter.draw`.
"""

from __future__ import annotations

import os
import sys
from importlib.resources import files
from pathlib import Path
from typing import Any

from tabside.kicad import jobset
from tabside.kicad.folders import KiCad
from tabside.kicad.install.scripts import files_below
from tabside.kicad.install.settings import parse_settings, settings_bytes
from tabside.kicad.install.work import Installation, Removal
from tabside.kicad.versions import FIRST_WITH_BUTTON, Version

NAME = "tabside_craft"
OLDEST = FIRST_WITH_BUTTON  # its schematic is in the format of KiCad 9
NAMED_BY_FOLDER: Version = (10, 0)  # whose dialog shows the folder's name instead of the title


class ProjectTemplate:
    """The folder `tabside_craft` among the user's templates."""

    name = "project_template"

    def install(self, work: Installation) -> None:
        if work.kicad.version < OLDEST:
            return
        wanted = {**files_below(f"template/{NAME}"), "meta/icon.png": _icon()}
        wanted[jobset.NAME] = jobset.jobset_bytes(sys.executable, windows=os.name == "nt")
        work.own_folder(_folder(work.kicad), wanted, "the project template")

    def remove(self, work: Removal) -> None:
        """Its files are wholly ours; KiCad 10 remembers its folder among the templates used last."""
        path = work.kicad.settings / "kicad.json"
        content = work.changes.read(path)
        if content is None:
            return
        settings = parse_settings(content, path)
        if _forget(settings.get("template"), _folder(work.kicad)):
            work.edit(path, settings_bytes(settings), "forget the project template among those used last")

    def state(self, kicad: KiCad) -> str:
        if kicad.version < OLDEST:
            return "none in this version"
        return "installed" if (_folder(kicad) / f"{NAME}.kicad_pro").exists() else "not installed"


def _forget(used: Any, folder: Path) -> bool:
    """Take our folder out of what KiCad keeps of templates; whether it was there.

    Source: `template` in the kicad.json of KiCad 10.0.7 after a project had been made from ours.
    """
    if not isinstance(used, dict):
        return False
    found = _is(used.get("last_used"), folder)
    if found:
        used["last_used"] = ""
    recent = used.get("recent_templates")
    if isinstance(recent, list) and any(_is(entry, folder) for entry in recent):
        recent[:] = [entry for entry in recent if not _is(entry, folder)]
        found = True
    return found


def _is(said: Any, folder: Path) -> bool:
    return isinstance(said, str) and Path(said) == folder


def _folder(kicad: KiCad) -> Path:
    return kicad.data / "template" / NAME


def _icon() -> bytes:
    return files("tabside.kicad").joinpath("package_icon.png").read_bytes()
