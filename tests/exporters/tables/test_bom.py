"""The rows of the BOM: lines of the same part are one."""

from types import SimpleNamespace

import pytest

from tabside.make.buy.purchase import Purchase
from tabside_exporters.tables.bom import bom


def rows(*purchases):
    return list(bom(SimpleNamespace(purchases=purchases)))


def cable(place, **other):
    return Purchase(**({"item": "ready-made cable", "family": "jst_gh", "ways": 6, "used_for": (place,)} | other))


def test_lines_of_the_same_part_are_one_with_their_sums():
    (row,) = rows(cable("C1"), cable("C2", quantity=2))
    assert (row["quantity"], row["to_buy"], row["used_for"]) == (3, 3, "C1, C2")
    assert (row["family"], row["ways"], row["in_stock"]) == ("JST GH", 6, 0)


def test_a_number_that_is_not_known_makes_the_sum_not_known():
    (row,) = rows(cable("C1"), cable("C2", quantity=None))
    assert row["quantity"] is None and row["to_buy"] is None and row["used_for"] == "C1, C2"


def test_lines_that_draw_on_one_stock_count_it_once():
    (row,) = rows(cable("C1", in_stock=1), cable("C2", in_stock=1, quantity=2))
    assert (row["quantity"], row["in_stock"], row["to_buy"]) == (3, 1, 2)


def test_what_comes_with_kits_is_a_sum():
    (row,) = rows(cable("C1", in_kits=1), cable("C2", quantity=2, in_kits=1))
    assert row["to_buy"] == 1


@pytest.mark.parametrize(
    "other",
    [{"ways": 4}, {"ways": None}, {"family": None}, {"family": ""}, {"note": "x"}, {"unit": "mm"}, {"colour": None}],
)
def test_lines_that_differ_stay_apart_in_their_order(other):
    first, second = rows(cable("C1"), cable("C2", **other))
    assert (first["used_for"], second["used_for"]) == ("C1", "C2")
    assert all(second[name] == value for name, value in other.items())


def test_no_lines_no_rows():
    assert rows() == []
