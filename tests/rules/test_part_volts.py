"""Loads by the volts in their Value.  Pin names are those of KiCad; a quarter is common practice, no source."""

from __future__ import annotations

import pytest

from crafts.craft_kit import captive, plug
from crafts.finding_kit import findings_of
from tabside.model.findings import Severity
from tabside.rules.part_volts import part_volts

PACK = captive("X1", "V GND", board="pack", signals="BAT+, BAT-", gives="4S 40A")
RAIL = plug("J1", "W GND", board="hub", signals="5V, GND", gives="5V 1A")


def part(reference, value, lib_id, net="V", names=("+", "-"), **more):
    return plug(reference, [net, "GND"], value=value, lib_id=lib_id, names=list(names), **more)


@pytest.mark.parametrize(
    "symbol",
    [
        pytest.param(part("M1", "5V fan", "Motor:Fan"), id="fan"),
        pytest.param(part("M1", "6V winch", "Motor:Motor_DC"), id="motor"),
        pytest.param(part("BZ1", "5V", "Device:Buzzer"), id="buzzer"),
        pytest.param(part("LA1", "lamp", "Device:Lamp", fields={"Rating": "6V"}), id="lamp by its Rating"),
        pytest.param(
            plug("K1", {"A1": "V", "A2": "GND", "11": "V", "14": "W"}, lib_id="Relay:own", value="5V coil"), id="coil"
        ),
    ],
)
def test_a_part_for_few_volts_on_the_pack(symbol):
    (found,) = findings_of(part_volts, PACK, symbol, RAIL)
    assert (found.rule, found.severity) == ("over-voltage", Severity.WARNING) and "16.8 V" in found.message


@pytest.mark.parametrize(
    "symbol",
    [
        pytest.param(part("M1", "14V fan", "Motor:Fan"), id="for this pack"),
        pytest.param(part("M1", "5V fan", "Motor:Fan", "W"), id="on a rail of its volts"),
        pytest.param(part("M1", "winch", "Motor:Motor_DC"), id="no volts"),
        pytest.param(part("M1", "6V winch", "Motor:Motor_DC", "N"), id="nothing stated feeds it"),
    ],
)
def test_quiet(symbol):
    assert not findings_of(part_volts, PACK, symbol, RAIL)


def test_then_the_verdict_is_not_decided():
    (found,) = findings_of(part_volts, PACK, part("LA1", "5V0", "Device:Lamp"))
    assert found.undecided and "5 V" in found.message
