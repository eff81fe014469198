"""Volts of packs by cells, typed from the table of packs in trade guides (grade C): full 4.2 V, empty 3.0 V a cell."""

from __future__ import annotations

import pytest

from tabside.facts.cells import PackTextError, cell, pack_volts, read_pack, read_pack_value
from tabside.model.roles import Volts


@pytest.mark.parametrize(
    ("cells", "empty", "full"),
    [(1, 3.0, 4.2), (2, 6.0, 8.4), (3, 9.0, 12.6), (4, 12.0, 16.8), (5, 15.0, 21.0), (6, 18.0, 25.2)],
)
def test_a_pack_reaches_from_empty_to_full(cells, empty, full):
    assert pack_volts(cells) == Volts(empty, full)


def test_cells_that_are_charged_higher_reach_4_35_volts():
    assert pack_volts(4, letters="HV") == Volts(12.0, 17.4)


def test_a_range_of_cells_goes_from_the_fewest_empty_to_the_most_full():
    assert pack_volts(2, 6) == Volts(6.0, 25.2)


def test_the_usual_volts_of_a_cell():
    assert cell().nominal_v == 3.7


def test_only_volts_that_a_good_source_vouches_for_are_sure():
    """3.6 V of a lithium iron phosphate cell: Prada 2013 [B]; 2.4 V of lead: Sulzer 2019 (2.42 V) [B]."""
    for text, sure in (("6S", 25.2), ("LiFePO4 4S", 14.4), ("12V lead", 14.4), ("NiMH 10S", 0.0), ("9V", 9.0)):
        pack = read_pack(text)
        assert pack is not None
        assert pack.sure_high == pytest.approx(sure), text


@pytest.mark.parametrize(
    ("text", "most"),
    [
        ("Brick 4S 5200mAh 25C", 16.8),
        ("4S1P-14.8V", 16.8),
        ("3S_2200", 12.6),
        ("12 VDC", 14.4),
        ("LiPo 3S 11.1V XT60", 12.6),
        ("Battery_Cell", None),
        ("5000mAh", None),
    ],
)
def test_the_value_of_a_battery_symbol_is_read_beside_other_words(text, most):
    found = read_pack_value(text)
    assert (found.high if found else None) == most


@pytest.mark.parametrize("text", ["6S 12V", "4S 5S", "LTO 6S", "2x12V 14.8V"])
def test_a_value_that_means_no_one_pack_is_refused(text):
    with pytest.raises(PackTextError):
        read_pack_value(text)
