"""From schematic files to the drawing: symbols with their nets, named and joined as KiCad does it."""

from __future__ import annotations

from tabside.model.drawing import Drawing
from tabside.read.kicad.sheet_file import Hierarchy
from tabside.read.nets.assembly import Assembly
from tabside.read.nets.netting import Netting
from tabside.read.wires.along_wires import AlongWires


def netlist(hierarchy: Hierarchy) -> Drawing:
    """The drawing with its nets, which are KiCad's: same pins on the same nets, same names.

    Nets come in the natural order of their names, symbols in the order of sheets and files.
    """
    return drawing_of_nets(Netting(hierarchy))


def drawing_of_nets(netting: Netting) -> Drawing:
    return AlongWires(netting, Assembly(netting).drawing()).whole()
