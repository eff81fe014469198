"""Sizes of wire against published figures."""

from __future__ import annotations

import pytest

from tabside.facts.wire import awg_area_mm2, awg_diameter_mm, awg_ohm_per_m, gauge_text, read_gauge, wire_sizes


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
    [(12, 0.001588), (14, 0.002525), (18, 0.00639), (20, 0.01015), (24, 0.02567),
     (26, 0.04081), (28, 0.0649), (30, 0.1032)],
)  # fmt: skip
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


@pytest.mark.parametrize(
    ("text", "awg"),
    [("28", 28), ("AWG 28", 28), ("28awg", 28), (" 22 AWG ", 22), ("AWG#20", 20), ("4/0", -3), ("1/0", 0), ("0", 0),
     ("00", -1), ("0000", -3)],
)  # fmt: skip
def test_a_gauge_is_read(text, awg):
    assert read_gauge(text) == awg


@pytest.mark.parametrize("text", ["", "AWG", "0.25 mm²", "28-30", "5/0", "100", "-1", "thick"])
def test_what_is_no_gauge_is_none(text):
    assert read_gauge(text) is None


def test_a_gauge_is_written_as_the_trade_does():
    assert [gauge_text(awg) for awg in (28, 1, 0, -3)] == ["28", "1", "1/0", "4/0"]
