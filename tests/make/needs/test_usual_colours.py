"""Which colour a wire gets when the drawing states none.  Custom: black minus, red plus; common practice, no source."""

from __future__ import annotations

import pytest

from crafts.craft_kit import pads, plug
from crafts.small_craft import small_craft
from tabside.documents.build import craft_build
from tabside.make.sheets.cable_plan import Action
from tabside.model.craft import CraftSettings
from tabside.model.stock import Costs, StockLead, StockWire
from tabside.rules import check_craft


def plan_of(*symbols, length_mm=100.0, **stock):
    craft = small_craft(
        *symbols, settings=CraftSettings(**stock), leads={"*": {"length_mm": length_mm, "gauge_awg": 24}}
    )
    return craft_build(craft, check_craft(craft)).plan


def colours(plan):
    return {step.signal: step.colour for cable in plan.cables for step in cable.steps if step.action is Action.CUT}


POWER = (pads("P1", "A B", board="power", signals="5V, GND"), pads("P2", "A B", board="lamp", signals="5V, GND"))


def test_bought_wire_is_red_for_a_supply_and_black_for_ground_and_said_before_it_is_cut():
    plan = plan_of(*POWER)
    assert colours(plan) == {"5V": "RD", "GND": "BK"}
    cuts = [step.words for step in plan.cables[0].steps if step.action is Action.CUT]
    assert all("common practice" in words for words in cuts)


@pytest.mark.parametrize("order", [("RD", "BK"), ("BK", "RD")])
def test_of_two_wires_in_stock_each_pole_gets_its_own(order):
    wires = tuple(StockWire(24, colour, 150.0) for colour in order)
    assert colours(plan_of(*POWER, stock_wire=wires)) == {"5V": "RD", "GND": "BK"}


def test_ground_is_not_cut_from_red_while_another_colour_is_there_whatever_it_saves():
    """One red piece is long enough for both; white ones lie beside it."""
    wires = (StockWire(24, "RD", 1000.0), StockWire(24, "WH", 150.0, 2))
    assert colours(plan_of(*POWER, stock_wire=wires))["GND"] == "WH"


def test_a_shorter_black_lead_does_not_become_a_supply():
    """A red lead with more slack beside it: 100 mm of slack weigh 0.4, the wrong pole 5."""
    leads = (
        StockLead(("jst_ph", "jst_ph"), 100.0, 24, "BK", 2),
        StockLead(("jst_ph", "jst_ph"), 200.0, 24, "RD", 1),
    )
    symbols = (
        plug("J1", "A B", board="power", family="JST PH", signals="5V, GND"),
        plug("J2", "B A", board="lamp", family="JST PH", signals="GND, 5V"),
    )
    plan = plan_of(*symbols, stock_leads=leads, costs=Costs(cable_price=100.0))
    put = {step.signal: step.colour for step in plan.cables[0].steps if step.action is Action.PUT_IN}
    assert put == {"5V": "RD", "GND": "BK"}


def test_a_stated_colour_is_kept_and_no_custom_outranks_it():
    craft = small_craft(*POWER, leads={"*": {"length_mm": 50.0, "gauge_awg": 24, "colour": "VT"}})
    assert set(colours(craft_build(craft, check_craft(craft)).plan).values()) == {"VT"}


def test_colours_do_not_change_because_something_else_does():
    uart = (
        plug("J1", "A B C", board="pilot", family="JST PH", signals="TX, RX, GND"),
        plug("J2", "B A C", board="radio", family="JST PH", signals="TX, RX, GND"),
    )
    alone = colours(plan_of(*uart, costs=Costs(buy_ready=False)))
    beside = colours(plan_of(*uart, *POWER, costs=Costs(buy_ready=False)))
    assert alone.items() <= beside.items() and alone["GND"] == "BK"
