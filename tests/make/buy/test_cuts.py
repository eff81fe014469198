"""What is cut.  Sums and orders are worked out by hand beside each case."""

import pytest
from msgspec.structs import replace

from crafts.craft_kit import pads, plug
from crafts.small_craft import CAMERA, GROUND, LIGHT, PACK, RADIO, marks, small_craft
from tabside.documents.build import craft_build
from tabside.make.buy.cuts import cut_groups
from tabside.model.craft import CraftSettings
from tabside.model.stock import Costs, Cutting, StockLead
from tabside.rules import check_craft
from tabside.words.lengths import tenths_up

NOTHING_MORE = Cutting(strip_mm=0.0, again_mm=0.0)


def cuts(craft, cutting=NOTHING_MORE):
    """Nothing ready-made is on sale; unless said, nothing is added for soldered ends (SH and GH: 1.5 mm)."""
    settings = replace(craft.settings, costs=Costs(buy_ready=False), cutting=cutting)
    craft = replace(craft, settings=settings)
    return craft_build(craft, check_craft(craft)).cuts


def test_pieces_come_by_gauge_the_thickest_first_then_colour_then_the_longest_first():
    craft = small_craft(
        *RADIO,
        *LIGHT,
        leads={
            "J1:1 - J3:1": {"gauge_awg": 28, "colour": "RD", "length_mm": 85.0},
            "J1:2 - J3:3": {"gauge_awg": 28, "colour": "RD", "length_mm": 90.0},
            "J1:3 - J3:2": {"gauge_awg": 28, "colour": None, "length_mm": 85.0},
            "J1:4 - J3:4": {"gauge_awg": None, "colour": "BK", "length_mm": 10.0},
            "J5:1 - P2:1": {"gauge_awg": 26, "colour": "BK", "length_mm": 40.0},
            "J5:2 - P2:2": {"gauge_awg": 28, "colour": "BK", "length_mm": None},
        },
    )
    mark = marks(craft)
    assert [(piece.gauge_awg, piece.colour, piece.cut_length_mm, piece.lead) for piece in cuts(craft)] == [
        (26, "BK", 41.5, mark["J5:1 - P2:1"]),
        (28, "BK", None, mark["J5:2 - P2:2"]),
        (28, "GN", 88.0, mark["J1:3 - J3:2"]),  # no colour drawn: the usual one of RX
        (28, "RD", 93.0, mark["J1:2 - J3:3"]),
        (28, "RD", 88.0, mark["J1:1 - J3:1"]),
        (None, "BK", 13.0, mark["J1:4 - J3:4"]),
    ]


def test_a_length_that_is_not_known_is_counted_apart_and_never_as_nought():
    craft = small_craft(
        *RADIO,
        leads={
            "*": {"gauge_awg": 28, "colour": "BK"},
            "J1:1 - J3:1": {"length_mm": 85.5},
            "J1:2 - J3:3": {"length_mm": 20.25},
            "J1:3 - J3:2": {"length_mm": None},
            "J1:4 - J3:4": {"length_mm": None},
        },
    )
    (group,) = cut_groups(cuts(craft))
    assert (len(group.pieces), group.total_mm, group.not_known) == (4, 111.75, 2)


def test_a_group_without_any_known_length_has_no_total():
    craft = small_craft(*LIGHT, leads={"*": {"length_mm": None}})
    (group,) = cut_groups(cuts(craft))
    assert (group.total_mm, group.not_known) == (None, 2)


def test_leads_of_captive_parts_are_not_cut():
    assert cuts(small_craft(*CAMERA, *PACK, *GROUND)) == ()


def test_ready_made_cables_are_not_cut():
    craft = small_craft(plug("J1", "A B", board="a", family="U.FL"), plug("J2", "A B", board="b", family="U.FL"))
    assert len(craft.leads) == 2 and cuts(craft) == ()


def test_strip_lengths_are_not_known_where_the_tables_have_none():
    """GH 1.5 mm (open flight-bus cable page, quoted); none was found for ZH, EH, VH, PicoBlade, DF13, nor for a pad."""
    (first, _) = cuts(small_craft(*LIGHT))
    assert (first.strip_from, first.strip_to) == ("1.5", "not known")
    (other,) = cuts(small_craft(plug("J1", "A", board="a", family="JST ZH"), pads("P1", "A", board="b")))
    assert (other.strip_from, other.strip_to) == ("not known", "not known")


def test_an_insulation_displacement_plug_is_not_stripped():
    craft = small_craft(plug("J1", "A", board="a", family="JST SR"), pads("P1", "A", board="b"))
    (piece,) = cuts(craft)
    assert (piece.strip_from, piece.strip_to) == ("none", "not known")


def test_a_pre_crimped_lead_of_the_stock_is_cut_for_a_lead_with_one_plug():
    piece = StockLead(("jst_gh", "jst_gh"), 150.0, 28, "RD", 1)
    settings = CraftSettings(stock_leads=(piece,), costs=Costs(buy_ready=False), cutting=NOTHING_MORE)
    craft = small_craft(
        *LIGHT,
        settings=settings,
        leads={"*": {"gauge_awg": 28, "colour": "RD"}, "J5:1 - P2:1": {"length_mm": 95.5}},
    )
    mark = marks(craft)
    by_lead = {piece.lead: piece for piece in craft_build(craft, check_craft(craft)).cuts}
    taken = by_lead[mark["J5:1 - P2:1"]]
    assert (taken.taken_from, taken.offcut_mm) == (
        "a pre-crimped lead (JST GH both ends, 150 mm, 28 AWG, RD, from stock)",
        54.5,
    )
    assert (taken.strip_from, taken.strip_to) == ("none", "not known")
    other = by_lead[mark["J5:2 - P2:2"]]
    assert (other.taken_from, other.offcut_mm) == ("new wire", None)


def test_each_end_that_is_made_here_is_given_its_strip_length_and_a_second_try():
    """GH takes 1.5 mm by the table; a pad takes the usual length."""
    crimped = small_craft(*RADIO, leads={"*": {"gauge_awg": 28, "length_mm": 100.0}})
    assert {(each.cut_length_mm, each.allowance_mm) for each in cuts(crimped, Cutting(2.5, 4.0))} == {(111.0, 11.0)}
    soldered = small_craft(*LIGHT, leads={"*": {"gauge_awg": 28, "length_mm": 100.0}})
    assert {each.cut_length_mm for each in cuts(soldered, Cutting(0.5, 1.0))} == {104.0}


def test_an_end_that_has_its_contact_takes_nothing():
    piece = StockLead(("jst_gh", "jst_gh"), 150.0, 28, None, 2)
    settings = CraftSettings(stock_leads=(piece,), costs=Costs(buy_ready=False), cutting=Cutting(2.0, 5.0))
    craft = small_craft(*LIGHT, settings=settings, leads={"*": {"gauge_awg": 28, "length_mm": 70.0, "colour": None}})
    plan = craft_build(craft, check_craft(craft)).plan
    assert [(each.cut_length_mm, each.allowance_mm) for each in plan.cuts] == [(77.0, 7.0)] * 2
    # Twice 70 mm would fit into one lead of 150 mm, twice 77 mm do not.
    assert [(each.length_mm, len(each.pieces), each.offcut_mm) for each in plan.stock_cuts] == [(150.0, 1, 73.0)] * 2


@pytest.mark.parametrize(
    ("length", "written"),
    [(85.0, 85.0), (85.04, 85.1), (85.1, 85.1), (0.1 + 0.2, 0.3), (1e-9, 0.0), (None, None)],
)
def test_a_length_is_never_rounded_down(length, written):
    assert tenths_up(length) == written
