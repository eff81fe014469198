"""Cables that are kept for a place: lengths are worked out by hand beside each case."""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from crafts.craft_kit import plug
from crafts.finding_kit import findings_of
from crafts.small_craft import small_craft
from tabside.model.craft import CraftSettings
from tabside.model.findings import Severity
from tabside.model.stock import Costs, StockCable
from tabside.rules import check_craft
from tabside.rules.slack import slack

SYMBOLS = (
    plug("J1", "V G", board="pilot", family="JST SH", signals="5V GND"),
    plug("J2", "V G", board="radio", family="JST SH", signals="5V GND"),
)


def kept(length_mm, ends=(("jst_sh", 2), ("jst_sh", 2)), reserved=("J1", "J2")):
    return StockCable("spare", ends, ((1, 1), (2, 2)), "straight", length_mm, 1, reserved=reserved)


def found(cable, path_mm=100.0, symbols=SYMBOLS, **settings):
    stock = CraftSettings(stock_cables=(cable,), lengths_mm={("J1", "J2"): path_mm} if path_mm else {}, **settings)
    return [(finding.rule, finding.severity) for finding in findings_of(slack, *symbols, settings=stock)]


@pytest.mark.parametrize(
    ("length_mm", "path_mm", "severity"),
    [
        pytest.param(100.0, 100.0, None, id="just as long"),
        pytest.param(99.0, 100.0, Severity.ERROR, id="1 mm too short"),
        pytest.param(250.0, 100.0, None, id="the usual limit of 150 mm more"),
        pytest.param(251.0, 100.0, Severity.NOTE, id="1 mm beyond it"),
        pytest.param(None, 100.0, None, id="its length is not known"),
        pytest.param(50.0, None, None, id="the path is not known"),
    ],
)
def test_a_kept_cable_against_its_path(length_mm, path_mm, severity):
    expected = [] if severity is None else [("slack", severity)]
    assert found(kept(length_mm), path_mm) == expected


def test_the_limit_can_be_set():
    assert found(kept(120.0), costs=Costs(slack_limit_mm=10.0)) == [("slack", Severity.NOTE)]


def test_a_cable_that_is_kept_for_no_place_is_the_plan_s_affair():
    assert found(kept(10.0, reserved=None)) == []


def test_other_plugs_are_told_and_turned_ones_fit():
    assert found(kept(100.0, (("jst_gh", 2), ("jst_sh", 2)))) == [("slack", Severity.WARNING)]
    assert found(kept(100.0, (("jst_sh", 3), ("jst_sh", 2)))) == [("slack", Severity.WARNING)]
    mixed = (SYMBOLS[0], replace_family(SYMBOLS[1], "JST GH"))
    assert found(kept(100.0, (("jst_gh", 2), ("jst_sh", 2))), symbols=mixed) == []


def replace_family(symbol, family):
    return plug("J2", "V G", board="radio", family=family, signals="5V GND") if symbol else symbol


def test_a_place_without_leads_is_told():
    other = plug("J3", "V G", board="lamp", family="JST SH", signals="5V GND")
    assert found(kept(100.0, reserved=("J1", "J3")), symbols=(*SYMBOLS, other)) == [("slack", Severity.WARNING)]


def test_the_whole_check_says_it_as_an_error():
    settings = CraftSettings(stock_cables=(kept(60.0),), lengths_mm={("J1", "J2"): 100.0})
    craft = small_craft(*SYMBOLS, settings=settings)
    told = [f for f in check_craft(craft).findings if f.rule == "slack"]
    assert [f.severity for f in told] == [Severity.ERROR]
    assert '"spare"' in told[0].message and "40.0 mm too short" in told[0].message
    longer = replace(craft, settings=replace(settings, stock_cables=(kept(100.0),)))
    assert not [f for f in check_craft(longer).findings if f.rule == "slack"]
