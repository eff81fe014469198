"""Our nets of every KiCad demo project on this machine are those of KiCad's own netlist: pins and names."""

from __future__ import annotations

from pathlib import Path

import pytest

from drawing.unpredictable_names import is_excused, names_on
from programs.kicad_installation import kicad_demo_roots
from programs.kicad_oracle import NetPin, compare, kicad_netlist, listed
from tabside.read import read_drawing
from tabside.read.nets.nets_json import nets_json

pytestmark = [pytest.mark.kicad("cli", "demos"), pytest.mark.slow]


def project_name(root: Path | None) -> str:
    return root.stem if root else "none found"


@pytest.mark.parametrize("root", kicad_demo_roots() or [None], ids=project_name)
def test_nets_are_those_of_kicad(root: Path) -> None:
    drawing = read_drawing(root)
    ours, theirs = listed(nets_json(drawing)), kicad_netlist(root).nets
    assert theirs, "KiCad listed no net at all"
    unpredictable = names_on(drawing)
    differences = compare(ours, theirs, any_name=lambda our, their: is_excused(our, their, unpredictable))
    assert not differences, f"{len(differences)} differences:\n" + "\n".join(differences[:40])


def test_no_pin_of_a_demo_is_in_our_nets_twice_without_being_in_kicads(kicad_demos: tuple[Path, ...]) -> None:
    """A pin listed twice in one net would hide in a comparison of sets."""
    for root in kicad_demos:
        for net in nets_json(read_drawing(root))["nets"]:
            pins: list[NetPin] = [tuple(pin) for pin in net["pins"]]
            assert len(pins) == len(set(pins)), (root, net["name"])
