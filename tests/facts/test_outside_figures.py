"""The tables of wire and of currents against figures that others publish; the source stands beside each."""

from __future__ import annotations

import math

import pytest

from tabside.analysis.current.wire_limits import wire_limit
from tabside.facts import families
from tabside.facts.ampacity import ampacity, usable_tables
from tabside.facts.wire import awg_area_mm2, awg_diameter_mm, stranded_ohm_per_m
from tabside.model.craft import Limits
from tabside.words.cautions import SUPPLY_LIMIT

INCH = 25.4


def preece_a(diameter_in):
    """Fusing current of a copper wire in free air: I = 10244 d^1.5, d in inch (trade page, grade C)."""
    return 10244 * diameter_in**1.5


def onderdonk_a(area_cmil, seconds, melting_c=1083.0, ambient_c=25.0):
    """Current that melts a copper wire in so many seconds; the denominator adds 234 and the ambient temperature.

    Trade page, grade C; it prints the value with 234 - 25, a known sign error, which is not copied.
    """
    return area_cmil * math.sqrt(math.log10((melting_c - ambient_c) / (234 + ambient_c) + 1) / (33 * seconds))


@pytest.mark.parametrize(
    ("diameter_in", "amps", "within"),
    [(0.0524, 122.9, 0.5), (0.0098, 10.0, 0.15), (0.0457, 100.0, 0.2)],  # trade pages and a fuse table, grade C
)
def test_the_fusing_current_of_preece(diameter_in, amps, within):
    assert preece_a(diameter_in) == pytest.approx(amps, abs=within)


def test_the_fusing_current_of_onderdonk_has_the_right_sign():
    assert onderdonk_a(2581, 5) == pytest.approx(169, abs=1)  # 178 by the misprinted formula
    assert onderdonk_a(2581, 5) < 175


@pytest.mark.parametrize("table", usable_tables())
def test_no_table_lets_a_wire_carry_half_of_what_melts_it(table):
    for row in ampacity(table, 20).table.rows:
        diameter_in = awg_diameter_mm(row.awg) / INCH
        melts_in_5_s = onderdonk_a((diameter_in * 1000) ** 2, 5)
        assert 2 * row.amps < preece_a(diameter_in), (table, row)
        assert 2 * row.amps < melts_in_5_s, (table, row)


def test_a_bundle_is_derated_by_altitude_and_by_load():
    # FAA AC 43.13-1B CHG 1 page 11-27, example 2 (read): No. 14, 47 A, x 0.91 at 20 000 ft, x 0.6 for 8 wires at 60 %.
    assert pytest.approx(42.8, abs=0.05) == 47 * 0.91
    one, _ = wire_limit(Limits(ampacity="milw5088b_chassis"), 14)
    both, _ = wire_limit(Limits(ampacity="milw5088b_chassis", ampacity_factor=0.91 * 0.6), 14)
    assert 47 * both / one == pytest.approx(25.7, abs=0.05)  # printed 26


# USB 2.0, longest cable for the power pair by gauge (trade page, grade C): all have the same resistance one way.
@pytest.mark.parametrize(("awg", "metres"), [(28, 0.81), (26, 1.31), (24, 2.08), (22, 3.33), (20, 5.00)])
def test_the_longest_usb_cables_lose_the_same(awg, metres):
    assert stranded_ohm_per_m(awg) * metres == pytest.approx(0.19, rel=0.16)


def test_one_square_millimetre_for_eight_amperes_lies_between_the_handbooks_two_tables():
    # user guide of an autopilot, cable wiring page (read): 1 mm² per 8 A, so 3.75 mm² for 30 A.
    assert 30 / 8 == 3.75
    open_air = {row.awg: row.amps for row in ampacity("handbook_chassis", 20).table.rows}
    bundled = {row.awg: row.amps for row in ampacity("handbook_power", 20).table.rows}
    for awg in sorted(open_air.keys() & bundled.keys()):
        assert bundled[awg] < 8 * awg_area_mm2(awg) < open_air[awg]


def test_the_temperature_of_a_loaded_conductor():
    # FAA AC 43.13-1B CHG 1 par. 11-66 (symbols read; the root is from memory): T2 = T1 + (TR - T1) sqrt(I2 / Imax).
    # 70 °C, 105 °C wire, 2 A of 3 A: 98.6 °C.  Copper there has 1.31 times its resistance at 20 °C.
    hot = 70 + (105 - 70) * math.sqrt(2 / 3)
    assert hot == pytest.approx(98.6, abs=0.1)
    assert stranded_ohm_per_m(24, hot) / stranded_ohm_per_m(24) == pytest.approx((234.5 + 98.58) / 254.5, abs=0.001)


def test_what_a_bench_supply_is_limited_to_harms_neither_a_plug_nor_a_wire():
    """0.5 A itself: common practice, no source.  Held by the makers' ratings of one contact, and for the thinnest wire
    by a handbook's table (trade page, grade C) and a standard for parts in spacecraft, alone and in a bundle (C).
    """
    amps = float(SUPPLY_LIMIT.removesuffix(" A"))
    rated = [family.rating_a for family in families.all_families() if family.rating_a is not None]
    assert len(rated) > 30 and min(rated) >= amps
    for table in ("handbook_chassis", "nasa_single", "nasa_bundle"):
        assert ampacity(table, 30).amps > amps
