"""The drawing that comes of a hierarchy: symbols, notes, warnings, and the nets as JSON."""

from __future__ import annotations

from drawing.hand_made_sheets import POWER, TWO_PINS, HandSheet, hierarchy, lib_pin, library
from tabside.model.drawing import Drawing
from tabside.read.nets.nets_json import nets_json
from tabside.read.wires.netlist import netlist


def by_reference(drawing: Drawing) -> dict:
    return {symbol.reference: symbol for symbol in drawing.symbols}


def test_a_symbol_carries_its_fields_those_of_its_sheets_and_its_place():
    root, outer, inner = HandSheet(), HandSheet("outer"), HandSheet("inner")
    root.sheet(outer, "out")
    outer.sheet(inner, "in")
    inner.place("J1", (50.8, 25.4), TWO_PINS, value="plug", fields={"Family": "jst-sh", "Footprint": "c:f"})
    symbol = by_reference(netlist(hierarchy(root)))["J1"]
    assert (symbol.value, symbol.footprint, symbol.fields["Family"]) == ("plug", "c:f", "jst-sh")
    assert [fields["Board"] for fields in symbol.sheet_fields] == ["board of in", "board of out"]
    assert (symbol.place.file, symbol.place.sheet, symbol.place.at_mm) == ("inner.kicad_sch", "/out/in/", (50.8, 25.4))
    assert [(pin.number, pin.at_mm) for pin in symbol.pins] == [("1", (50.8, 23.4)), ("2", (50.8, 27.4))]
    assert symbol.annotated
    assert not symbol.is_power


def test_flags_of_a_sheet_hold_for_the_parts_inside():
    # Seen in KiCad 9.0.8 for BOM and board.
    root, child = HandSheet(), HandSheet("child")
    child.place("J1", (0, 0))
    root.place("J2", (0, 0))
    root.sheet(child, "sub")
    symbol, below = root.sheets[0]
    root.sheets[0] = (symbol._replace(in_bom=False, on_board=False, dnp=True), below)
    flags = {r: (s.in_bom, s.on_board, s.dnp) for r, s in by_reference(netlist(hierarchy(root))).items()}
    assert flags == {"J1": (False, False, True), "J2": (True, True, False)}


def test_every_pin_has_a_net_and_every_net_knows_its_pins():
    root = HandSheet()
    root.place("J1", (0, 0), TWO_PINS)
    root.place("J?", (9, 0), TWO_PINS)
    root.place("#PWR1", (0, 2), POWER, value="GND")
    root.place("#FLG1", (30, 0), library(lib_pin("1", electrical="power_out"), power="global"))
    drawing = netlist(hierarchy(root))
    for number, symbol in enumerate(drawing.symbols):
        for place, pin in enumerate(symbol.pins):
            assert (number, place) in drawing.nets[pin.net].pins
    assert [net.name for net in drawing.nets if net.power_names == ("GND",)] == ["GND"]
    assert sum(net.dropped for net in drawing.nets) == 2
    assert by_reference(drawing)["#PWR1"].is_power


def test_labels_and_power_symbols_of_a_net_are_told():
    root = HandSheet()
    root.probes(A=(0, 0))
    root.label("local", "X/Y", (0, 0))
    root.label("global", "G", (0, 0))
    root.place("#PWR1", (0, 0), POWER, value="+5V")
    (net,) = netlist(hierarchy(root)).nets
    assert (net.name, net.power_names, net.label_names) == ("G", ("+5V",), ("G", "X/Y"))


def test_the_unit_of_the_instance_counts():
    symbol = library(lib_pin("1"), lib_pin("2", unit=2), unit_count=2)
    root = HandSheet()
    root.place("U1", (0, 0), symbol, unit=2)
    drawing = netlist(hierarchy(root))
    assert (drawing.symbols[0].unit, drawing.symbols[0].unit_count) == (2, 2)
    assert [pin.number for pin in drawing.symbols[0].pins] == ["2"]


