"""UART lines joined to their like.

TX on TX and RX on RX do not work: makers' troubleshooting page (table of role pairs); RTS and CTS: common practice.
"""

from __future__ import annotations

import pytest

from crafts.craft_kit import captive, pads, plug, power, splice, two_pin
from crafts.finding_kit import all_findings, at, findings_of, rules
from tabside.model.findings import Severity
from tabside.rules.uart_not_crossed import uart_not_crossed


def errors(*symbols):
    return [each for each in all_findings(*symbols) if each.severity is Severity.ERROR]


def test_straight_uart_is_one_error_for_the_link():
    found = errors(
        plug("J1", "V A B G", board="pilot", family="JST GH", signals="5V, TX, RX, GND"),
        plug("J2", "V A B G", board="gps", family="JST GH", signals="5V, TX, RX, GND"),
    )
    assert rules(found) == ["uart-not-crossed"]
    assert at(found[0]) == {"J1:2", "J2:2", "J1:3", "J2:3"}


def test_rts_and_cts_not_crossed():
    found = errors(
        plug("J1", "V A B C D G", board="pilot", family="JST GH", signals="5V, TX, RX, CTS, RTS, GND"),
        plug("J2", "V A B C D G", board="modem", family="JST GH", signals="5V, RX, TX, CTS, RTS, GND"),
    )
    assert rules(found) == ["uart-not-crossed"]
    assert at(found[0]) == {"J1:4", "J2:4", "J1:5", "J2:5"}


def test_one_lead_alone():
    found = errors(
        plug("J1", "A G", board="pilot", signals="TX, GND"), plug("J2", "A G", board="gps", signals="TX, GND")
    )
    assert rules(found) == ["uart-not-crossed"]


@pytest.mark.parametrize(
    ("near", "far"),
    [
        ("TX1, RX1, GND", "RX, TX, GND"),
        ("RX2, TX2, GND", "SBUS, SA, GND"),
        ("TLM, TX4, GND", "TLM, IRC, GND"),
        ("RX4, TX1, GND", "TLM, RX, GND"),
    ],
)
def test_quiet_for_crossed_and_half_duplex_lines(near, far):
    assert not findings_of(
        uart_not_crossed,
        plug("J1", "A B G", board="pilot", signals=near),
        plug("J2", "A B G", board="gps", signals=far),
    )


def test_one_driver_feeds_any_number_of_listeners():
    listeners = [pads(f"TP{n}", "A G", board=f"display {n}", signals="RX, GND") for n in (2, 3, 4)]
    assert not errors(pads("TP1", "A G", board="gps", signals="TX, GND"), *listeners, power("G"))


def test_listeners_without_a_driver():
    listeners = [pads(f"TP{n}", "A G", board=f"display {n}", signals="RX, GND") for n in (2, 3, 4)]
    found = errors(*listeners, power("G"))
    assert set(rules(found)) == {"uart-not-crossed"}


def test_two_drivers_on_one_listener():
    found = errors(
        pads("TP1", "A G", board="gps", signals="TX, GND"),
        pads("TP2", "A G", board="modem", signals="TX, GND"),
        pads("TP3", "A G", board="display", signals="RX, GND"),
        power("G"),
    )
    assert rules(found) == ["uart-not-crossed"]
    assert {"TP1:1", "TP2:1"} <= at(found[0])


def test_a_splice_and_a_series_resistor_pass_the_line_on():
    crossed = errors(
        plug("J1", "A G", board="pilot", signals="TX, GND"),
        two_pin("R1", "A", "B"),
        splice("J9", "B"),
        plug("J2", "B G", board="gps", signals="RX, GND"),
        plug("J3", "B G2", board="logger", signals="RX, GND"),
        captive("X1", "G2", board="pilot", signals="GND"),
    )
    assert not crossed
    found = errors(
        plug("J1", "A G", board="pilot", signals="TX, GND"),
        two_pin("R1", "A", "B"),
        plug("J2", "B G", board="gps", signals="TX, GND"),
    )
    assert rules(found) == ["uart-not-crossed"]


def test_several_escs_share_one_telemetry_input():
    # ESC telemetry guide: several single ESCs may be joined to one RX.
    escs = [pads(f"TP{n}", f"T M{n} G", board=f"esc {n}", signals=f"TLM, M{n}, GND") for n in (1, 2, 3)]
    pilot = pads("TP9", "T M1 M2 M3 G", board="pilot", signals="RX4, M1, M2, M3, GND")
    assert not errors(*escs, pilot, power("G"))
