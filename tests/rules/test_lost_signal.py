"""Ends whose one signal hangs in the air.  Common practice, no source."""

from __future__ import annotations

from crafts.craft_kit import pads, plug, power
from crafts.finding_kit import at, findings_of, rules
from tabside.rules.lost_signal import lost_signal


def camera(near, far, **more):
    return (
        plug("J1", f"GND {near} +12V", board="pilot", family="JST GH", signals="GND, CAM, 12V"),
        plug("J2", f"GND {far} +12V", board="camera", family="JST ZH", signals="GND, VIDEO, 12V", **more),
        pads("TP1", "GND +12V", board="regulator", signals="GND, 12V", leads_max=12),
        power("GND"),
        power("+12V"),
    )


def test_a_dropped_signal_is_told_though_supply_and_ground_run_elsewhere():
    found = findings_of(lost_signal, *camera("-", "-"))
    assert rules(found) == ["not-connected"]
    assert at(found[0]) == {"J1:2", "J2:2"}


def test_quiet_when_it_is_joined_or_flagged():
    assert not findings_of(lost_signal, *camera("V", "V"))
    assert not findings_of(lost_signal, *camera("-", "-", flagged=["2"]))


def test_quiet_when_several_contacts_would_suit():
    spare = pads("TP2", "- GND", board="transmitter", signals="VIDEO, GND")
    more = pads("TP3", "- GND", board="recorder", signals="VIDEO, GND")
    assert not findings_of(lost_signal, *camera("-", "-"), spare, more)


def lights(near, far):
    return (
        plug("J1", f"GND {near} +5V", board="pilot", family="JST GH", signals="GND, LED, 5V"),
        plug("J2", f"GND {far} +5V", board="lights", family="JST ZH", signals="GND, DIN, 5V"),
        pads("TP1", "GND +5V", board="regulator", signals="GND, 5V", leads_max=12),
        power("GND"),
        power("+5V"),
    )


def test_a_name_of_few_readings_meets_the_one_contact_that_suits():
    found = findings_of(lost_signal, *lights("-", "-"))
    assert [at(each) for each in found] == [{"J1:2", "J2:2"}]
    assert not findings_of(lost_signal, *lights("L", "L"))


def test_quiet_when_another_reading_would_suit_too():
    spare = plug("J5", "- - GND", board="radio", signals="TX3, RX3, GND")
    assert not findings_of(lost_signal, *lights("-", "-"), spare)


def test_quiet_for_a_name_that_may_be_anything():
    assert not findings_of(
        lost_signal,
        pads("TP1", "+5V - GND", board="pilot", signals="5V, RSSI, GND"),
        plug("J2", "+5V - GND", board="thing", signals="5V, SIG, GND"),
        pads("TP3", "GND +5V", board="regulator", signals="GND, 5V", leads_max=12),
        power("GND"),
        power("+5V"),
    )


def test_quiet_between_ends_of_which_nothing_is_connected():
    """Nobody meant to use them."""
    assert not findings_of(
        lost_signal,
        plug("J1", "- - -", board="pilot", family="JST GH", signals="GND, CAM, 12V"),
        plug("J2", "- - -", board="camera", family="JST ZH", signals="GND, VIDEO, 12V"),
    )
