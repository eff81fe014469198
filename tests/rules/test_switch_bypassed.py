"""Switches and fuses with one name on both sides.  Source: logic."""

from __future__ import annotations

import pytest

from crafts.craft_kit import plug, two_pin
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
