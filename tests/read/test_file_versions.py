"""The same little craft as a file of KiCad 6, 7, 8, 9 and 10."""

from __future__ import annotations

from pathlib import Path

import pytest

from drawing.drawing_kit import (
    KICAD_6,
    KICAD_7,
    KICAD_8,
    KICAD_9,
    KICAD_10,
    Pin,
    Sheet,
    connector,
    multi_unit,
    part,
    power,
    probe,
)
from drawing.kicad_10_drawings import aliases_of_the_project
from programs.kicad_oracle import Net, OracleError, compare, kicad_netlist, listed
from tabside.read import read_drawing
from tabside.read.nets.nets_json import nets_json

KNOWN_TO_KICAD_9 = {"KiCad 6": KICAD_6, "KiCad 7": KICAD_7, "KiCad 8": KICAD_8, "KiCad 9": KICAD_9}
EACH_VERSION = pytest.mark.parametrize("version", list(KNOWN_TO_KICAD_9.values()), ids=list(KNOWN_TO_KICAD_9))


def our_nets(root: Path) -> list[Net]:
    return listed(nets_json(read_drawing(root)))


def agreed(found: list[Net], written: dict[str, str]) -> None:
    expected = [(name, [tuple(word.split(".")) for word in pins.split()]) for name, pins in written.items()]
    differences = compare(found, expected)
    assert not differences, "\n".join(differences)


def little_craft() -> Sheet:
    """A pilot wired to two drives of one sheet file, a part of two units, ground by power symbols."""
    root = Sheet("little")
    root.title_block = {"title": "Little craft", "rev": "A", "comment1": 'two "drives"'}
    j1 = root.place(
        connector(["5V", "M1", "M2", "GND"]),
        (76.2, 50.8),
        reference="J1",
        footprint="Lib:Four",
        fields={"Board": "pilot"},
    )
    drive = Sheet("drive")
    j5 = drive.place(connector(["5V", "SIG", "GND"]), (76.2, 50.8), reference="J5", fields={"Family": "JST GH"})
    drive.label("global", "+5V", j5.pin(1))
    drive.label("hierarchical", "SIG", j5.pin(2))
    drive.power("GND", j5.pin(3))
    one = root.sheet(drive, "one", (20.32, 50.8), (25.4, 12.7), right=["SIG"], add=0)
    two = root.sheet(drive, "two", (20.32, 76.2), (25.4, 12.7), right=["SIG"], add=10)
    root.wire(j1.pin(2), one.pin("SIG"))
    root.wire(j1.pin(3), (60.96, j1.pin(3)[1]), (60.96, two.pin("SIG")[1]), two.pin("SIG"))
    root.label("global", "+5V", j1.pin(1), fields={"Gauge": "22"})
    root.power("GND", j1.pin(4))
    pair = multi_unit([[Pin("1", (0, 0), "A")], [Pin("2", (0, 0), "B")]], name="pair")
    root.place(pair, (127, 50.8), reference="U1", unit=1)
    root.place(pair, (127, 76.2), reference="U1", unit=2)
    root.wire((127, 50.8), (127, 76.2))
    root.no_connect((152.4, 50.8))
    root.place(probe(), (152.4, 50.8), reference="P1")
    return root


LITTLE_NETS = {
    "+5V": "J1.1 J5.1 J15.1",
    "/one/SIG": "J1.2 J5.2",
    "/two/SIG": "J1.3 J15.2",
    "GND": "J1.4 J5.3 J15.3",
    "Net-(U1A-A)": "U1.1 U1.2",
    "unconnected-(P1-Pad1)": "P1.1",
}


@EACH_VERSION
def test_the_craft_has_the_same_nets_in_every_version(version: int, tmp_path: Path) -> None:
    agreed(our_nets(little_craft().write(tmp_path, version=version)), LITTLE_NETS)


@pytest.mark.kicad
@EACH_VERSION
def test_kicad_reads_every_version_so(version: int, tmp_path: Path) -> None:
    agreed(kicad_netlist(little_craft().write(tmp_path, version=version)).nets, LITTLE_NETS)


def test_kicad_10_file_has_the_same_nets(tmp_path: Path) -> None:
    """Source: the craft of the other versions; KiCad 9 refuses the file."""
    agreed(our_nets(little_craft().write(tmp_path, version=KICAD_10)), LITTLE_NETS)


@EACH_VERSION
def test_fields_and_title_are_read_from_every_version(version: int, tmp_path: Path) -> None:
    drawing = read_drawing(little_craft().write(tmp_path, version=version))
    by_reference = {symbol.reference: symbol for symbol in drawing.symbols if not symbol.is_power}
    assert sorted(by_reference) == ["J1", "J15", "J5", "P1", "U1"]
    assert by_reference["J1"].fields["Board"] == "pilot"
    assert by_reference["J1"].footprint == "Lib:Four"
    assert by_reference["J15"].fields["Family"] == "JST GH"
    assert (drawing.title, drawing.revision) == ("Little craft", "A")
    assert [dict(note.fields) for note in drawing.notes] == [{"Gauge": "22"}]


