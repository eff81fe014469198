"""What the drawing's own text says of lines that no table decides: lines in pairs, and the legs of lights.

How makers print the lines of RS-422 and RS-485 is common practice, no source; the rest is logic.
"""

from __future__ import annotations

import pytest

from crafts.craft_kit import captive, plug
from crafts.finding_kit import alarms, all_findings


def two(first, second, nets="A B C D G", others="A B C D G"):
    return (
        plug("J1", nets, board="sonar", family="JST GH", signals=first),
        plug("J2", others, board="log", family="JST GH", signals=second),
    )


PAIRS = [
    pytest.param("TXD_A, TXD_B, RXD_A, RXD_B, GND", "RXD_A, RXD_B, TXD_A, TXD_B, GND", id="TXD_A"),
    pytest.param("TDA, TDB, RDA, RDB, GND", "RDA, RDB, TDA, TDB, GND", id="TDA"),
    pytest.param("Y, Z, A, B, GND", "A, B, Y, Z, GND", id="Y and Z"),
    pytest.param("TX_P, TX_N, RX_P, RX_N, GND", "RX_P, RX_N, TX_P, TX_N, GND", id="P and N"),
    pytest.param(
        "NMEA_OUT_A, NMEA_OUT_B, NMEA_IN_A, NMEA_IN_B, GND",
        "NMEA_IN_A, NMEA_IN_B, NMEA_OUT_A, NMEA_OUT_B, GND",
        id="a talker and its listener",
    ),
]


@pytest.mark.parametrize(("first", "second"), PAIRS)
def test_pairs_that_run_straight_are_quiet(first, second):
    assert not alarms(all_findings(*two(first, second)))


@pytest.mark.parametrize(("first", "second"), PAIRS)
def test_a_pair_that_is_crossed_is_told(first, second):
    (said,) = alarms(all_findings(*two(first, second, others="B A C D G")))
    assert said.startswith("warning role-clash") and "crossed" in said


@pytest.mark.parametrize("names", ["TDA, TDB, RDA, RDB, GND", "NMEA OUT, NMEA IN, X, Y1, GND"])
def test_outputs_on_outputs_are_told(names):
    assert any(said.startswith("error") for said in alarms(all_findings(*two(names, names))))


def lamp(first, second, nets="A K"):
    return plug("J1", "A K", board="driver", signals=first), captive("X1", nets, board="lamp", signals=second)


@pytest.mark.parametrize(
    ("first", "second", "severity"),
    [
        ("Anode, Cathode", "Anode, Cathode", "error"),
        ("A, K", "LED_A, LED_K", "error"),
        ("LED+, LED-", "A, K", "warning"),
    ],
)
def test_the_legs_of_a_light(first, second, severity):
    assert not alarms(all_findings(*lamp(first, second)))
    (said,) = alarms(all_findings(*lamp(first, second, "K A")))
    assert said.startswith(severity)


def test_one_light_after_the_other_is_no_crossing():
    chain = (
        captive("X1", "A M", board="red", signals="A, K"),
        captive("X2", "M K", board="green", signals="A, K"),
        plug("J1", "A K", board="driver", signals="LED+, LED-"),
    )
    assert not alarms(all_findings(*chain))
