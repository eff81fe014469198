"""The rows of the continuity sheet come in the order of work, whichever page says it.  Logic."""

import pytest

from crafts.craft_kit import captive, pads, plug, power, two_pin
from crafts.small_craft import small_craft
from dice.random_harness import random_craft
from tabside.documents.build import build_plan
from tabside.model.craft import CraftSettings
from tabside.model.roles import Volts
from tabside.prove.measurement import RowKind, When
from tabside.rules import check_craft

SOLDERED = (  # the pack's own leads end in the plug for the driver
    captive("X1", "PACK GND", board="pack", signals="BAT+, BAT-", gives="VBAT 30A"),
    plug("X2", "PACK GND", board="driver", family="XT60", signals="BAT+, BAT-", takes="9-26V 9A"),
)
MATED = (  # the pack keeps its own plug: what goes onto it is made here
    captive("X1", "PACK GND", board="pack", family="XT60", signals="BAT+, BAT-", gives="VBAT 30A"),
    two_pin("F1", "PACK", "V", value="15A"),
    pads("P1", "V GND", board="driver", signals="BAT+, BAT-", takes="9-26V 9A"),
)
REST = (
    plug("J1", "V5 GND T", board="driver", family="JST GH", signals="5V, GND, TLM", gives="5V 2A"),
    plug("J2", "V5 GND T", board="controller", family="JST GH", signals="5V, GND, RX", takes="4.5-5.5V 0.2A"),
)
SPLICED = (
    pads("P2", "A GND", board="driver", signals="5V, GND", gives="5V 2A"),
    plug("S1", "A B C", kind="splice"),
    pads("P3", "B GND", board="camera", signals="5V, GND", takes="5V 0.2A"),
    pads("P4", "C GND", board="receiver", signals="5V, GND", takes="5V 0.2A"),
)


def built(*symbols):
    made = small_craft(*symbols, power("GND"), settings=CraftSettings(battery=Volts(12.0, 16.8)))
    return build_plan(made, check_craft(made))


def on_sheets(build):
    return [row.id for cable in build.plan.cables for step in cable.steps for row in step.rows]


@pytest.mark.parametrize("pack", [pytest.param(SOLDERED, id="soldered"), pytest.param(MATED, id="its own plug")])
def test_the_craft_is_measured_whole_before_a_pack_is_near(pack):
    rows = built(*pack, *REST).proof.rows
    short = next(n for n, row in enumerate(rows) if row.when is When.CRAFT)
    volts = next(n for n, row in enumerate(rows) if row.kind is RowKind.VOLTS)
    assert short < volts and not any(row.kind is RowKind.BEEP for row in rows[volts:])


def test_volts_at_a_pack_s_own_plug_stand_on_no_sheet_of_what_is_made_for_it():
    build = built(*MATED, *REST)
    order = build.order_of_work
    assert [row.kind for row in order.volts] == [RowKind.VOLTS]
    assert order.packs_from == len(build.plan.cables) and order.rows[-1] == order.volts[0]


def test_no_sheet_asks_for_a_fuse_that_no_volts_need():
    build = built(*MATED, *REST)
    words = [step.words for cable in build.plan.cables for step in cable.steps]
    assert not any("put the fuse into F1" in each for each in words)


@pytest.mark.parametrize("seed", range(0, 12))
def test_the_steps_of_the_sheet_are_numbered_as_the_plan_comes_to_them(seed):
    craft = random_craft(seed)
    build = build_plan(craft, check_craft(craft))
    sheets = on_sheets(build)
    steps = [build.proof.step_of[id] for id in sheets]
    assert steps == sorted(steps)
    assert {row.id for row in build.proof.rows} == {*sheets, *(row.id for row in others(build))}


def others(build):
    order = build.order_of_work
    return (*order.before, *order.all_made, *order.volts)


def test_the_look_at_a_splice_stands_on_the_sheet_on_which_it_is_made():
    build = built(*SPLICED)
    look = next(row for row in build.proof.rows if row.kind is RowKind.LOOK and row.where.termination == "S1")
    assert look.id in on_sheets(build)