def test_references_of_kicad_6_come_from_the_roots_table():
    root, child = HandSheet(version=20211123), HandSheet("child", version=20211123)
    child.place("J?", (0, 0), annotated=False)
    root.sheet(child, "one")
    root.sheet(child, "two")
    read = hierarchy(root)
    table = {
        "/sheet-root-0/child-0": ("J1", 1, "first", "a:b"),
        "/sheet-root-1/child-0": ("J2", 1, "second", ""),
    }
    top = read.sheets[0]
    file = top.file._replace(symbol_instances=table)
    read = read._replace(sheets=(top._replace(file=file), *read.sheets[1:]))
    drawing = netlist(read)
    assert [(s.reference, s.value, s.annotated) for s in drawing.symbols] == [
        ("J1", "first", True),
        ("J2", "second", True),
    ]
    assert drawing.symbols[0].footprint == "a:b"


def test_a_flag_is_told_where_it_lies():
    root = HandSheet()
    root.place("J1", (0, 0), TWO_PINS)
    root.no_connect((0, 2))
    flagged = {pin.number: pin.flagged_no_connect for pin in netlist(hierarchy(root)).symbols[0].pins}
    assert flagged == {"1": False, "2": True}


def test_a_note_has_the_fields_of_a_label_and_the_pins_drawn_to_it():
    root = HandSheet()
    root.wire((0, 0), (9, 0))
    root.probes(A=(0, 0), B=(9, 0), C=(20, 0))
    root.label("local", "X", (20, 0))
    root.label("local", "X", (0, 0))
    root.label("directive", "", (4, 0), Gauge="24", Netclass="HV")
    root.label("directive", "", (20, 0), Netclass="HV")
    drawing = netlist(hierarchy(root))
    (note,) = drawing.notes
    assert note.fields == {"Gauge": "24"}
    assert sorted(drawing.symbols[symbol].reference for symbol, _ in note.pins) == ["A", "B"]
    assert drawing.nets[note.net].name == "/X"
    assert note.place.at_mm == (4, 0)


def test_what_kicad_drops_in_silence_is_said_in_one_line_each():
    root = HandSheet()
    root.place("J?", (0, 0))
    root.place("J7", (5, 0), annotated=False)
    root.place("J8", (9, 0))
    root.lib_symbols.pop(root.symbols[2].lib_id, None)
    root.lib_symbols.clear()
    lines = netlist(hierarchy(root)).warnings
    assert all("\n" not in line for line in lines)
    assert any("J? is not annotated" in line for line in lines)
    assert any("J7 has no reference stored for this sheet" in line for line in lines)
    assert any("J8: the file holds no library symbol" in line for line in lines)


def test_a_sound_drawing_has_no_warnings():
    root = HandSheet()
    root.place("J1", (0, 0), TWO_PINS)
    root.place("#PWR?", (0, 2), POWER, value="GND")
    assert netlist(hierarchy(root)).warnings == ()


def test_files_are_named_from_the_roots_folder_root_first():
    root, child = HandSheet(), HandSheet("sub/child")
    root.sheet(child, "one")
    root.sheet(child, "two")
    # of no bytes, from `sha256sum` of coreutils
    digest = "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"
    assert netlist(hierarchy(root)).files == (("root.kicad_sch", digest), ("sub/child.kicad_sch", digest))


def test_nets_as_json_are_in_natural_order_without_power_symbols_and_dropped_nets():
    root = HandSheet()
    for reference, at in (("J10", (0, 0)), ("J2", (0, 0)), ("J9", (5, 0)), ("J?", (7, 0))):
        root.place(reference, at)
    for text, at in (("N10", (0, 0)), ("N2", (5, 0))):
        root.label("local", text, at)
    root.place("J3", (9, 0), library(lib_pin("1"), lib_pin("1"), lib_pin("2"), lib_pin("10")))
    root.label("local", "N3", (9, 0))
    root.place("#PWR1", (9, 0), POWER, value="GND")
    assert nets_json(netlist(hierarchy(root))) == {
        "format": "tabside/nets/1",
        "nets": [
            {"name": "/N2", "pins": [["J9", "1"]]},
            {"name": "/N10", "pins": [["J2", "1"], ["J10", "1"]]},
            {"name": "GND", "pins": [["J3", "1"], ["J3", "2"], ["J3", "10"]]},
        ],
    }
