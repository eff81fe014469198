"""A sheet pin where two wires cross joins one of them; which one follows from the order in KiCad's memory."""

from __future__ import annotations

from pathlib import Path

import pytest

from drawing.drawing_kit import Sheet
from programs.kicad_oracle import Net, kicad_netlist, listed
from tabside.read import read_drawing
from tabside.read.nets.nets_json import nets_json

UPRIGHT, LEVEL = ((0, -4), (0, 8)), ((-4, 1), (4, 1))
ORDERS = pytest.mark.parametrize("wires", [(UPRIGHT, LEVEL), (LEVEL, UPRIGHT)], ids=["upright first", "level first"])


def crossing(wires: tuple[tuple[tuple[int, int], tuple[int, int]], ...], folder: Path) -> Path:
    root, child = Sheet("root", grid=2.54, origin_mm=(101.6, 101.6)), Sheet("child")
    child.label("hierarchical", "X", (50.8, 50.8))
    child.probes(P5=(50.8, 50.8))
    for wire in wires:
        root.wire(*wire)
    root.sheet(child, "sub", (0, 0), (8, 4), left=["X"])
    root.probes(P1=UPRIGHT[0], P2=UPRIGHT[1], P3=LEVEL[0], P4=LEVEL[1])
    return root.write(folder)


def joins_one_of_both(nets: list[Net]) -> bool:
    found = {frozenset(reference for reference, _ in pins) for _, pins in nets}
    upright, level = frozenset({"P1", "P2"}), frozenset({"P3", "P4"})
    return found in ({upright | {"P5"}, level}, {upright, level | {"P5"}})


@ORDERS
def test_it_joins_one_wire_and_leaves_the_other_apart(wires: tuple, tmp_path: Path) -> None:
    assert joins_one_of_both(listed(nets_json(read_drawing(crossing(wires, tmp_path)))))


@pytest.mark.kicad
@ORDERS
def test_kicad_joins_one_wire_and_leaves_the_other_apart(wires: tuple, tmp_path: Path) -> None:
    assert joins_one_of_both(kicad_netlist(crossing(wires, tmp_path)).nets)
