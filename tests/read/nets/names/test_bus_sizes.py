"""A few letters must not become a million nets: ranges are counted before they are made, and refused with the place."""

from __future__ import annotations

import json
import re

import pytest

from drawing.drawing_kit import KICAD_9, Sheet, connector
from tabside.errors import TabsideError
from tabside.read import read_drawing
from tabside.read.nets.names.bus_sizes import MOST_MEMBERS, BusSizes
from tabside.read.nets.names.buses import BusRules


@pytest.mark.parametrize(
    ("text", "aliases", "members"),
    [
        ("A", {}, 0),
        ("A[0..7]", {}, 8),
        ("A[7..0]", {}, 8),
        ("USB{DP DM}", {}, 2),
        ("X{A[0..7] B}", {}, 10),
        ("{TWO TWO}", {"TWO": ("a", "b")}, 4),
        ("A[0..99999999999999999999]", {}, MOST_MEMBERS + 1),
        ("A[0.." + "9" * 5000 + "]", {}, MOST_MEMBERS + 1),
        ("{D0}", {f"D{n}": (f"{{D{n + 1} D{n + 1}}}",) for n in range(60)}, MOST_MEMBERS + 1),
        ("{ME}", {"ME": ("{ME}",)}, MOST_MEMBERS + 1),
        ("{ME}", {"ME": ("a{YOU}",), "YOU": ("b{ME}",)}, MOST_MEMBERS + 1),
    ],
)
def test_members_are_counted_without_being_made(text, aliases, members):
    assert BusSizes(BusRules(aliases)).of(text) == members


def drawing(texts, kind="local"):
    sheet = Sheet("wide")
    for number, text in enumerate(texts):
        sheet.bus((0, number * 10), (20, number * 10))
        sheet.label(kind, text, (0, number * 10))
    sheet.place(connector(["a", "b"]), (50.8, 50.8), reference="J1")
    return sheet


@pytest.mark.parametrize(
    "texts",
    [
        pytest.param(["A[0..99999]"] * 10, id="one vector ten times"),
        pytest.param([f"A{n}[0..99999]" for n in range(10)], id="ten vectors"),
        pytest.param(["G{" + " ".join(f"B{n}[0..9999]" for n in range(20)) + "}"], id="a group of vectors"),
        pytest.param(["A[0.." + "9" * 5000 + "]"], id="a number of thousands of digits"),
    ],
)
@pytest.mark.parametrize("kind", ["local", "global"])
def test_a_vast_bus_is_refused_with_its_place(texts, kind, tmp_path):
    root = drawing(texts, kind).write(tmp_path)
    with pytest.raises(TabsideError, match=r'wide\.kicad_sch: bus ".*" on sheet / at 0, \d+ mm has .* members'):
        read_drawing(root)


def test_a_bus_on_a_sheet_that_is_used_often_is_refused(tmp_path):
    child = drawing(["A[0..9999]"])
    child.name = "child"
    root = Sheet("root")
    for number in range(200):
        root.sheet(child, f"s{number}", (number % 20 * 40, number // 20 * 40))
    with pytest.raises(TabsideError, match=r'child\.kicad_sch: bus "A\[0\.\.9999\]" on sheet /s\d+/'):
        read_drawing(root.write(tmp_path))


@pytest.mark.parametrize("held_by", ["schematic", "project"])
def test_an_alias_that_doubles_at_each_level_is_refused(held_by, tmp_path):
    aliases = {f"D{n}": [f"{{D{n + 1} D{n + 1}}}"] for n in range(40)}
    root = drawing(["{D0}"]).write(tmp_path, version=KICAD_9)
    if held_by == "schematic":
        lines = "".join(f'(bus_alias "{name}" (members "{members[0]}"))' for name, members in aliases.items())
        root.write_text(re.sub(r"\(sheet_instances", lines + "(sheet_instances", root.read_text()))
    else:
        root.with_suffix(".kicad_pro").write_text(json.dumps({"schematic": {"bus_aliases": aliases}}))
    with pytest.raises(TabsideError, match=r'bus "\{D0\}"'):
        read_drawing(root)


def test_an_ordinary_bus_is_not_refused(tmp_path):
    assert read_drawing(drawing(["A[0..63]", "B[0..1023]"]).write(tmp_path)).nets
