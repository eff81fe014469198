"""Resistors in a supply.  Ohm's law: 20 A over 1 ohm are 20 V and 400 W."""

from __future__ import annotations

from crafts.craft_kit import captive, pads, two_pin
from crafts.finding_kit import findings_of
from tabside.model.findings import Severity
from tabside.rules.resistor_in_line import resistor_in_line

PACK = captive("X1", "V G", board="pack", signals="BAT+, BAT-", gives="4S 40A")


def told(value, takes="7-26V 20A"):
    drive = pads("TP1", "W G", board="drive", signals="VBAT, GND", takes=takes)
    return findings_of(resistor_in_line, PACK, two_pin("R1", "V", "W", value=value), drive)


def test_a_resistor_that_takes_more_than_a_tenth():
    (found,) = told("1R")
    assert (found.rule, found.severity) == ("voltage-drop", Severity.WARNING)
    assert "20 V" in found.message and "400 W" in found.message
    assert told("10k", "7-26V 0.1A")


def test_quiet_for_a_shunt_for_unknown_ohms_and_for_loads_that_nobody_states():
    assert not told("1m") and not told("") and not told("1R", "7-26V")
