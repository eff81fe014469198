"""Stock is taken only where it plainly fits.  Common practice, no source."""

from dataclasses import replace

import pytest

from craft_kit import plug
from small_craft import LIGHT, RADIO, SENSOR, marks, small_craft
from tabside.model.craft import CraftSettings, StockCable, StockLead
from tabside.plan.stock_use import use_stock

PLAIN = {"*": {"length_mm": 85.0}}  # no gauge and no colour asked for
CABLE = StockCable(
    "GH crossed", (("jst_gh", 4), ("jst_gh", 4)), ((1, 1), (2, 3), (3, 2), (4, 4)), "map", 100.0, 1, True
)
LEAD = StockLead(("jst_gh", "jst_gh"), 100.0, 28, "BK", 2)
ASKED = {"*": {"length_mm": 85.0, "gauge_awg": 28, "colour": "BK"}}


def taken(*symbols, cables=(), pieces=(), leads=PLAIN):
    craft = small_craft(*symbols, settings=CraftSettings(stock_cables=cables, stock_leads=pieces), leads=leads)
    ends = {mark: end for end, mark in marks(craft).items()}
    use = use_stock(craft)
    return {ends[mark]: from_stock.text for mark, from_stock in use.taken.items()}, use.notes


def test_a_cable_that_joins_exactly_what_is_drawn_serves_all_its_leads():
    found, notes = taken(*RADIO, cables=(CABLE,))
    assert found == dict.fromkeys(["J1:1 - J3:1", "J1:2 - J3:3", "J1:3 - J3:2", "J1:4 - J3:4"], "GH crossed")
    assert notes == ()


@pytest.mark.parametrize(
    "cable",
    [
        pytest.param(replace(CABLE, map=((1, 1), (2, 2), (3, 3), (4, 4)), map_text="straight"), id="TX on TX"),
        pytest.param(replace(CABLE, map=((1, 1), (2, 3), (3, 2))), id="a lead is missing"),
        pytest.param(replace(CABLE, ends=(("jst_gh", 5), ("jst_gh", 5))), id="other ways"),
        pytest.param(replace(CABLE, ends=(("jst_sh", 4), ("jst_gh", 4))), id="other family"),
        pytest.param(replace(CABLE, count=0), id="none left"),
    ],
)
def test_a_cable_that_differs_is_not_taken(cable):
    assert taken(*RADIO, cables=(cable,)) == ({}, ())


def test_a_cable_with_a_lead_too_many_is_not_taken():
    """Its extra lead would join contacts that the drawing keeps apart."""
    cable = StockCable("SH", (("jst_gh", 2), ("jst_gh", 2)), ((1, 1), (2, 2)), "straight", 100.0, 1, True)
    ends = (plug("J1", "A X", board="a", family="JST GH"), plug("J2", "A Y", board="b", family="JST GH"))
    assert taken(*ends, cables=(cable,)) == ({}, ())


@pytest.mark.parametrize(
    ("cable", "leads", "doubt"),
    [
        (replace(CABLE, length_mm=None), PLAIN, "whether it is long enough is not known"),
        (CABLE, {"*": {"length_mm": None}}, "whether it is long enough is not known"),
        (replace(CABLE, length_mm=80.0), PLAIN, "it is too short"),
        (CABLE, {"*": {"length_mm": 85.0, "gauge_awg": 26}}, "the stock does not say its gauge"),
        (CABLE, {"*": {"length_mm": 85.0, "colour": "RD"}}, "the stock does not say its colours"),
    ],
)
def test_a_cable_that_only_may_fit_is_said_and_not_counted(cable, leads, doubt):
    found, notes = taken(*RADIO, cables=(cable,), leads=leads)
    assert found == {}
    assert notes == (f'Stock cable "GH crossed" joins J1 and J3 as drawn, but {doubt}: not counted.',)


def test_pre_crimped_leads_serve_as_many_leads_as_there_are():
    found, _ = taken(*RADIO, pieces=(LEAD,), leads=ASKED)
    assert sorted(found.values()) == ["pre-crimped jst_gh - jst_gh 100 mm BK"] * 2


def test_the_shortest_that_is_long_enough_is_taken_and_long_leads_choose_first():
    long, short = replace(LEAD, length_mm=120.0, count=1), replace(LEAD, length_mm=90.0, count=1)
    leads = ASKED | {"J1:1 - J3:1": {"length_mm": 110.0}}
    leads["*"] = {"gauge_awg": 28, "colour": "BK"}
    for ends in ("J1:2 - J3:3", "J1:3 - J3:2", "J1:4 - J3:4"):
        leads[ends] = {"length_mm": 85.0}
    found, _ = taken(*RADIO, pieces=(long, short), leads=leads)
    assert found["J1:1 - J3:1"] == "pre-crimped jst_gh - jst_gh 120 mm BK"
    assert list(found.values()).count("pre-crimped jst_gh - jst_gh 90 mm BK") == 1 and len(found) == 2


def test_a_colour_may_be_written_as_word_or_code():
    found, _ = taken(*RADIO, pieces=(replace(LEAD, colour="black"),), leads=ASKED)
    assert len(found) == 2


@pytest.mark.parametrize(
    "piece",
    [
        pytest.param(replace(LEAD, gauge_awg=30), id="thinner"),
        pytest.param(replace(LEAD, gauge_awg=None), id="gauge not stated"),
        pytest.param(replace(LEAD, colour="RD"), id="other colour"),
        pytest.param(replace(LEAD, colour=None), id="colour not stated"),
        pytest.param(replace(LEAD, length_mm=84.9), id="too short"),
        pytest.param(replace(LEAD, length_mm=170.1), id="more than twice as long, and cannot be cut"),
        pytest.param(replace(LEAD, ends=("jst_gh", "jst_sh")), id="other family on one end"),
        pytest.param(replace(LEAD, ends=("jst_gh",)), id="contact on one end only"),
        pytest.param(replace(LEAD, count=0), id="none left"),
    ],
)
def test_a_pre_crimped_lead_that_differs_is_not_taken(piece):
    assert taken(*RADIO, pieces=(piece,), leads=ASKED)[0] == {}


def test_a_lead_whose_gauge_or_length_is_not_known_takes_none():
    assert taken(*RADIO, pieces=(LEAD,), leads={"*": {"gauge_awg": 28}})[0] == {}
    assert taken(*RADIO, pieces=(LEAD,), leads={"*": {"length_mm": 85.0}})[0] == {}


def test_two_families_are_served_by_a_lead_of_both():
    piece = replace(LEAD, ends=("jst_ph", "jst_sh"), count=9)
    assert len(taken(*SENSOR, pieces=(piece,), leads=ASKED)[0]) == 3


def test_a_lead_with_one_plug_takes_a_piece_with_one_contact_too():
    found, _ = taken(*LIGHT, pieces=(replace(LEAD, ends=("jst_gh",)),), leads=ASKED)
    assert len(found) == 2
