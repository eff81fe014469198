"""Ready-made cables that fit and would clash.  The eight-pin orders: boards' pages (grade A); the rest is logic."""

from __future__ import annotations

import pytest

from crafts.craft_kit import captive, pads, plug
from crafts.finding_kit import findings_of, rules
from tabside.model.craft import CraftSettings
from tabside.model.findings import Severity
from tabside.model.stock import StockCable
from tabside.rules.cable_hazard import cable_hazard

BF = "VBAT, GND, CUR, TLM, M1, M2, M3, M4"
SPEEDY_FC = "GND, VBAT, M1, M2, M3, M4, CUR, TLM"
FLYSPARK = "TLM, CUR, M4, M3, M2, M1, VBAT, GND"


def link(near, far, nets="A B C D E F G H", far_nets="", family="JST SH"):
    return (
        plug("J1", nets, board="driver", family=family, signals=near),
        plug("J2", far_nets or nets, board="pilot", family=family, signals=far),
    )


def test_a_straight_link_has_only_the_reversed_hazard():
    found = findings_of(cable_hazard, *link(BF, BF))
    assert [(each.rule, each.severity) for each in found] == [("reversed-hazard", Severity.NOTE)]
    # Reversed between two such ends: VBAT on M4 (the boards' pages).
    assert "battery on a motor 4 signal" in found[0].message


def test_orders_that_are_each_others_reverse_have_only_the_straight_hazard():
    found = findings_of(cable_hazard, *link(FLYSPARK, SPEEDY_FC, far_nets="H G F E D C B A"))
    assert rules(found) == ["straight-hazard"]
    # Straight between them: VBAT on CUR, ground on TLM (the boards' pages); seen from either end.
    assert "battery on a current sensing input" in found[0].message


def test_a_cable_in_stock_makes_it_a_warning():
    stock = StockCable(
        "8-way leftover",
        (("jst_sh", 8), ("jst_sh", 8)),
        tuple((n, 9 - n) for n in range(1, 9)),
        "reversed",
        100,
        2,
        True,
    )
    found = findings_of(cable_hazard, *link(BF, BF), settings=CraftSettings(stock_cables=(stock,)))
    assert [(each.rule, each.severity) for each in found] == [("reversed-hazard", Severity.WARNING)]
    assert "8-way leftover" in found[0].message


def test_another_cable_in_stock_does_not():
    stock = StockCable(
        "6-way", (("jst_sh", 6), ("jst_sh", 6)), tuple((n, 7 - n) for n in range(1, 7)), "reversed", 100, 2, True
    )
    found = findings_of(cable_hazard, *link(BF, BF), settings=CraftSettings(stock_cables=(stock,)))
    assert [each.severity for each in found] == [Severity.NOTE]


def test_quiet_where_no_ready_made_cable_fits():
    assert not findings_of(
        cable_hazard,
        plug("J1", "A B", board="one", family="JST SH", signals="VBAT, GND"),
        plug("J2", "A B", board="two", family="JST GH", signals="VBAT, GND"),
        pads("TP1", "C D", board="two", signals="VBAT, GND"),
        plug("J3", "C D", board="three", family="JST SH", signals="VBAT, GND"),
    )


def test_quiet_for_a_part_with_leads_of_its_own():
    assert not findings_of(
        cable_hazard,
        captive("X1", "A B", board="pack", family="JST PH", signals="VBAT, GND"),
        plug("J1", "A B", board="pilot", family="JST PH", signals="VBAT, GND"),
    )


def test_cavities_that_the_drawing_leaves_open_count():
    # The drawing joins 1, 2, 3 and 6; a ready-made cable joins CTS to SCL as well.
    found = findings_of(
        cable_hazard,
        plug("J1", "A B C - - F", board="pilot", family="JST GH", signals="5V, TX, RX, SCL, VBAT, GND"),
        plug("J2", "A B C - - F", board="modem", family="JST GH", signals="5V, RX, TX, RTS, CTS, GND"),
    )
    straight = [each for each in found if each.rule == "straight-hazard"]
    assert straight and "battery on" in straight[0].message


def test_two_idle_inputs_that_a_cable_would_join_do_no_harm():
    found = findings_of(
        cable_hazard,
        plug("J1", "A B - F", board="pilot", family="JST GH", signals="5V, TX, RX, GND"),
        plug("J2", "A B - F", board="display", family="JST GH", signals="5V, RX, RX2, GND"),
    )
    assert "straight-hazard" not in rules(found)


def test_a_drawing_that_clashes_in_this_order_itself_is_not_told_again():
    found = findings_of(
        cable_hazard,
        plug("J1", "A B C D", board="pilot", family="JST GH", signals="5V, TX, RX, GND"),
        plug("J2", "A B C D", board="gps", family="JST GH", signals="5V, TX, RX, GND"),
    )
    assert rules(found) == ["reversed-hazard"]


@pytest.mark.parametrize("drawn", [("A B C D", "A B C"), ("A B C", "A B C D")])
def test_a_contact_that_is_not_drawn_meets_nothing(drawn):
    """A symbol of three pins on a footprint of four: reversed, contact 4 of one plug comes to 1 of the other."""
    footprint = "Connector_JST:JST_SH_SM04B-SRSS-TB_1x04-1MP_P1.00mm_Horizontal"
    far = {"A B C D": "5V, RX, TX, GND", "A B C": "5V, RX, TX"}
    near = {"A B C D": "5V, TX, RX, GND", "A B C": "5V, TX, RX"}
    found = findings_of(
        cable_hazard,
        plug("J1", drawn[0], board="one", footprint=footprint, signals=near[drawn[0]]),
        plug("J2", drawn[1], board="two", footprint=footprint, signals=far[drawn[1]]),
    )
    assert rules(found) == ["reversed-hazard"]
    assert "5V" in found[0].message
