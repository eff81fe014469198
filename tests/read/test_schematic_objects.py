"""kicad-skip `Schematic` objects in place of a path."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from drawing.drawing_kit import Sheet, connector, two_pin
from drawing.drawn_crafts import craft_drawing, empty, join, termination
from netlisting_cases.all_cases import ALL_CASES
from netlisting_cases.case import Case
from programs.kicad_oracle import listed
from tabside.errors import TabsideError
from tabside.read import read_drawing
from tabside.read.nets.nets_json import nets_json

skip = pytest.importorskip("skip")


def craft(*, own_sheets: bool) -> Sheet:
    return craft_drawing(
        {
            "pilot": [termination("J1", "5V TX RX GND NC", family="JST SH", gives="5V 1A")],
            "radio": [termination("J2", "5V TX RX GND", family="JST GH", takes="5V 0.2A")],
        },
        [
            join("J1:1 F1:1", by="global", name="+5V"),
            join("F1:2 J2:1"),
            join("J1:2 J2:3", by="local", name="LINK (up)"),
            join("J1:3 J2:2"),
            join("J1:4 J2:4", by="power", name="GND"),
            empty("J1:5"),
        ],
        loose=[termination("F1", symbol=two_pin("F"), value='0.5 "slow"')],
        own_sheets=own_sheets,
    )


@pytest.mark.parametrize("own_sheets", [False, True], ids=["one sheet", "a sheet for each board"])
def test_an_object_gives_the_nets_of_its_file(own_sheets: bool, tmp_path: Path) -> None:
    root = craft(own_sheets=own_sheets).write(tmp_path)
    from_object, from_path = read_drawing(skip.Schematic(str(root))), read_drawing(root)
    assert nets_json(from_object) == nets_json(from_path)
    assert [s.fields for s in from_object.symbols] == [s.fields for s in from_path.symbols]
    assert ("J1", "2") in next(pins for name, pins in listed(nets_json(from_path)) if name == "/LINK (up)")


FLAT = [case for case in ALL_CASES if case.name not in ("escape {tab} in a label",)]


@pytest.mark.parametrize("case", FLAT, ids=str)
def test_an_object_gives_the_nets_written_down(case: Case, tmp_path: Path) -> None:
    root = case.write_plain(tmp_path)
    differences = case.differences(listed(nets_json(read_drawing(skip.Schematic(str(root))))), case.plain_nets())
    assert not differences, differences


def test_what_was_changed_in_the_object_counts_not_the_file(tmp_path: Path) -> None:
    sheet = Sheet("craft")
    j1 = sheet.place(connector(2), (50.8, 50.8), reference="J1")
    sheet.label("global", "OLD", j1.pin(1))
    schematic = skip.Schematic(str(sheet.write(tmp_path)))
    schematic.global_label[0].value = "NEW"
    assert "NEW" in [name for name, _ in listed(nets_json(read_drawing(schematic)))]


def test_an_object_without_a_path_but_with_sub_sheets_is_refused(tmp_path: Path) -> None:
    schematic = skip.Schematic(str(craft(own_sheets=True).write(tmp_path)))
    schematic._filepath = None
    assert schematic.filepath is None
    with pytest.raises(TabsideError, match="no path"):
        read_drawing(schematic)


def test_an_object_without_a_path_and_without_sub_sheets_is_read(tmp_path: Path) -> None:
    root = craft(own_sheets=False).write(tmp_path)
    schematic = skip.Schematic(str(root))
    schematic._filepath = None
    assert nets_json(read_drawing(schematic)) == nets_json(read_drawing(root))


def test_sub_sheets_are_read_from_the_folder_of_the_object(tmp_path: Path) -> None:
    schematic = skip.Schematic(str(craft(own_sheets=True).write(tmp_path)))
    expected = nets_json(read_drawing(schematic))
    assert {"J1", "J2"} <= {pin[0] for net in expected["nets"] for pin in net["pins"]}
    shutil.move(tmp_path / "radio.kicad_sch", tmp_path / "elsewhere.kicad_sch")
    with pytest.raises(TabsideError, match="radio"):
        read_drawing(schematic)
