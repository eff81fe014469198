"""Switches and fuses with one name on both sides.  Source: logic."""

from __future__ import annotations

import pytest

from crafts.craft_kit import captive, pads, plug, two_pin
from crafts.finding_kit import findings_of, rules
from tabside.rules.switch_bypassed import switch_bypassed

BOARDS = [
    plug("J1", "V GND", signals="VBAT GND", board="pilot"),
    plug("J2", "W GND", signals="VBAT GND", board="radio"),
]


@pytest.mark.parametrize("letters", ["SW", "S", "F", "FH", "PF", "CB", "JP"])
def test_one_name_on_both_sides(letters):
    assert rules(findings_of(switch_bypassed, *BOARDS, two_pin(f"{letters}1", "V", "V"))) == ["switch-bypassed"]
    assert not findings_of(switch_bypassed, *BOARDS, two_pin(f"{letters}1", "V", "W"))


def test_a_relays_contacts():
    def relay(nets):
        return plug(
            "K1",
            dict(zip(["A1", "A2", "11", "14"], nets.split(), strict=True)),
            lib_id="Relay:Relay_SPST-NO",
            names=dict.fromkeys(("A1", "A2", "11", "14"), "~"),
        )

    assert rules(findings_of(switch_bypassed, *BOARDS, relay("W GND V V"))) == ["switch-bypassed"]
    assert not findings_of(switch_bypassed, *BOARDS, relay("V GND V W"))


def test_a_net_tie_is_there_to_join():
    assert not findings_of(switch_bypassed, *BOARDS, two_pin("NT1", "V", "V"))


PACK = captive("X1", "P G", board="pack", signals="BAT+, BAT-", gives="4S 30A")
SIGNAL = (
    plug("J3", "S I", board="esc", family="JST GH", signals="S1, GND"),
    plug("J4", "S I", board="pilot", family="JST GH", signals="S1, GND"),
)


def fed(board, reference, minus):
    return pads(reference, f"P {minus}", board=board, signals="VBAT, GND")


@pytest.mark.parametrize("reference", ["SW1", "F1", "CB1"])
def test_a_switch_in_the_minus_that_a_signal_cable_goes_around(reference):
    boards = fed("esc", "TP1", "H"), fed("pilot", "TP2", "G")
    (found,) = findings_of(switch_bypassed, PACK, two_pin(reference, "G", "H"), *boards, *SIGNAL)
    assert found.rule == "switch-bypassed" and "other grounds go around it" in found.message


@pytest.mark.parametrize(
    "symbols",
    [
        pytest.param(
            (two_pin("SW1", "G", "H"), fed("esc", "TP1", "H"), fed("pilot", "TP2", "H"), *SIGNAL), id="of all"
        ),
        pytest.param(
            (two_pin("SW1", "G", "H"), fed("lamp", "TP1", "H"), fed("pilot", "TP2", "G")), id="of a lamp alone"
        ),
        pytest.param((two_pin("NT1", "G", "H"), fed("esc", "TP1", "H"), fed("pilot", "TP2", "G"), *SIGNAL), id="a tie"),
    ],
)
def test_in_a_minus_that_nothing_goes_around_it_is_quiet(symbols):
    assert not findings_of(switch_bypassed, PACK, *symbols)


def test_a_part_without_a_word_behind_a_fuse_is_something_connected():
    regulator = plug("U1", {"1": "Q", "2": "G"}, lib_id="Own:U", names={"1": "VI", "2": "GND"})
    assert not findings_of(switch_bypassed, PACK, two_pin("F1", "P", "Q"), regulator)
