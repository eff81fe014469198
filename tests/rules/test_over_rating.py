"""Switches and other parts in a wire against the current over them.  Source: what the drawing states of them."""

from __future__ import annotations

import pytest

from crafts.craft_kit import captive, pads, plug, two_pin
from crafts.finding_kit import findings_of
from tabside.model.craft import CraftSettings
from tabside.model.findings import Severity
from tabside.model.roles import Volts
from tabside.rules.over_rating import over_rating


def run(part, takes="7-26V 20A"):
    return findings_of(
        over_rating,
        captive("X1", "A G", board="pack", family="Amass XT60", signals="BAT+, BAT-", gives="4S 60A"),
        part,
        pads("TP1", "B G", board="drive", signals="VBAT, GND", takes=takes),
        settings=CraftSettings(battery=Volts(12.0, 16.8)),
    )


@pytest.mark.parametrize(
    "part",
    [
        two_pin("SW1", "A", "B", rating="3A"),
        two_pin("SW1", "A", "B", value="toggle switch 3A 250V"),
        two_pin("JP1", "A", "B", rating="3 A"),
        two_pin("FB1", "A", "B", rating="500mA"),
    ],
)
def test_a_part_above_what_it_states(part):
    (found,) = run(part)
    assert (found.rule, found.severity) == ("over-current-contact", Severity.ERROR)
    assert "20 A flow over it" in found.message


@pytest.mark.parametrize(
    "part",
    [
        two_pin("SW1", "A", "B", rating="30A"),
        two_pin("SW1", "A", "B", rating="20A 30V"),
        two_pin("SW1", "A", "B"),
        two_pin("F1", "A", "B", rating="3A"),  # told by fuse-size
    ],
)
def test_a_part_that_carries_it_or_says_nothing(part):
    assert run(part) == []


def test_without_a_stated_load_nothing_is_said():
    assert run(two_pin("SW1", "A", "B", rating="3A"), takes="7-26V") == []


def test_a_relays_contacts_carry_what_the_board_takes():
    relay = plug(
        "K1",
        {"A1": "ON", "A2": "G", "11": "A", "14": "B"},
        lib_id="Relay:Relay_SPST-NO",
        names=dict.fromkeys(("A1", "A2", "11", "14"), "~"),
        rating="10A",
    )
    assert [found.severity for found in run(relay)] == [Severity.ERROR]
