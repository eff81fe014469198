"""Rails that the drawing writes on the wire, against the contacts there.  Logic; no number of its own."""

from __future__ import annotations

from crafts.craft_kit import captive, plug, power
from crafts.finding_kit import at, findings_of, rules
from tabside.model.craft import CraftSettings
from tabside.model.roles import Volts
from tabside.rules.net_name import net_name


def joined(first, second, net="N", **more):
    return findings_of(
        net_name,
        plug("J1", [net, "GND"], board="hub", signals=f"{first}, GND"),
        plug("J2", [net, "GND"], board="node", signals=f"{second}, GND", **more.pop("fields", {})),
        power("GND"),
        **more,
    )


def test_a_power_symbol_on_a_contact_for_less():
    found = joined("VOUT", "5V", labels={"N": ["+12V"]})
    assert rules(found) == ["over-voltage"] or rules(found) == ["role-clash"]
    assert at(found[0]) == {"J2:1"}


def test_two_rails_named_on_one_net():
    found = joined("VCC", "VIN", labels={"N": ["+5V", "+12V"]})
    assert "+5V" in found[0].message and "+12V" in found[0].message


def test_quiet_where_takes_admits_the_rail_or_no_volts_are_named():
    assert not joined("VOUT", "3V3", labels={"N": ["+5V"]}, fields={"takes": "1:3.3-5V 0.1A"})
    assert not joined("5V", "VCC", labels={"N": ["+5V"]})
    assert not joined("SIG", "SIG", labels={"N": ["SERVO3"]})
    assert not joined("5V", "VCC", labels={"N": ["VCC"]})


def test_a_battery_of_the_lamps_volts():
    assert not findings_of(
        net_name,
        captive("X1", "N GND", board="pack", signals="BAT+, BAT-", gives="12V 7A"),
        plug("J2", "N GND", board="lamp", signals="12V, GND"),
        power("GND"),
        labels={"N": ["BAT+"]},
    )


def test_quiet_where_the_contacts_clash_already():
    assert not joined("12V", "5V", labels={"N": ["+12V"]})


def test_a_board_that_states_the_usual_volts_of_the_pack_it_passes_on():
    # 14.8 V is what a pack of four cells goes by; the name on the wire is the contact's own
    fields = {"gives": "1:14.8V 40A"}
    settings = CraftSettings(battery=Volts(12.0, 16.8))
    for name in ("VBAT", "BAT+", "VB"):
        assert not joined("VBAT", "VBAT", labels={"N": [name]}, fields=fields, settings=settings)
    assert joined("VCC", "5V", labels={"N": ["VBAT"]}, settings=settings)
