"""Cells in a contact's own name.  Volts of a cell: the table of cells, with its sources."""

from __future__ import annotations

import pytest

from crafts.craft_kit import captive, craft, plug
from tabside.facts.cells import pack_volts


@pytest.mark.parametrize(
    ("name", "cells"),
    [("VBAT 2-6S", (2, 6)), ("VBAT(4S)", (4, 4)), ("BAT+ (4S max)", (1, 4)), ("VIN 3-4S", (3, 4)), ("3S LIPO", (3, 3))],
)
def test_an_input_takes_the_cells_that_its_name_says(name, cells):
    contact = craft(plug("J1", "a b", signals=f"{name}, GND")).terminations["J1"].contacts[0]
    assert [rail.volts for rail in contact.takes] == [pack_volts(*cells)] and not contact.gives


def test_a_packs_own_lead_gives_them_and_a_field_outranks_the_name():
    pack = craft(captive("X1", "a b", signals="BAT+ 4S, BAT-")).terminations["X1"].contacts[0]
    assert pack.gives[0].volts == pack_volts(4, 4) and not pack.takes
    stated = craft(plug("J1", "a b", signals="VBAT 2-4S, GND", takes="7-26V 1A")).terminations["J1"].contacts[0]
    assert [rail.text for rail in stated.takes] == ["7-26V 1A"]


@pytest.mark.parametrize("name", ["VBAT", "VBAT S", "SBUS", "VBAT 99S"])
def test_a_name_without_cells_says_nothing(name):
    contact = craft(plug("J1", "a b", signals=f"{name}, GND")).terminations["J1"].contacts[0]
    assert not contact.takes and not contact.gives
