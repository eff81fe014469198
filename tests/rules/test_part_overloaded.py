"""Resistors, bare lights and suppressors across a supply.

Watts are volts squared by ohms (Joule's law): 16.8 V across 1 ohm is 282 W.  The volts in a suppressor's number: from
memory.
"""

from __future__ import annotations

import pytest

from crafts.craft_kit import captive, pads, plug, power
from crafts.finding_kit import findings_of
from tabside.model.findings import Severity
from tabside.rules.part_overloaded import part_overloaded

GND = power("GND")
PACK = captive("X1", "V GND", board="pack", signals="BAT+, BAT-", gives="4S 40A")


def light(value):
    return plug("D1", ["GND", "V"], value=value, lib_id="Device:LED", names=["K", "A"])


DRIVE = pads("TP1", "V GND", board="drive", signals="VBAT, GND", takes="7-26V 10A")


def part(reference, value, lib_id, names="~ ~", **more):
    return plug(reference, ["V", "GND"], value=value, lib_id=lib_id, names=names.split(), **more)


def told(symbol):
    found = findings_of(part_overloaded, PACK, DRIVE, symbol, GND)
    assert all((each.rule, each.severity) == ("part-reversed", Severity.WARNING) for each in found)
    return " ".join(each.message for each in found)


@pytest.mark.parametrize(
    ("symbol", "words"),
    [
        pytest.param(part("R1", "1R", "Device:R"), "282 W", id="one ohm"),
        pytest.param(part("R1", "10R 5W", "Device:R"), "made for 5 W", id="10 ohm of 5 W takes 28 W"),
        pytest.param(part("R1", "470 1/4W", "Device:R"), "made for 0.25 W", id="a quarter of a watt"),
        pytest.param(
            plug("D1", ["GND", "V"], value="LED", lib_id="Device:LED", names=["K", "A"]), "no resistor", id="LED"
        ),
        pytest.param(part("D1", "SMBJ5.0A", "Device:D_TVS", "K A"), "above 5 V", id="a suppressor"),
        pytest.param(part("D1", "BZX84C5V1", "Device:D_Zener", "K A"), "above 5.1 V", id="a Zener diode by its number"),
        pytest.param(part("D1", "12V", "Device:D_Zener", "K A"), "above 12 V", id="a Zener diode by its volts"),
        pytest.param(part("D1", "SMBJ12CA", "Device:D_TVS", "A1 A2"), "above 12 V", id="a suppressor of both ways"),
    ],
)
def test_what_burns_is_told(symbol, words):
    assert words in told(symbol)


@pytest.mark.parametrize(
    "symbol",
    [
        pytest.param(part("R1", "10k", "Device:R"), id="a bleeder"),
        pytest.param(part("R1", "10R 50W", "Device:R"), id="a heater of its watts"),
        pytest.param(part("R1", "", "Device:R"), id="of unknown ohms"),
        pytest.param(
            plug("D1", ["GND", "V"], value="LED 12V", lib_id="Device:LED", names=["K", "A"]),
            id="a light with its resistor",
        ),
        pytest.param(part("D1", "SMBJ18A", "Device:D_TVS", "K A"), id="a suppressor for the pack"),
        pytest.param(part("D1", "SMAJ15CA", "Device:D_TVS", "K A"), id="one that is close to it"),
        pytest.param(part("D1", "SS34", "Device:D_Schottky", "K A"), id="a diode that blocks"),
        pytest.param(part("C1", "100nF", "Device:C"), id="a capacitor"),
    ],
)
def test_quiet(symbol):
    assert not told(symbol)


def test_a_value_without_end_names_no_volts():
    """Nor does it take long: minutes, where the number is looked for behind each of its letters anew."""
    assert "above" not in told(part("D1", "C_" * 50_000, "Device:D_Zener", "K A"))


@pytest.mark.parametrize(("value", "undecided"), [("1R", 1), ("100R", 0)])
def test_what_surely_burns_leaves_the_verdict_open(value, undecided):
    (found,) = findings_of(part_overloaded, PACK, DRIVE, part("R1", value, "Device:R"), GND)
    assert found.undecided == undecided