def odd_power(hidden: bool) -> Sheet:
    """A power symbol whose pin is called VCC and whose value is +5V."""
    root = Sheet("power")
    root.place(power("VCC", hidden=hidden), (50.8, 50.8), value="+5V")
    root.place(probe(), (50.8, 50.8), reference="P1")
    return root


# By pin before 20230221, but only where the pin is hidden, as in KiCad's own power symbols of that time.
EACH_POWER = pytest.mark.parametrize(
    ("version", "hidden", "name"),
    [
        (KICAD_6, True, "VCC"),
        (KICAD_6, False, "+5V"),
        (KICAD_7, True, "VCC"),
        (KICAD_7, False, "+5V"),
        (20230221, True, "+5V"),
        (KICAD_8, True, "+5V"),
        (KICAD_8, False, "+5V"),
        (KICAD_9, True, "+5V"),
    ],
)


@EACH_POWER
def test_power_symbols_name_their_net_by_hidden_pin_before_20230221_and_by_value_else(
    version: int, hidden: bool, name: str, tmp_path: Path
) -> None:
    agreed(our_nets(odd_power(hidden).write(tmp_path, version=version)), {name: "P1.1"})


@pytest.mark.kicad
@EACH_POWER
def test_kicad_names_power_nets_so(version: int, hidden: bool, name: str, tmp_path: Path) -> None:
    agreed(kicad_netlist(odd_power(hidden).write(tmp_path, version=version)).nets, {name: "P1.1"})


def with_other_table(tmp_path: Path) -> Path:
    """A file of KiCad 6 whose table of references gives J1 another value and footprint than its symbol has."""
    root = little_craft().write(tmp_path, version=KICAD_6)
    text = root.read_text(encoding="utf-8")
    start = text.index("(symbol_instances")
    rows = text[start:].replace('(footprint "Lib:Four")', '(footprint "Table:Four")')
    rows = rows.replace('(value "conn_1.5V', '(value "tabled_1.5V')
    assert rows != text[start:]
    root.write_text(text[:start] + rows, encoding="utf-8")
    return root


def test_the_table_of_kicad_6_overrides_value_and_footprint(tmp_path: Path) -> None:
    j1 = next(s for s in read_drawing(with_other_table(tmp_path)).symbols if s.reference == "J1")
    assert j1.footprint == "Table:Four"
    assert j1.value.startswith("tabled_")


@pytest.mark.kicad
def test_kicad_lets_the_table_override_value_and_footprint(tmp_path: Path) -> None:
    j1 = kicad_netlist(with_other_table(tmp_path)).parts["J1"]
    assert j1["Footprint"] == "Table:Four"
    assert j1["Value"].startswith("tabled_")


def with_stale_table(tmp_path: Path) -> Path:
    """A file of KiCad 9 that still holds a table of references, with other ones."""
    sheet = Sheet("stale")
    sheet.place(probe(), (50.8, 50.8), reference="P1")
    plain = sheet.write(tmp_path)
    text = plain.read_text(encoding="utf-8")
    symbol = text[text.index("(uuid", text.index("(lib_id")) :].split('"')[1]
    table = f'(symbol_instances (path "/{symbol}" (reference "P9") (unit 1) (value "x") (footprint "")))'
    plain.write_text(text.rstrip()[:-1] + table + "\n)\n", encoding="utf-8")
    return plain


def test_a_table_of_references_is_ignored_from_20221002_on(tmp_path: Path) -> None:
    agreed(our_nets(with_stale_table(tmp_path)), {"unconnected-(P1-Pad1)": "P1.1"})


@pytest.mark.kicad
def test_kicad_ignores_the_stale_table(tmp_path: Path) -> None:
    agreed(kicad_netlist(with_stale_table(tmp_path)).nets, {"unconnected-(P1-Pad1)": "P1.1"})


# KiCad 10, whose files KiCad 9 refuses.  Source: KiCad 10.0.7; test_nets_by_kicad_10.py asks it again.


