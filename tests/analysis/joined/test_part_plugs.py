"""Which parts' own leads are live, by what they meet.  Logic, no source needed."""

from __future__ import annotations

import pytest

from crafts.craft_kit import captive, craft, pads, splice, two_pin
from tabside.analysis.joined.part_plugs import packs

BARE = captive("X1", "P N", board="bare", signals="+, -")


@pytest.mark.parametrize(
    ("others", "expected"),
    [
        pytest.param([pads("TP1", "P N", board="power", signals="VBAT, GND")], {"bare"}, id="on a battery input"),
        pytest.param([pads("TP1", "P N", board="power", signals="5V, GND")], set(), id="on another rail"),
        pytest.param(
            [pads("TP1", "P N", board="power", signals="VBAT, GND", gives="VBAT 5A")], set(), id="on what feeds it"
        ),
        pytest.param(
            [
                captive("X2", "P N", board="pack", signals="VBAT, GND", gives="4S 30A"),
                pads("TP1", "P N", board="power", signals="VBAT, GND"),
            ],
            {"pack"},
            id="beside the pack",
        ),
        pytest.param([two_pin("F1", "P", "Q"), splice("S1", "N")], set(), id="on a fuse and a splice alone"),
    ],
)
def test_two_bare_leads_are_a_battery_by_what_they_meet(others, expected):
    assert packs(craft(BARE, *others)) == expected
