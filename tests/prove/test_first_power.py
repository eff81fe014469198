"""First power, stage by stage.  That it goes through a limiter, board by board, is common practice, no source."""

import pytest

from crafts.craft_kit import captive, pads, plug, power, splice, two_pin
from crafts.small_craft import small_craft
from dice.random_harness import random_craft
from tabside.analysis.judgement import Judgement
from tabside.analysis.lead_ends import how_leads_are_made
from tabside.model.craft import CraftSettings
from tabside.model.roles import Volts
from tabside.prove.bench.world import World
from tabside.prove.first_power import PACK_OUT, first_power

PACKED = (
    captive("X1", "PACK GND", board="pack", family="XT60", signals="BAT+, BAT-", gives="VBAT 30A"),
    plug("X2", "PACK GND", board="driver", family="XT60", signals="BAT+, BAT-", takes="9-26V 9A"),
)
CONTROLLER = (
    plug("J1", "V5 GND T", board="driver", family="JST SH", signals="5V, GND, TLM", gives="5V 2A"),
    plug("J2", "V5 GND T", board="controller", family="JST SH", signals="5V, GND, RX", takes="4.5-5.5V 0.2A"),
)
RADIO = (
    plug("J3", "V5 GND A", board="controller", family="JST GH", signals="5V, GND, TX", gives="5V 1A"),
    plug("J4", "V5 GND A", board="radio", family="JST GH", signals="5V, GND, RX", takes="5V 0.2A"),
)
FOUR_CELLS = CraftSettings(battery=Volts(12.0, 16.8))


def staged(*symbols, settings=FOUR_CELLS):
    made = small_craft(*symbols, power("GND"), settings=settings)
    return first_power(World(made, how_leads_are_made(made), Judgement(made).pack))


def stages(power_up):
    return [title.partition(": ")[2] for title in dict.fromkeys(row.stage for row in power_up.rows)]


def test_the_pack_and_its_board_first_then_cable_by_cable():
    found = staged(*PACKED, *CONTROLLER, *RADIO)
    assert stages(found)[:3] == ["pack through the limiter to driver", "cable C1 to controller", "cable C2 to radio"]
    assert stages(found)[-1] == "without the limiter"


def test_before_a_board_is_plugged_in_its_volts_are_measured_at_a_spare_plug():
    measured = [row for row in staged(*PACKED, *CONTROLLER).rows if row.where]
    (row,) = measured
    assert row.where == "DC volts at the pigtails: red on controller/J2:1 (5V), black on controller/J2:2 (GND)"
    assert row.volts == (4.75, 5.25) and "limiter" in row.limiter
    assert "spare mating connector with pigtails" in row.do and row.do.startswith(PACK_OUT)


def test_battery_volts_are_less_what_the_limiter_drops():
    found = staged(
        *PACKED,
        plug("J1", "PACK GND T", board="driver", family="JST SH", signals="VBAT, GND, TLM"),
        plug("J2", "PACK GND T", board="controller", family="JST SH", signals="VBAT, GND, RX"),
    )
    (row,) = [row for row in found.rows if row.where]
    assert "less what the limiter drops, at most 16.8 V" in row.expect


def test_what_is_soldered_or_captive_belongs_to_its_board_s_stage():
    found = staged(
        *PACKED,
        pads("J5", "PACK GND", board="driver", signals="VBAT, GND"),
        pads("J6", "PACK GND", board="light", signals="VBAT, GND"),
        pads("J7", "A B C", board="driver", signals="PHASE_A, PHASE_B, PHASE_C"),
        captive("J8", "A B C", board="motor", signals="PHASE_A, PHASE_B, PHASE_C"),
    )
    assert stages(found)[0] == "pack through the limiter to driver, light and motor"
    assert any("turn motor slowly" in row.do for row in found.rows)


def test_motors_turn_one_by_one_with_propellers_off_and_propellers_come_last():
    rows = staged(
        *PACKED,
        pads("J7", "A B C", board="driver", signals="PHASE_A, PHASE_B, PHASE_C"),
        captive("J8", "A B C", board="motor", signals="PHASE_A, PHASE_B, PHASE_C"),
    ).rows
    turning = [row for row in rows if "turn motor" in row.do]
    assert len(turning) == 1 and "Propellers off" in turning[0].do
    assert rows[-1].do.startswith("Propellers on")


def test_antennas_are_on_before_a_transmitter_gets_power():
    found = staged(
        *PACKED,
        *CONTROLLER,
        plug("J10", "RF GND", board="controller", family="coax_ufl", signals="RF, GND"),
        plug("J11", "RF GND", board="antenna", family="coax_ufl", signals="RF, GND"),
    )
    assert stages(found)[0] == "antennas, before a transmitter gets power"


