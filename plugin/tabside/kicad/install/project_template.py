"""Our project template: what File > New Project from Template offers, beside KiCad's own.

The files are drawn by `python -m fixtures.starter.draw`.
"""

from __future__ import annotations

import os
import sys
from importlib.resources import files
from pathlib import Path

from tabside.kicad import jobset
from tabside.kicad.folders import KiCad
from tabside.kicad.install.scripts import files_below
from tabside.kicad.install.versions import FIRST_WITH_BUTTON
from tabside.kicad.install.work import Installation, Removal

NAME = "tabside_craft"
OLDEST = FIRST_WITH_BUTTON  # its schematic is in the format of KiCad 9


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
        """Its files are wholly ours."""

    def state(self, kicad: KiCad) -> str:
        if kicad.version < OLDEST:
            return "none in this version"
        return "installed" if (_folder(kicad) / f"{NAME}.kicad_pro").exists() else "not installed"


def _folder(kicad: KiCad) -> Path:
    return kicad.data / "template" / NAME


def _icon() -> bytes:
    return files("tabside.kicad").joinpath("package_icon.png").read_bytes()
