"""The wire list says what the plan says."""

from crafts.craft_kit import plug
from crafts.small_craft import small_craft
from tabside.documents.build import craft_build
from tabside.model.craft import CraftSettings
from tabside.model.stock import Costs, StockLead
from tabside.rules import check_craft
from tabside_exporters.tables.wire_list import DOCUMENT, wire_list


def build_of(**more):
    craft = small_craft(
        plug("J1", ["5V", "GND"], board="power", family="JST GH", signals="5V, GND", gives="5V 1A"),
        plug("J2", ["5V", "GND"], board="radio", family="JST GH", signals="5V, GND", takes="5V 0.1A"),
        settings=CraftSettings(costs=Costs(buy_ready=False), **more),
        leads={"*": {"length_mm": 100.0, "gauge_awg": 28}},
    )
    return craft_build(craft, check_craft(craft))


def of_plan(build):
    return {step.lead: step.colour for cable in build.plan.cables for step in cable.steps if step.listed}


def test_a_wire_has_the_colour_that_the_plan_gives_it():
    stock = StockLead(("jst_gh", "jst_gh"), 150.0, 28, "BU", 1)
    for build in (build_of(), build_of(stock_leads=(stock,))):
        rows = {row["mark"]: row["colour"] for row in wire_list(build)}
        assert rows == of_plan(build) and None not in rows.values()
        assert any("Identify no wire by its colour" in note for note in DOCUMENT.notes(build))
