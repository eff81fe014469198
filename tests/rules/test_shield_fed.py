"""Supplies on shield and mounting pins.  MP and SH are the numbers of KiCad's connector symbols; the rest is logic."""

from __future__ import annotations

from crafts.craft_kit import captive, plug, power, two_pin
from crafts.finding_kit import findings_of
from tabside.model.findings import Severity
from tabside.rules.shield_fed import shield_fed

PACK = captive("X1", "V GND", board="pack", signals="BAT+, BAT-", gives="4S 40A")


def connector(pin, net):
    return plug("J1", {1: "a", 2: "GND", pin: net}, board="pilot", signals="TX, GND")


def test_a_shield_on_the_battery_over_a_fuse_too():
    for net, more in (("V", []), ("W", [two_pin("F1", "V", "W")])):
        (found,) = findings_of(shield_fed, PACK, connector("MP", net), *more)
        assert (found.rule, found.severity) == ("role-clash", Severity.ERROR) and "battery" in found.message


def test_a_shield_on_a_net_that_a_power_symbol_names():
    (found,) = findings_of(shield_fed, connector("SH", "+5V"), power("+5V"))
    assert '"+5V"' in found.message


def test_quiet_on_ground_on_nothing_and_on_a_signal():
    for net in ("GND", "", "a"):
        assert not findings_of(shield_fed, PACK, connector("SH", net), power("GND"))
