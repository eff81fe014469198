"""From schematic files to the drawing.  KiCad's words (symbol, pin, wire, label, sheet) end here."""

from __future__ import annotations

import os
from typing import TYPE_CHECKING, Any, Protocol

if TYPE_CHECKING:
    from tabside.model.drawing import Drawing
    from tabside.read.kicad.sheet_file import Hierarchy

__all__ = ["Source", "load_hierarchy", "read_drawing"]


class SchematicObject(Protocol):
    """What is used of a kicad-skip `Schematic`."""

    tree: Any  # sexpdata's list of the whole file

    @property
    def filepath(self) -> Any: ...


Source = str | os.PathLike[str] | SchematicObject


def load_hierarchy(source: Source) -> Hierarchy:
    """All sheets of the drawing whose root is `source`: the path of a .kicad_sch, or a kicad-skip `Schematic`.

    Raises: TabsideError with file, line and column.
    """
    from tabside.read.kicad.hierarchy import load_hierarchy as load

    return load(source)


def read_drawing(source: Source) -> Drawing:
    """The drawing whose root is `source` (a path or a kicad-skip `Schematic`), netlisted as KiCad does.

    Raises: TabsideError with file, line and column.
    """
    from tabside.read.kicad.hierarchy import load_hierarchy as load
    from tabside.read.nets.netlist import netlist

    return netlist(load(source))
