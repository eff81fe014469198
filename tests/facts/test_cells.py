"""Volts of packs by cells, typed from the table of packs in trade guides (grade C): full 4.2 V, empty 3.0 V a cell."""

from __future__ import annotations

import pytest

from tabside.facts.cells import cell, pack_volts
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