def test_usb_first_where_a_board_says_that_it_runs_on_it():
    found = staged(
        *PACKED,
        *CONTROLLER,
        plug("J9", "- - - -", board="controller", family="usb_c", signals="5V, D-, D+, GND", takes="1:5V 0.5A"),
    )
    assert stages(found)[0] == "controller from USB alone"


def test_a_switch_on_the_way_is_named():
    found = staged(
        *PACKED,
        plug("J1", "V5 GND T", board="driver", family="JST SH", signals="5V, GND, TLM", gives="5V 2A"),
        two_pin("SW1", "V5", "SWITCHED"),
        plug("J2", "SWITCHED GND T", board="controller", family="JST SH", signals="5V, GND, RX"),
    )
    assert any("SW1 on" in row.do for row in found.rows if row.where)


def test_it_says_so_when_no_supply_is_drawn():
    found = staged(
        plug("J1", "A B", board="hub", family="JST GH", signals="TX, RX"),
        plug("J2", "A B", board="radio", family="JST GH", signals="RX, TX"),
    )
    assert stages(found)[0] == "what feeds this craft is not drawn"


def test_without_a_pack_a_bench_supply_begins():
    assert stages(staged(*RADIO))[0] == "controller from a bench supply"


@pytest.mark.parametrize("seed", range(1, 60))
def test_no_plug_goes_in_while_there_is_power_and_every_supplied_board_gets_it_once(seed):
    craft = random_craft(seed)
    found = first_power(World(craft, how_leads_are_made(craft), Judgement(craft).pack))
    for row in found.rows:
        touches = any(word in row.do for word in ("Plug ", "in for good", "Spare plug", "spare mating", "limiter out."))
        assert not touches or row.do.startswith(PACK_OUT), row.do
        assert not row.where or row.limiter
    titles = list(dict.fromkeys(row.stage for row in found.rows))
    fed = [title for title in titles if ": cable " in title or "through the limiter" in title]
    assert len(fed) == len(set(fed))


@pytest.mark.parametrize(
    ("between", "words"),
    [
        ("", "Limiter between the pad and the bare end of the plus lead"),
        ("fuse", "Limiter in place of the fuse in F1"),
    ],
)
def test_a_soldered_pack_gets_its_limiter_where_it_can_go(between, words):
    plus = "FUSED" if between else "PLUS"
    symbols = [
        captive("X1", ["PLUS", "GND"], board="pack", signals="BAT+, BAT-", gives="9-13V 30A"),
        pads("P1", [plus, "GND"], board="hub", signals="BAT+, BAT-", takes="9-26V 9A"),
    ]
    if between:
        symbols.append(two_pin("F1", "PLUS", "FUSED", value="10A"))
    first = next(row for row in staged(*symbols).rows if row.stage.startswith("Stage 1"))
    assert words in first.do


def test_what_lies_behind_a_switch_gets_its_first_power_through_the_limiter_too():
    found = staged(
        *PACKED,
        pads("J5", "PACK GND", board="driver", signals="VBAT, GND"),
        two_pin("SW1", "PACK", "LAMP"),
        pads("J6", "LAMP GND", board="light", signals="VBAT, GND", takes="9-26V 1A"),
    )
    first, switched = found.rows[:2]
    assert "every switch off" in first.do and first.expect.startswith("driver: ")
    assert "through the limiter: switch SW1 on" in switched.do and switched.expect.startswith("light: ")
    assert "SW1 on" in next(row for row in found.rows if "limiter out" in row.do).do


def test_a_pack_behind_a_switch_alone_powers_nothing_before_it_is_on():
    found = staged(
        captive("X1", "RAW GND", board="pack", signals="BAT+, BAT-", gives="9-13V 30A"),
        two_pin("SW1", "RAW", "PLUS"),
        pads("P1", "PLUS GND", board="hub", signals="BAT+, BAT-", takes="9-26V 9A"),
    )
    first, switched = found.rows[:2]
    assert not first.expect.startswith("hub") and switched.expect.startswith("hub: ")


def test_a_splice_whose_reference_is_that_of_a_switch_is_never_switched_on():
    found = staged(
        *PACKED,
        plug("J1", "V5 GND T", board="driver", family="JST SH", signals="5V, GND, TLM", gives="5V 2A"),
        splice("S1", "V5"),
        plug("J2", "V5 GND T", board="controller", family="JST SH", signals="5V, GND, RX"),
    )
    assert not any("S1 on" in row.do for row in found.rows)