def test_lists_that_kicad_10_brought_are_skipped_or_understood(tmp_path: Path) -> None:
    root = little_craft()
    root.raw('(group "pilot side" (uuid "{uuid}") (members "11111111-1111-4111-8111-111111111111"))')
    root.raw('(some_list_of_tomorrow (wire (pts (xy 0 0) (xy 76.2 50.8))) "text (with brackets" (deep (deeper 1e3)))')
    root.place(
        probe(),
        (177.8, 50.8),
        reference="P2",
        extra="(in_pos_files yes) (passthrough inherit) (body_style 1)",
        instance_extra=' (variant (name "A") (dnp yes) (in_bom no) (field (name "Value") (value "10k")))',
    )
    path = root.write(tmp_path, version=KICAD_10)
    text = path.read_text(encoding="utf-8")
    shown = text.replace("(effects (font", "(show_name no) (do_not_autoplace yes) (effects (font")
    assert shown != text
    path.write_text(shown, encoding="utf-8")
    agreed(our_nets(path), {**LITTLE_NETS, "unconnected-(P2-Pad1)": "P2.1"})


def test_local_power_symbols_join_on_their_own_sheet_only(tmp_path: Path) -> None:
    root, child = Sheet("root"), Sheet("child")
    for sheet, first in ((root, 1), (child, 3)):
        for k in (0, 1):
            sheet.place(power("VL", local=True), (50.8, 50.8 + 25.4 * k), value="VL")
            sheet.place(probe(), (50.8, 50.8 + 25.4 * k), reference=f"P{first + k}")
    root.sheet(child, "sub", (101.6, 50.8))
    root.label("local", "WEAKER", (50.8, 50.8))
    path = root.write(tmp_path, version=KICAD_10)
    agreed(our_nets(path), {"/VL": "P1.1 P2.1", "/sub/VL": "P3.1 P4.1"})


def test_jumper_pin_groups_join_their_pins(tmp_path: Path) -> None:
    root = Sheet("root")
    pins = [Pin(str(k), (0, 5.08 * k), f"J{k}") for k in (1, 2, 3, 4)]
    bridge = part(pins, name="bridge", extra='(jumper_pin_groups ("1" "2"))')
    root.place(bridge, (50.8, 50.8), reference="JP1")
    root.label("local", "X", (50.8, 50.8 - 5.08))
    path = root.write(tmp_path, version=KICAD_10)
    agreed(
        our_nets(path),
        {"/X": "JP1.1 JP1.2", "unconnected-(JP1-J3-Pad3)": "JP1.3", "unconnected-(JP1-J4-Pad4)": "JP1.4"},
    )


def test_duplicate_pin_numbers_join_when_the_symbol_says_so(tmp_path: Path) -> None:
    root = Sheet("root")
    pins = [Pin("1", (0, 0), "A"), Pin("1", (25.4, 0), "A")]
    twice = part(pins, name="twice", extra="(duplicate_pin_numbers_are_jumpers yes)")
    root.place(twice, (50.8, 50.8), reference="U1")
    root.label("local", "X", (50.8, 50.8))
    root.label("local", "Y", (76.2, 50.8))
    path = root.write(tmp_path, version=KICAD_10)
    agreed(our_nets(path), {"/X": "U1.1"})


def test_stacked_pin_numbers_stand_for_several_pins_from_20250901_on(tmp_path: Path) -> None:
    root = Sheet("root")
    root.place(part([Pin("[1-3,5]", (0, 0), "A")], name="stacked"), (50.8, 50.8), reference="U1")
    root.label("local", "X", (50.8, 50.8))
    agreed(our_nets(root.write(tmp_path / "10", version=KICAD_10)), {"/X": "U1.1 U1.2 U1.3 U1.5"})
    agreed(our_nets(root.write(tmp_path / "9", version=KICAD_9)), {"/X": "U1.[1-3,5]"})


def test_bus_aliases_stand_in_the_project_file(tmp_path: Path) -> None:
    agreed(our_nets(aliases_of_the_project({"LINK": ["TX", "RX"]}).write(tmp_path)), {"/X.TX": "P1.1 P2.1"})


def test_all_top_level_sheets_of_the_project_are_read(tmp_path: Path) -> None:
    roots = {"first": Sheet("first"), "second": Sheet("second")}
    listed_sheets = []
    for k, (name, sheet) in enumerate(roots.items(), 1):
        sheet.label("global", "LINK", (50.8, 50.8))
        sheet.place(probe(), (50.8, 50.8), reference=f"P{k}")
        uuid = sheet.uses()[0].path.removeprefix("/")
        listed_sheets.append({"filename": sheet.file, "name": name, "uuid": uuid})
    project = {"schematic": {"top_level_sheets": listed_sheets}}
    roots["second"].write(tmp_path, version=KICAD_10)
    path = roots["first"].write(tmp_path, version=KICAD_10, project=project)
    agreed(our_nets(path), {"LINK": "P1.1 P2.1"})


@pytest.mark.kicad
def test_kicad_9_refuses_files_of_kicad_10(tmp_path: Path) -> None:
    """So that the note above stays true."""
    with pytest.raises(OracleError):
        kicad_netlist(little_craft().write(tmp_path, version=KICAD_10))
