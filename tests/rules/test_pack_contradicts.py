"""The craft file's battery against the drawing's packs.  Logic; the 5 % between packs is common practice, no source."""

from __future__ import annotations

from crafts.craft_kit import captive, pads
from crafts.finding_kit import findings_of, rules
from tabside.model.craft import CraftSettings
from tabside.model.roles import Volts
from tabside.rules.pack_contradicts import pack_contradicts

FOUR, SIX = CraftSettings(battery=Volts(12.0, 16.8)), CraftSettings(battery=Volts(18.0, 25.2))


def told(gives, settings, *more):
    return findings_of(
        pack_contradicts,
        captive("X1", "A G", board="pack", signals="BAT+, BAT-", gives=gives),
        pads("TP1", "A G", board="driver", signals="VBAT, GND"),
        *more,
        settings=settings,
    )


def test_another_number_of_cells():
    assert rules(told("6S 60A", FOUR)) == ["fields-contradict"]


def test_quiet_for_the_same_cells_and_where_nothing_is_said():
    assert not told("4S 60A", FOUR) and not told("VBAT 60A", FOUR) and not told("6S 60A", None)


def test_packs_in_series_are_one_battery():
    assert not findings_of(
        pack_contradicts,
        captive("X1", "M G", board="lower", signals="BAT+, BAT-", gives="3S 60A"),
        captive("X2", "A M", board="upper", signals="BAT+, BAT-", gives="3S 60A"),
        pads("TP1", "A G", board="driver", signals="VBAT, GND"),
        settings=SIX,
    )


def beside_a_pack(plus, minus, gives, *there):
    return findings_of(
        pack_contradicts,
        captive("X1", "A G", board="pack", signals="BAT+, BAT-", gives="4S 60A"),
        pads("TP1", "A G", board="driver", signals="VBAT, GND"),
        captive("X2", "P Q", board="other", signals=f"{plus}, {minus}", gives=gives),
        pads("TP2", "P Q", board="load", signals=", ".join(there)),
        settings=FOUR,
    )


def test_a_panel_or_regulator_beside_the_pack_is_none():
    assert not beside_a_pack("+", "-", "1:18V 2A", "PV+", "PV-")
    assert not beside_a_pack("+", "-", "1:5V 3A", "5V", "GND")


def test_a_second_pack_is_one_by_its_name_or_by_the_contact_it_feeds():
    assert rules(beside_a_pack("BAT+", "BAT-", "6S 60A", "VIN", "GND")) == ["fields-contradict"]
    assert rules(beside_a_pack("+", "-", "1:22.2V 60A", "VBAT", "GND")) == ["fields-contradict"]
