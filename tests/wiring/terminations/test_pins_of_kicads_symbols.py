"""What Tabside knows by heart of pins in KiCad's own symbols, held against the libraries of KiCad itself."""

import re
from functools import cache
from pathlib import Path

import pytest

from tabside.analysis.supplies import REGULATOR_PINS
from tabside.read.kicad.library_symbol import library_symbol
from tabside.read.kicad.sheet_file import LibPin
from tabside.read.kicad.text.parsing import parse

LIBRARIES = Path("/usr/share/kicad/symbols")


@cache
def pins_of(library: str, name: str) -> dict[str, LibPin]:
    """A symbol's pins by their numbers, as its library has them."""
    text = (LIBRARIES / f"{library}.kicad_sym").read_text(encoding="utf-8")
    found = re.search(rf'^\t\(symbol "{re.escape(name)}"\n.*?^\t\)', text, re.DOTALL | re.MULTILINE)
    assert found is not None, name
    extended = re.search(r'\(extends "([^"]+)"\)', found[0])
    if extended is not None:
        return pins_of(library, extended[1])
    return {pin.number: pin for pin in library_symbol(parse(found[0]), 20241209).pins}


def names_of(library: str, name: str) -> set[str]:
    return {pin.name for pin in pins_of(library, name).values()}


@pytest.mark.kicad("symbols")
@pytest.mark.parametrize("name", ["LM7805_TO220", "LM1117T-5.0", "AMS1117-3.3"])
def test_a_regulator_has_an_input_and_an_output_of_these_names(name):
    assert names_of("Regulator_Linear", name) >= REGULATOR_PINS


@pytest.mark.kicad("symbols")
@pytest.mark.parametrize("name", ["R_Potentiometer", "R_Potentiometer_US"])
def test_the_wiper_of_a_potentiometer_is_its_second_pin(name):
    """The two ends of the track stand in line, the wiper beside them."""
    pins = pins_of("Device", name)
    assert sorted(pins) == ["1", "2", "3"]
    assert pins["1"].at[0] == pins["3"].at[0] != pins["2"].at[0]


@pytest.mark.kicad("symbols")
def test_a_suppressor_of_both_ways_has_two_anodes_and_one_of_one_way_a_cathode():
    assert names_of("Device", "D_TVS") == {"A1", "A2"}
    assert names_of("Device", "D_Zener") == {"K", "A"}
