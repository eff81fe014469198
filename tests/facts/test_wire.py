"""Sizes of wire against published figures."""

from __future__ import annotations

import pytest

from tabside.facts.wire import (
    awg_area_mm2,
    awg_diameter_mm,
    awg_ohm_per_m,
    awg_within,
    gauge_text,
    stranded_ohm_per_m,
    wire_sizes,
)


@pytest.mark.parametrize(
    ("awg", "diameter_mm"),
    [(36, 0.1270), (-3, 11.684), (24, 0.5106), (10, 2.5882)],  # ASTM B258: AWG 36 is 0.005 in, 4/0 is 0.4600 in
)
def test_diameters_are_those_of_the_standard(awg, diameter_mm):
    assert awg_diameter_mm(awg) == pytest.approx(diameter_mm, abs=0.0005)


def test_thirty_nine_steps_are_a_ratio_of_92():
    # ASTM B258: the ratio of 4/0 to 36 over 39 steps.
    assert awg_diameter_mm(-3) / awg_diameter_mm(36) == pytest.approx(92.0, rel=1e-12)


def test_three_steps_double_the_area_within_a_hundredth():
    assert awg_area_mm2(20) / awg_area_mm2(23) == pytest.approx(2.0, rel=0.01)


@pytest.mark.parametrize(
    ("awg", "ohm_per_foot"),
    # Typed from the wire resistance table of a maker of cable testers, grade B.
    [
        (12, 0.001588),
        (14, 0.002525),
        (18, 0.00639),
        (20, 0.01015),
        (24, 0.02567),
        (26, 0.04081),
        (28, 0.0649),
        (30, 0.1032),
    ],
)
def test_resistances_agree_with_a_published_table(awg, ohm_per_foot):
    assert awg_ohm_per_m(awg) * 0.3048 == pytest.approx(ohm_per_foot, rel=0.002)


def test_awg_10_is_3_277_ohm_per_kilometre():
    assert awg_ohm_per_m(10) * 1000 == pytest.approx(3.277, abs=0.001)


def test_copper_at_105_degrees_has_1_334_times_its_resistance_at_20():
    # FAA AC 43.13-1B, chapter 11: (234.5 + 105) / 254.5.
    assert awg_ohm_per_m(24, 105.0) / awg_ohm_per_m(24) == pytest.approx(1.334, abs=0.001)


def test_the_table_holds_what_the_formula_gives():
    for awg, size in wire_sizes().items():
        assert size.diameter_mm == pytest.approx(awg_diameter_mm(awg), rel=0.001)
        assert size.area_mm2 == pytest.approx(awg_area_mm2(awg), rel=0.001)
        assert size.ohm_per_km_20c == pytest.approx(awg_ohm_per_m(awg) * 1000, rel=0.001)


def test_a_gauge_is_written_as_the_trade_does():
    assert [gauge_text(awg) for awg in (28, 1, 0, -3)] == ["28", "1", "1/0", "4/0"]


@pytest.mark.parametrize(
    ("area_mm2", "plain", "tinned"),
    # IEC 60228, class 5, ohm per km at 20 °C, as three pages of the cable trade print it.
    [
        (0.5, 39.0, 40.1),
        (0.75, 26.0, 26.7),
        (1.0, 19.5, 20.0),
        (1.5, 13.3, 13.7),
        (2.5, 7.98, 8.21),
        (4, 4.95, 5.09),
        (6, 3.30, 3.39),
        (10, 1.91, 1.95),
        (16, 1.21, 1.24),
        (25, 0.780, 0.795),
        (35, 0.554, 0.565),
        (50, 0.386, 0.393),
    ],
)
def test_copper_of_our_formula_keeps_the_standard_for_flexible_metric_sizes(area_mm2, plain, tinned):
    """It allows no less than solid copper has, and a quarter more at most."""
    ohm_per_km = awg_ohm_per_m(20) * 1000 * awg_area_mm2(20) / area_mm2
    assert ohm_per_km < plain < tinned < ohm_per_km * 1.25


@pytest.mark.parametrize(
    ("volts", "share", "amps", "feet", "awg"),
    # Boat builders' rule ABYC E-11 as catalogues print it: 10 A over 21 ft out and back at 12 V: 12 AWG for 3 %,
    # 16 AWG for 10 %.
    [(12.0, 0.03, 10.0, 21.0, 12), (12.0, 0.10, 10.0, 21.0, 16)],
)
def test_the_thinnest_even_size_that_holds_a_drop_is_that_of_the_boat_builders_rule(volts, share, amps, feet, awg):
    even = [size for size in range(30, 3, -2) if awg_ohm_per_m(size) * feet * 0.3048 * amps <= volts * share]
    assert even[0] == awg


# FAA AC 43.13-1B Table 11-9 (read in the document): tinned stranded copper, at most ohm per 1000 ft at 20 °C.
TABLE_11_9 = {
    24: 28.40,
    22: 16.20,
    20: 9.88,
    18: 6.23,
    16: 4.81,
    14: 3.06,
    12: 2.02,
    10: 1.26,
    8: 0.70,
    6: 0.44,
    4: 0.28,
}


@pytest.mark.parametrize(("awg", "ohm"), TABLE_11_9.items())
def test_tinned_stranded_wire_has_the_resistance_of_the_table(awg, ohm):
    assert stranded_ohm_per_m(awg) * 304.8 == pytest.approx(ohm, rel=1e-3)


@pytest.mark.parametrize("awg", [26, 28, 30, 32])
def test_thinner_wire_differs_from_solid_as_the_thinnest_printed_size_does(awg):
    assert stranded_ohm_per_m(awg) / awg_ohm_per_m(awg) == pytest.approx(28.40 / 304.8 / awg_ohm_per_m(24))


def test_a_size_between_two_printed_ones_takes_the_worse():
    assert stranded_ohm_per_m(13) / awg_ohm_per_m(13) == pytest.approx(2.02 / 304.8 / awg_ohm_per_m(12))


def test_the_longest_run_at_a_hotter_conductor():
    # FAA AC 43.13-1B par. 11-66: L2 = 254.5 L1 / (234.5 + T2); 107 ft at 20 °C are 80.2 ft at 105 °C.
    assert 107 * stranded_ohm_per_m(20) / stranded_ohm_per_m(20, 105.0) == pytest.approx(80.2, abs=0.1)


@pytest.mark.parametrize("awg", range(0, 41))
def test_the_area_of_a_size_is_that_size_and_a_little_less_the_next_thinner(awg):
    assert awg_within(awg_area_mm2(awg)) == awg
    assert awg_within(awg_area_mm2(awg) * 0.98) == (awg + 1 if awg < 40 else None)


@pytest.mark.parametrize("area", [0.05, 0.14, 0.25, 0.34, 0.5, 0.75, 1, 1.5, 2.5, 4, 6, 10, 16, 25, 35, 50])
def test_a_metric_size_is_never_read_as_more_copper_than_it_has(area):
    awg = awg_within(area)
    assert awg is not None and awg_area_mm2(awg) <= 1.015 * area < 1.015 * awg_area_mm2(awg) * 1.27


def test_areas_beyond_the_sizes_are_none():
    assert awg_within(0.001) is None and awg_within(500) is None
