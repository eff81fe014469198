"""The rows of the continuity sheet come in the order of work, whichever page says it.  Logic."""

import pytest

from crafts.craft_kit import captive, pads, plug, power, two_pin
from crafts.small_craft import small_craft
from dice.random_harness import random_craft
from tabside.documents.build import craft_build
from tabside.make.sheets.cable_plan import Action
from tabside.make.sheets.part_steps import PARTS_TITLE
from tabside.model.craft import CraftSettings
from tabside.model.roles import Volts
from tabside.prove.measurement import At, RowKind, When
from tabside.rules import check_craft
from tabside_exporters.pages.bench_items import bench_sections

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
    return craft_build(made, check_craft(made))


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
    build = craft_build(craft, check_craft(craft))
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


TWINS = (  # fuses, a splice and a switch, made on sheets of their own, between two plugs and a pad
    captive("X1", ["A", "GND"], board="left pack", family="XT60", signals="BAT+, BAT-", gives="VBAT 30A"),
    captive("X2", ["B", "GND"], board="right pack", family="XT30", signals="BAT+, BAT-", gives="VBAT 30A"),
    two_pin("F1", "A", "C", value="15A"),
    two_pin("F2", "B", "D", value="15A"),
    plug("S1", "C D E", kind="splice"),
    two_pin("SW1", "E", "V"),
    pads("P1", "V GND", board="driver", signals="BAT+, BAT-", takes="9-26V 9A"),
)


def test_what_is_measured_through_parts_of_several_sheets_is_measured_before_its_pad_is_soldered():
    build = built(*TWINS, *REST)
    through = {row.id for row in build.proof.rows if row.when is When.SPLICED}
    assert through and not through & {row.id for row in build.order_of_work.all_made}
    steps = [(step, cable) for cable in build.plan.cables for step in cable.steps]
    for id in through:
        test = next(n for n, (step, _) in enumerate(steps) if id in {row.id for row in step.rows})
        row = next(row for row in build.proof.rows if row.id == id)
        bare = [end.lead for end in row.ends if end.at is At.BARE]
        before = [step for step, _ in steps[:test] if step.action is Action.SOLDER and step.end.endswith("P1")]
        assert not [step for step in before if step.lead in bare]


def test_parts_across_the_battery_are_fitted_before_the_craft_is_measured_whole():
    build = built(*SOLDERED, two_pin("C1", "PACK", "GND", value="470uF 35V"), *REST)
    titles = [section.title for section in bench_sections(build)]
    assert titles.index(PARTS_TITLE) < titles.index(build.order_of_work.title)


def test_the_bench_page_says_what_goes_in_before_a_pack_s_volts():
    pack = captive("X1", "PACK GND", board="pack", signals="BAT+, BAT-", gives="VBAT 30A")
    fused = (two_pin("F1", "PACK", "FUSED", value="15A"), two_pin("SW1", "FUSED", "V"))
    there = plug("X2", "V GND", board="driver", family="XT60", signals="BAT+, BAT-", takes="9-26V 9A")
    items = [item for section in bench_sections(built(pack, *fused, there, *REST)) for item in section.items]
    volts = next(n for n, item in enumerate(items) if item.reading is not None and item.reading.unit == "V")
    assert items[volts - 1].words.startswith("put the fuse into F1, switch SW1 on, then measure volts now")
