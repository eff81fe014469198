"""What one schematic file holds.

Expected values are typed from the text in schematic_text.py; how KiCad understands it was seen with KiCad 9.0.8.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from drawing.schematic_text import FULL, LABELS, LIBRARY, ROOT_UUID, SYMBOL, WIRE, schematic
from tabside.read import read_drawing
from tabside.read.kicad.content import Memory, sheet_file_of_text
from tabside.read.kicad.library_symbol import stacked_numbers
from tabside.read.kicad.sheet_file import Label, LibPin, SheetFile, VariantChange


def read(text: str) -> SheetFile:
    return sheet_file_of_text(text, "/boat.kicad_sch", b"", Memory())


def test_head_and_title_are_read():
    file = read(FULL)
    assert (file.version, file.uuid) == (20250114, ROOT_UUID)
    assert file.title_block == {"title": "Pond skater", "rev": "2", "comment1": "first"}


def test_lines_points_and_aliases_are_read_in_units_of_100_nm():
    file = read(FULL)
    assert file.wires == (((508_000, 457_200), (762_000, 457_200)),)
    assert file.buses == (((0, 0), (0, 254_000)),)
    assert file.junctions == ((635_000, 457_200),)
    assert file.no_connects == ((100_000, 200_000),)
    assert file.bus_entries == (((0, 101_600), (25_400, 76_200)),)
    assert file.bus_aliases == {"LINK": ("TX", "RX")}


def test_placed_symbol_is_read():
    (symbol,) = read(FULL).symbols
    assert (symbol.lib_id, symbol.lib_name, symbol.unit, symbol.style) == ("Conn:Two", "", 1, 1)
    assert (symbol.at, symbol.angle, symbol.mirror) == ((508_000, 406_400), 90, "x")
    assert (symbol.in_bom, symbol.on_board, symbol.dnp) == (False, True, True)
    assert list(symbol.fields.items()) == [
        ("Reference", "J1"),
        ("Value", 'pilot (effects of "wind") \\ side'),
        ("Board", "pilot"),
    ]
    assert symbol.instances == {f"/{ROOT_UUID}": ("J7", 1)}
    assert symbol.alternates == {"1": "GPIO"}


def test_library_symbol_is_read():
    symbol = read(FULL).lib_symbols["Conn:Two"]
    assert symbol.pins == (
        LibPin("1", "TX", "passive", (-50_800, 0), False, 1, 1, {"GPIO": "bidirectional"}),
        LibPin("2", "", "power_in", (-50_800, -25_400), True, 1, 1, {}),
    )
    assert (symbol.power, symbol.unit_count, symbol.jumper_groups) == ("", 1, ())


def test_pins_that_a_symbol_lists_count_only_without_its_entry_in_the_library():
    assert read(schematic(LIBRARY, SYMBOL)).symbols[0].own_pins == ()
    assert read(schematic(SYMBOL)).symbols[0].own_pins == ("1", "2")


def test_library_symbols_that_no_placed_symbol_uses_are_left_out():
    assert read(schematic(LIBRARY)).lib_symbols == {}


def test_labels_are_read_with_their_own_fields_only():
    assert read(FULL).labels == (
        Label("local", "TX (effects (font))", (609_600, 457_200), "", {}, "55555555-0000-4000-8000-000000000001"),
        Label("global", "BAT+", (762_000, 457_200), "input", {"Gauge": "20"}, "55555555-0000-4000-8000-000000000002"),
        Label(
            *("directive", "", (660_400, 457_200), "round", {"Netclass": "power"}),
            "55555555-0000-4000-8000-000000000003",
        ),
    )


def test_sheet_symbol_is_read():
    (sheet,) = read(FULL).sheets
    assert (sheet.uuid, sheet.name, sheet.file) == ("88888888", "power", "power.kicad_sch")
    assert (sheet.at, sheet.size) == ((1_000_000, 500_000), (203_200, 101_600))
    assert sheet.fields["Board"] == "power board"
    assert [(pin.text, pin.shape, pin.at) for pin in sheet.pins] == [("IN", "input", (1_000_000, 558_800))]
    assert (sheet.in_bom, sheet.on_board, sheet.dnp) == (True, True, False)


@pytest.mark.parametrize(
    ("written", "units"),
    [
        # KiCad 9.0.8: a wire at 50.80004 meets a pin at 50.8, one at 50.80006 does not
        pytest.param("50.80004", 508_000, id="rounds down"),
        pytest.param("50.80006", 508_001, id="rounds up"),
        pytest.param("-50.80006", -508_001, id="negative"),
        pytest.param("1e1", 100_000, id="exponent"),
        pytest.param("10.", 100_000, id="point at the end"),
        pytest.param("-0", 0, id="minus nothing"),
    ],
)
def test_coordinates_are_rounded_to_kicads_units(written, units):
    file = read(schematic(f"\t(junction (at {written} 0))\n"))
    assert file.junctions == ((units, 0),)


def kicad_6() -> str:
    """The same as KiCad 6 writes it: bare uuids, references in a table of the root."""
    return """(kicad_sch (version 20211123) (generator eeschema)

  (uuid 9538e4ed-27e6-4c37-b989-9859dc0d49e8)

  (paper "A4")

  (lib_symbols
    (symbol "power:GND" (power) (pin_names (offset 0)) (in_bom yes) (on_board yes)
      (property "Reference" "#PWR" (id 0) (at 0 -6.35 0)
        (effects (font (size 1.27 1.27)) hide)
      )
      (symbol "GND_1_1"
        (pin power_in line (at 0 0 270) (length 0) hide
          (name "GND" (effects (font (size 1.27 1.27))))
          (number "1" (effects (font (size 1.27 1.27))))
        )
      )
    )
  )

  (symbol (lib_id "power:GND") (at 20.32 30.48 0) (unit 1) (convert 2)
    (in_bom yes) (on_board yes) (fields_autoplaced)
    (uuid 00000000-0000-0000-0000-00005f1d2c3b)
    (property "Reference" "#PWR01" (id 0) (at 20.32 36.83 0)
      (effects (font (size 1.27 1.27)) hide)
    )
    (property "Value" "GND" (id 1) (at 20.32 34.29 0))
    (property "Footprint" "~" (id 2) (at 20.32 30.48 0))
    (pin "1" (uuid 1a1a1a1a-27e6-4c37-b989-9859dc0d49e8))
  )

  (sheet (at 101.6 50.8) (size 20.32 10.16) (fields_autoplaced)
    (stroke (width 0) (type solid) (color 0 0 0 0))
    (fill (color 0 0 0 0.0000))
    (uuid 00000000-0000-0000-0000-00005f1d2c3c)
    (property "Sheet name" "power" (id 0) (at 101.6 50.0884 0))
    (property "Sheet file" "power.kicad_sch" (id 1) (at 101.6 61.5446 0))
  )

  (sheet_instances
    (path "/" (page "1"))
    (path "/00000000-0000-0000-0000-00005f1d2c3c" (page "2"))
  )

  (symbol_instances
    (path "/00000000-0000-0000-0000-00005f1d2c3b"
      (reference "#PWR03") (unit 1) (value "GND") (footprint "")
    )
  )
)
"""


def test_kicad_6_file_is_read():
    file = read(kicad_6())
    assert file.uuid == "9538e4ed-27e6-4c37-b989-9859dc0d49e8"
    assert file.lib_symbols["power:GND"].power == "global"
    assert [pin.hidden for pin in file.lib_symbols["power:GND"].pins] == [True]
    (symbol,) = file.symbols
    assert (symbol.uuid, symbol.style, symbol.instances) == ("00000000-0000-0000-0000-00005f1d2c3b", 2, {})
    assert symbol.fields["Footprint"] == ""  # "~" stands for empty in files before 20250318
    assert [(sheet.name, sheet.file) for sheet in file.sheets] == [("power", "power.kicad_sch")]
    assert file.symbol_instances == {"/00000000-0000-0000-0000-00005f1d2c3b": ("#PWR03", 1, "GND", "")}


def test_table_of_instances_counts_in_files_of_kicad_6_only():
    # KiCad 9.0.8 ignores the table from 20221002 on
    assert read(kicad_6().replace("20211123", "20221002")).symbol_instances == {}


def kicad_10() -> str:
    """What is new in KiCad 10, by its file format milestones 20250227 to 20260306; not seen in a file it saved."""
    library = """
    (lib_symbols (symbol "X:Jumper" (power local) (body_styles demorgan) (jumper_pin_groups ("1" "2") ("[3-4]" "5"))
      (duplicate_pin_numbers_are_jumpers yes) (in_pos_files yes)
      (symbol "Jumper_3_2" (pin passive line (at 0 0 0) (length 2.54) (name "~") (number "[1-3,A5]")))))"""
    placed = """
    (symbol (lib_id "X:Jumper") (at 10 10 0) (body_style 2) (unit 3) (in_pos_files yes) (uuid "s1")
      (property "Reference" "J1" (at 0 0 0) (show_name no) (do_not_autoplace no))
      (property "Note" "~" (at 0 0 0))
      (pin "[1-3,A5]" (uuid "p") (alternate "ALT"))
      (instances (project "x" (path "/r" (reference "J1") (unit 3)
        (variant (name "A") (dnp yes) (field (name "Value") (value "10k")))))))
    (group "G" (uuid "g") (members "s1")) (some_new_list (wire (pts (xy 0 0) (xy 1 1))))"""
    return schematic(library, placed, version=20260306)


def test_kicad_10_file_is_read():
    file = read(kicad_10())
    symbol = file.lib_symbols["X:Jumper"]
    assert (symbol.power, symbol.unit_count, symbol.duplicate_numbers_join) == ("local", 3, True)
    assert symbol.jumper_groups == (("1", "2"), ("3", "4", "5"))
    assert [(pin.number, pin.name, pin.unit, pin.style) for pin in symbol.pins] == [
        ("[1-3,A5]", "~", 3, 2),
    ]
    (placed,) = file.symbols
    assert (placed.style, placed.fields["Note"]) == (2, "~")
    assert placed.alternates == {"[1-3,A5]": "ALT"}
    assert placed.variants == {"/r": {"A": VariantChange({"dnp": True}, {"Value": "10k"})}}
    assert placed.instances == {"/r": ("J1", 3)}
    assert file.wires == ()


@pytest.mark.parametrize(
    ("written", "numbers"),
    [
        pytest.param("[1-3,5]", ("1", "2", "3", "5"), id="numbers"),
        pytest.param("[1,x-y]", ("[1,x-y]",), id="no range"),
        pytest.param("[7]", ("7",), id="one"),
        pytest.param("[1-999999999]", ("[1-999999999]",), id="without end"),
        pytest.param("[A9-A11]", ("A9", "A10", "A11"), id="letter before"),
        pytest.param("[A1-B2]", ("[A1-B2]",), id="different letters"),
        pytest.param("[5-3]", ("[5-3]",), id="backwards"),
        pytest.param("[]", ("[]",), id="nothing"),
        pytest.param("[1", ("[1",), id="not closed"),
    ],
)
def test_stacked_pin_numbers(written, numbers):
    # Seen in KiCad 10.0.7; that there is an end to it is ours.
    assert stacked_numbers(written) == numbers


def test_of_equal_names_the_last_field_counts():
    # KiCad 9.0.8 shows the last Value of two
    twice = SYMBOL.replace('(pin "1"', '(property "Value" "second" (at 0 0 0)) (pin "1"', 1)
    assert read(schematic(twice)).symbols[0].fields["Value"] == "second"


def test_digest_is_that_of_the_files_bytes(tmp_path: Path):
    file = tmp_path / "boat.kicad_sch"
    file.write_bytes(b"(kicad_sch (version 20250114))\n")
    # from `sha256sum` of coreutils
    digest = "0237b48a1e18d1d1ab9d990f582f18bbbc2c5cc53619d05a06fb808ab727eb5e"
    assert read_drawing(file).files == (("boat.kicad_sch", digest),)


def test_same_text_is_the_same_in_a_second_file():
    memory = Memory()
    first = sheet_file_of_text(FULL, "/a.kicad_sch", b"", memory)
    second = sheet_file_of_text(schematic(LIBRARY, SYMBOL, WIRE, LABELS), "/b.kicad_sch", b"", memory)
    assert second.lib_symbols == first.lib_symbols
    assert second.symbols == first.symbols


def test_a_text_remembered_from_an_older_file_is_read_anew_in_a_newer_one():
    # `~` is an empty name up to KiCad 9 and a name from 20250318 on
    memory = Memory()
    old = sheet_file_of_text(schematic(LIBRARY, SYMBOL), "/a.kicad_sch", b"", memory)
    new = sheet_file_of_text(schematic(LIBRARY, SYMBOL, version=20260306), "/b.kicad_sch", b"", memory)
    assert [pin.name for pin in old.lib_symbols["Conn:Two"].pins] == ["TX", ""]
    assert [pin.name for pin in new.lib_symbols["Conn:Two"].pins] == ["TX", "~"]
