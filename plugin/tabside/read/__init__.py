"""From schematic files to the drawing.  KiCad's words (symbol, pin, wire, label, sheet) end here."""

from __future__ import annotations

import os
from typing import TYPE_CHECKING, Any, Protocol

if TYPE_CHECKING:
    from tabside.model.drawing import Drawing
    from tabside.read.kicad.sheet_file import Hierarchy

__all__ = ["Source", "drawing_of", "load_hierarchy", "read_drawing", "read_nets"]


class SchematicObject(Protocol):
    """What is used of a kicad-skip `Schematic`."""

    tree: Any  # sexpdata's list of the whole file

    @property
    def filepath(self) -> Any: ...


Source = str | os.PathLike[str] | SchematicObject


def load_hierarchy(source: Source, *, kicad: int | None = None, variant: str | None = None) -> Hierarchy:
    """All sheets of the drawing whose root is `source`: the path of a .kicad_sch, or a kicad-skip `Schematic`.

    `kicad` says by whose rules it is read, 9's or 10's; without it the newest format among its files decides.
    `variant` names one of its design variants (KiCad 10).

    Raises: TabsideError with file, line and column.
    """
    from tabside.read.kicad.hierarchy import load_hierarchy as load

    return load(source, kicad=kicad, variant=variant)


def read_drawing(source: Source, *, kicad: int | None = None, variant: str | None = None) -> Drawing:
    """The drawing whose root is `source` (a path or a kicad-skip `Schematic`), netlisted as KiCad does.

    `kicad` and `variant` as in `load_hierarchy`.

    Raises: TabsideError with file, line and column.
    """
    return drawing_of(load_hierarchy(source, kicad=kicad, variant=variant))


def read_nets(source: Source, *, kicad: int | None = None, variant: str | None = None) -> Drawing:
    """The same for whom nets are enough: without what lies along the wires (stretches, notes, loose wires) and files.

    Raises: TabsideError with file, line and column.
    """
    from tabside.read.kicad.hierarchy import load_hierarchy as load
    from tabside.read.nets.assembly import Assembly
    from tabside.read.nets.netting import Netting
    from tabside.read.nets.two_readings import two_readings

    netting = Netting(load(source, kicad=kicad, variant=variant, keeps_bytes=False))
    drawing = Assembly(netting).drawing()
    return drawing._replace(two_readings=two_readings(netting, drawing))


def drawing_of(hierarchy: Hierarchy) -> Drawing:
    """The drawing that these sheets make."""
    from tabside.read.nets.netting import Netting
    from tabside.read.nets.two_readings import two_readings
    from tabside.read.wires.netlist import drawing_of_nets

    netting = Netting(hierarchy)
    drawing = drawing_of_nets(netting)
    return drawing._replace(two_readings=two_readings(netting, drawing))
