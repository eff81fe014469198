"""Terminators: 60 ohm between the lines is two of 120 ohm, [B] flight-bus page; ends only is common practice."""

from __future__ import annotations

import pytest

from crafts.craft_kit import plug, two_pin
from crafts.finding_kit import findings_of
from tabside.model.findings import Severity
from tabside.rules.terminator import terminator

LINE = (
    plug("J1", "H L", board="a", signals="CAN_H, CAN_L"),
    plug("J2", "H L", board="b", signals="CAN_H, CAN_L"),
    plug("J3", "H2 L2", board="b", signals="CAN_H, CAN_L"),
    plug("J4", "H2 L2", board="c", signals="CAN_H, CAN_L"),
    plug("J5", "H3 L3", board="c", signals="CAN_H, CAN_L"),
    plug("J6", "H3 L3", board="d", signals="CAN_H, CAN_L"),
)


def told(*nets):
    parts = [two_pin(f"R{n}", f"H{net}", f"L{net}", value="120R") for n, net in enumerate(nets, 1)]
    return [each.severity for each in findings_of(terminator, *LINE, *parts)]


@pytest.mark.parametrize(
    ("nets", "severity"),
    [
        (("", "3"), None),
        ((), None),
        (("",), Severity.NOTE),
        (("", "2"), Severity.WARNING),
        (("", ""), Severity.WARNING),
        (("", "2", "3"), Severity.WARNING),
    ],
)
def test_two_terminators_one_at_each_end(nets, severity):
    assert told(*nets) == ([severity] if severity else [])


def test_a_pull_up_is_no_terminator():
    assert not findings_of(terminator, *LINE, two_pin("R1", "H", "L", value="10k"))
