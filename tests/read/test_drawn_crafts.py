"""The drawings that tests make of crafts have the nets that were asked for, however they are drawn."""

from __future__ import annotations

from pathlib import Path

import pytest

from drawing.drawing_kit import Sheet, nested, turned, two_pin
from drawing.drawn_crafts import craft_drawing, empty, join, termination
from programs.kicad_oracle import Net, kicad_netlist, listed
from slow_cases import slow
from tabside.read import read_drawing
from tabside.read.nets.nets_json import nets_json

JOINED = ("J1:1 J2:1 F1:1", "J1:2 J2:3", "J1:3 J2:2", "J1:4 J2:4 J3:2", "J3:1 F1:2")
WAYS = {
    "wires": [join(text) for text in JOINED],
    "labels": [join(text, by="local", name=f"N{k}") for k, text in enumerate(JOINED)],
    "global labels": [join(text, by="global", name=f"N{k}") for k, text in enumerate(JOINED)],
    "power symbols": [join(text, by="power", name=f"N{k}") for k, text in enumerate(JOINED)],
    "named wires": [join(text, name=f"N{k}", fields={"Gauge": "24"}) for k, text in enumerate(JOINED)],
    "wires with directives": [join(text, fields={"Gauge": "24"}) for text in JOINED],
}
SHAPES = {
    "plain": lambda sheet: sheet,
    "turned": lambda sheet: turned(sheet, 90),
    "mirrored": lambda sheet: turned(sheet, 180, "x"),
    "nested": lambda sheet: nested({"once": sheet}),
}
ALL_WAYS = pytest.mark.parametrize("way", WAYS)
ALL_SHAPES = pytest.mark.parametrize("shape", SHAPES)
BOTH_PLACES = pytest.mark.parametrize("own_sheets", [False, True], ids=["one sheet", "a sheet for each board"])


def craft(way: str, own_sheets: bool) -> Sheet:
    return craft_drawing(
        {
            "pilot": [termination("J1", "5V TX RX GND", family="JST SH"), termination("J3", 3)],
            "radio": [termination("J2", "5V TX RX GND", types=["power_in", "output", "input", "power_in"])],
        },
        [*WAYS[way], empty("J3:3")],
        loose=[termination("F1", symbol=two_pin("F"), value="5A")],
        own_sheets=own_sheets,
    )


def partition(nets: list[Net]) -> set[frozenset[tuple[str, str]]]:
    return {frozenset(pins) for _, pins in nets}


ASKED_FOR = {frozenset(tuple(word.split(":")) for word in text.split()) for text in (*JOINED, "J3:3")}


@ALL_WAYS
@ALL_SHAPES
@BOTH_PLACES
def test_contacts_are_joined_as_asked_for(way: str, shape: str, own_sheets: bool, tmp_path: Path) -> None:
    root = SHAPES[shape](craft(way, own_sheets)).write(tmp_path)
    drawing = read_drawing(root)
    assert partition(listed(nets_json(drawing))) == ASKED_FOR
    boards = {
        s.reference: s.fields.get("Board") or s.sheet_fields[0].get("Board")
        for s in drawing.symbols
        if s.reference[0] == "J"
    }
    assert boards == {"J1": "pilot", "J2": "radio", "J3": "pilot"}


@pytest.mark.kicad
@pytest.mark.parametrize("way", [*list(WAYS)[:3], *slow(list(WAYS)[3:])])
@BOTH_PLACES
def test_kicad_joins_the_contacts_as_asked_for(way: str, own_sheets: bool, tmp_path: Path) -> None:
    assert partition(kicad_netlist(craft(way, own_sheets).write(tmp_path), mend=False).nets) == ASKED_FOR


def test_the_same_calls_draw_the_same_bytes(tmp_path: Path) -> None:
    written = []
    for name in ("first", "second"):
        root = craft("wires", True).write(tmp_path / name)
        written.append({path.name: path.read_bytes() for path in root.parent.iterdir()})
    assert written[0] == written[1]
    assert len(written[0]) == 3
