"""Buses of one board that a net makes one.  Common practice, no source."""

from __future__ import annotations

from crafts.craft_kit import pads
from crafts.finding_kit import at, findings_of
from tabside.rules.bus_merged import bus_merged


def test_two_buses_of_one_board():
    found = findings_of(
        bus_merged,
        pads("TP1", "A B A B", board="pilot", signals="SDA1, SCL1, SDA2, SCL2"),
        pads("TP2", "A B", board="compass", signals="SDA, SCL"),
    )
    assert len(found) == 1 and at(found[0]) == {"TP1:1", "TP1:2", "TP1:3", "TP1:4"}


def test_quiet_for_one_bus_passed_on_and_for_two_boards():
    assert not findings_of(
        bus_merged,
        pads("TP1", "A B A B", board="pilot", signals="SDA1, SCL1, SDA1, SCL1"),
        pads("TP2", "A B", board="compass", signals="SDA2, SCL2"),
    )
