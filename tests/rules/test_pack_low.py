"""Batteries by cells against what inputs take.

Volts of a lithium cell: 3.0 empty under load, 4.2 full, 4.35 full of the high kind (trade guides, grade C), so that a
pack of 3 cells reaches 9.0 to 12.6 V, one of 4 cells 12.0 to 16.8 V, one of 6 cells 18.0 to 25.2 V.
"""

from __future__ import annotations

import pytest

from crafts.craft_kit import captive, pads, two_pin
from crafts.finding_kit import all_findings, findings_of
from tabside.model.craft import CraftSettings
from tabside.model.findings import Severity
from tabside.read.craft.file import settings_from_text
from tabside.rules.pack_low import pack_low


def build(takes, gives="VBAT 60A"):
    return (
        captive("X1", "A G", board="pack", signals="VBAT, GND", gives=gives),
        two_pin("F1", "A", "B"),
        pads("TP1", "B G", board="camera", signals="VIN, GND", takes=takes),
    )


def battery(text):
    return settings_from_text(f'[craft]\nbattery = "{text}"\n'.encode(), "x")


def volts_findings(takes, cells):
    found = all_findings(*build(takes), settings=battery(cells))
    return [(each.rule, each.severity) for each in found if each.rule in ("over-voltage", "under-voltage")]


OVER, UNDER = "over-voltage", "under-voltage"


@pytest.mark.parametrize(
    ("takes", "cells", "expected"),
    [
        ("7-26V", "6S", []),
        ("7-25V", "6S", [(OVER, Severity.ERROR)]),
        ("7-17V", "4S", []),
        ("7-17V", "4S HV", [(OVER, Severity.ERROR)]),  # 17.4 V
        ("5-12.6V", "3S", []),
        ("5-12.5V", "3S", [(OVER, Severity.ERROR)]),
        ("10-30V", "3S", [(UNDER, Severity.NOTE)]),  # empty at 9.0 V
        ("12-30V", "3S", [(UNDER, Severity.WARNING)]),  # most of the charge lies below
        ("13-30V", "3S", [(UNDER, Severity.ERROR)]),  # never reached
        ("2S-6S", "3S", []),
    ],
)
def test_a_pack_by_its_cells_against_an_input(takes, cells, expected):
    assert volts_findings(takes, cells) == expected


def test_volts_of_the_craft_file_say_where_the_pack_is_taken_off():
    assert not findings_of(pack_low, *build("10-30V"), settings=settings_from_text(b"[craft]\nvolts=[10.5, 12.6]", "x"))


def test_cells_that_the_pack_itself_states_count():
    assert [each.severity for each in findings_of(pack_low, *build("10-30V", gives="3S 60A"))] == [Severity.NOTE]


def test_what_a_pack_states_comes_before_the_craft_file():
    """A second battery of 3 cells, empty at 9 V, on a craft of 4 cells, empty at 12 V."""
    (found,) = findings_of(pack_low, *build("10-30V", gives="3S 60A"), settings=battery("4S"))
    assert "12.6 V full to 9 V empty" in found.message


def test_an_unknown_pack_is_quiet_here():
    assert not findings_of(pack_low, *build("10-30V"), settings=CraftSettings())


def test_a_regulated_supply_does_not_run_down_with_the_pack():
    symbols = (
        pads("TP1", "V G", board="regulator", signals="12V, GND", gives="12V 3A"),
        pads("TP2", "V G", board="camera", signals="VIN, GND", takes="10-30V"),
    )
    assert not findings_of(pack_low, *symbols, settings=battery("3S"))


@pytest.mark.parametrize("takes", ["1:14.8V 2A", "1:14.4V 2A"])
def test_what_packs_of_four_cells_are_sold_by_is_made_for_them(takes):
    assert not [found for found in all_findings(*build(takes, "4S 30A")) if "voltage" in found.rule]


@pytest.mark.parametrize("takes", ["1:12V 2A", "1:13.8V 2A", "1:11.1V 2A", "1:22.2V 2A"])
def test_other_volts_are_not(takes):
    assert [found for found in all_findings(*build(takes, "4S 30A")) if found.severity is Severity.ERROR]


@pytest.mark.parametrize(("takes", "told"), [("16.8-26V 1A", True), ("16.7-26V 1A", True), ("12-26V 1A", False)])
def test_an_input_that_only_a_full_pack_reaches_is_told(takes, told):
    """Four cells: 16.8 V when they are full, and less from then on."""
    assert bool(volts_findings(takes, "4S")) is told
