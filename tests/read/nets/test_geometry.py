"""Placing pins.  Source of the verdicts: seen in KiCad 9.0.8, a probe on each point."""

from __future__ import annotations

import pytest

from drawing.hand_made_sheets import HandSheet, hierarchy, lib_pin, library, units
from tabside.read.nets.geometry import placed_pins

L_SHAPED = library(lib_pin("1", (3, 1)))


@pytest.mark.parametrize(
    ("angle", "mirror", "offset"),
    [
        (0, "", (3, -1)),
        (0, "x", (3, 1)),
        (0, "y", (-3, -1)),
        (90, "", (-1, -3)),
        (90, "x", (-1, 3)),
        (90, "y", (1, -3)),
        (180, "", (-3, 1)),
        (180, "x", (-3, -1)),
        (180, "y", (3, 1)),
        (270, "", (1, 3)),
        (270, "x", (1, -3)),
        (270, "y", (-1, 3)),
    ],
)
def test_a_pin_turns_first_and_is_mirrored_last(angle, mirror, offset):
    sheet = HandSheet()
    sheet.place("U1", (50, 40), L_SHAPED, angle=angle, mirror=mirror)
    (pin,) = placed_pins(hierarchy(sheet).sheets[0].file, 0, 1)
    assert pin.at == units((50 + offset[0], 40 + offset[1]))


@pytest.mark.parametrize(
    ("unit", "style", "numbers"), [(1, 1, ["c", "s1", "u", "11"]), (1, 2, ["c", "u", "12"]), (2, 1, ["c", "s1", "21"])]
)
def test_a_unit_has_its_pins_and_those_common_to_units_or_body_styles(unit, style, numbers):
    symbol = library(
        lib_pin("c", unit=0, style=0),
        lib_pin("s1", unit=0, style=1),
        lib_pin("u", unit=1, style=0),
        lib_pin("11"),
        lib_pin("12", style=2),
        lib_pin("21", unit=2),
    )
    sheet = HandSheet()
    sheet.place("U1", (0, 0), symbol, unit=unit, style=style)
    assert [pin.number for pin in placed_pins(hierarchy(sheet).sheets[0].file, 0, unit)] == numbers


def test_a_chosen_alternate_gives_name_and_type_but_not_the_base_name():
    symbol = library(lib_pin("1", name="PA0", electrical="input", alternates={"TX": "output"}))
    sheet = HandSheet()
    sheet.place("U1", (0, 0), symbol, alternates={"1": "TX"})
    (pin,) = placed_pins(hierarchy(sheet).sheets[0].file, 0, 1)
    assert (pin.base_name, pin.name, pin.electrical) == ("PA0", "TX", "output")


@pytest.mark.parametrize(
    ("power", "electrical", "hidden", "names"),
    [
        ("global", "power_in", False, "value"),
        ("global", "power_in", True, "value"),
        ("local", "power_in", False, "local"),
        ("global", "power_out", False, ""),
        ("", "power_in", True, "pin"),
        ("", "power_in", False, ""),
        ("", "passive", True, ""),
    ],
)
def test_only_power_inputs_of_power_symbols_and_hidden_ones_name_nets(power, electrical, hidden, names):
    sheet = HandSheet()
    sheet.place("U1", (0, 0), library(lib_pin("1", electrical=electrical, hidden=hidden), power=power))
    (pin,) = placed_pins(hierarchy(sheet).sheets[0].file, 0, 1)
    assert pin.power == names


@pytest.mark.parametrize(
    ("version", "hidden", "value"), [(20230121, True, "VPIN"), (20230121, False, None), (20230221, True, None)]
)
def test_kicad_7_power_symbols_are_named_by_their_hidden_pin(version, hidden, value):
    sheet = HandSheet(version=version)
    symbol = library(lib_pin("1", name="VPIN", electrical="power_in", hidden=hidden), power="global")
    sheet.place("#PWR1", (0, 0), symbol, value="other")
    (pin,) = placed_pins(hierarchy(sheet).sheets[0].file, 0, 1)
    assert pin.legacy_value == value


def test_blanks_in_pin_names_and_numbers_become_underscores():
    sheet = HandSheet()
    sheet.place("U1", (0, 0), library(lib_pin("A 1", name="5V OUT")))
    (pin,) = placed_pins(hierarchy(sheet).sheets[0].file, 0, 1)
    assert (pin.number, pin.name) == ("A_1", "5V_OUT")
