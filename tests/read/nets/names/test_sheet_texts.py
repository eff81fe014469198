"""References to another symbol in labels and fields, held against KiCad's own netlists where they are installed."""

from __future__ import annotations

from pathlib import Path

import pytest

from drawing.drawing_kit import Sheet, connector
from programs.kicad_oracle import compare, kicad_10_netlist, kicad_netlist, listed
from tabside.craft_reading import read_craft
from tabside.read import read_drawing
from tabside.read.nets.nets_json import nets_json


def drawn(folder: Path, *, by_uuid: bool) -> Path:
    root = Sheet("reference")
    pins = ["5V", "TX", "RX", "GND"]
    one = root.place(connector(pins), (50.8, 50.8), reference="J1", value="pilot", fields={"Board": "pilot"})
    other = root.place(connector(pins), (101.6, 50.8), reference="J2", fields={"Board": "gps to ${J1:VALUE}"})
    root.label("global", "${J1:VALUE}_UP", one.pin("2"))
    root.label("global", "pilot_UP", other.pin("3"))
    path = root.write(folder)
    text = path.read_text(encoding="utf-8")
    uuid = text[: text.index('"Reference" "J1"')].rpartition('(uuid "')[2].partition('"')[0]
    if by_uuid:
        path.write_text(text.replace("${J1:", f"${{{uuid}:"), encoding="utf-8")
    return path


WAYS = [(True, 9, True), (True, 10, True), (False, 10, True), (False, 9, False)]  # KiCad 9.0.8 and 10.0.7, tried


@pytest.mark.parametrize(("by_uuid", "kicad", "joined"), WAYS)
def test_a_reference_to_another_symbol(by_uuid, kicad, joined, tmp_path):
    craft = read_craft(drawn(tmp_path, by_uuid=by_uuid), kicad=kicad)
    assert len(craft.leads) == (1 if joined else 0)
    assert (craft.terminations["J2"].board == "gps to pilot") == joined
    assert bool([oddity for oddity in craft.oddities if "which has no value" in oddity.message]) != joined


@pytest.mark.kicad("cli")
@pytest.mark.parametrize("by_uuid", [True, False])
def test_the_nets_are_kicads(by_uuid, tmp_path):
    root = drawn(tmp_path, by_uuid=by_uuid)
    assert not compare(listed(nets_json(read_drawing(root, kicad=9))), kicad_netlist(root).nets)


@pytest.mark.kicad("cli10")
@pytest.mark.parametrize("by_uuid", [True, False])
def test_the_nets_are_kicad_10s(by_uuid, tmp_path):
    root = drawn(tmp_path, by_uuid=by_uuid)
    assert not compare(listed(nets_json(read_drawing(root, kicad=10))), kicad_10_netlist(root).nets)
