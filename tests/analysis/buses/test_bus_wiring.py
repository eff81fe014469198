"""Limits of bus wiring against the worked examples of their sources."""

from __future__ import annotations

import math

import pytest

from tabside.analysis.buses.bus_wiring import (
    I2C_MOST_PF,
    RISE_FACTOR,
    i2c_pf,
    largest_pull_up_ohm,
    longest_can_stub_m,
    longest_rs485_stub_m,
    read_ohm,
    smallest_pull_up_ohm,
)


def test_the_rise_from_three_to_seven_tenths():
    # NXP UM10204 rev 5 section 7.1 (read): t = 0.8473 R C; that is ln(0.7 / 0.3).
    assert pytest.approx(math.log(0.7 / 0.3), abs=0.0001) == RISE_FACTOR == 0.8473


def test_the_largest_and_the_smallest_pull_up():
    # A maker's note, worked example (read): 300 ns and 100 pF give 3541 ohm; 5 V, 0.4 V and 3 mA give 1533 ohm.
    assert largest_pull_up_ohm(300e-9, 100e-12) == pytest.approx(3541, abs=2)
    assert smallest_pull_up_ohm(5.0) == pytest.approx(1533, abs=1)


def test_four_devices_leave_3_2_metres_of_cable():
    # The same note: 20 pF a device, up to 100 pF a metre of cable; 400 pF by UM10204.
    assert i2c_pf(4, 3.2, 100.0) == pytest.approx(I2C_MOST_PF)


def test_the_longest_stubs():
    # CAN: CiA 301 V4.2.0 as quoted in a glossary: 50 ns, 5 ns/m: 1.67 m.  RS-485: TI THVD2450 data sheet, "Stub
    # length" (read): 50 ns at 0.2 m/ns, there and back within a tenth: 0.5 m; one way it would be 1.0 m.
    assert longest_can_stub_m() == pytest.approx(1.67, abs=0.01)
    assert longest_rs485_stub_m() == pytest.approx(0.5)
    # Drop lines of a field bus at 500 kbit/s, maker's page, grade B: each below 6 m; ours are shorter.
    assert longest_can_stub_m() < 6


def test_two_terminators_of_120_ohm_are_60_between_the_lines():
    # Public flight-bus page: one plug 120 ohm, 60 ohm on the bus (grade B, and arithmetic).
    assert 1 / (1 / 120 + 1 / 120) == 60


@pytest.mark.parametrize(
    ("text", "ohm"),
    [
        ("4k7", 4700.0),
        ("4.7k", 4700.0),
        ("120R", 120.0),
        ("120 1206", 120.0),
        ("0,1 2512", 0.1),
        ("10,0 0603", 10.0),
        ("4,7k5", None),
        ("1,2R3", None),
        ("1 kohm", 1000.0),
        ("2200", 2200.0),
        ("1M", 1e6),
        ("4,7k", 4700.0),
        ("10k 1%", 10000.0),
        ("4R7", 4.7),
        ("R100", 0.1),
        ("0R1", 0.1),
        ("100m", 0.1),  # a small m is milli, a large M mega: the SI's prefixes
        ("100 mΩ", 0.1),
        ("4m7", 0.0047),
        ("5L0", 0.005),
        ("100M", 1e8),
        ("1Meg", 1e6),
        ("1M0", 1e6),
        ("DNP", None),
        ("", None),
    ],
)
def test_values_of_resistors(text, ohm):
    assert read_ohm(text) == ohm
