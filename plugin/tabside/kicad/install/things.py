"""The things that are installed into KiCad.

To add one: a class with the three methods of `Thing`, and a line in `THINGS`.  `install` gives the whole files to
`Installation.own` and edits in KiCad's own files to `Installation.edit`; both are undone without further work, but an
edited file that KiCad has rewritten since needs `remove` to take its lines out.
"""

from __future__ import annotations

from typing import Protocol

from tabside.kicad.folders import KiCad
from tabside.kicad.install.api_server import ApiServer
from tabside.kicad.install.project_template import ProjectTemplate
from tabside.kicad.install.script_door import ScriptDoor
from tabside.kicad.install.scripts import Scripts
from tabside.kicad.install.symbol_library import SymbolLibrary
from tabside.kicad.install.toolbars import Toolbars
from tabside.kicad.install.work import Installation, Removal


class Thing(Protocol):
    """One thing in KiCad that is ours."""

    name: str  # the key of its state in `status --json`

    def install(self, work: Installation) -> None:
        """Plan what puts it in; a second time changes nothing."""

    def remove(self, work: Removal) -> None:
        """Plan what takes our lines out of KiCad's files."""

    def state(self, kicad: KiCad) -> str:
        """How it stands, in a few words."""


THINGS: tuple[Thing, ...] = (Scripts(), ScriptDoor(), SymbolLibrary(), ProjectTemplate(), ApiServer(), Toolbars())
