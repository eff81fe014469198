"""First power, stage by stage.  That it goes through a limiter, board by board, is common practice, no source."""

import re

import pytest
from msgspec.structs import replace

from crafts.craft_kit import captive, pads, plug, power, splice, two_pin
from crafts.small_craft import small_craft
from dice.random_harness import random_craft
from tabside.analysis.joined.lead_ends import how_leads_are_made
from tabside.analysis.judgement import Judgement
from tabside.model.craft import CraftSettings
from tabside.model.roles import Volts
from tabside.prove.bench.grounds import known_ground
from tabside.prove.bench.switching import switch_words
from tabside.prove.bench.world import World
from tabside.prove.first_power import first_power, needs_words
from tabside.prove.power.limiter_kinds import Limiter
from tabside.prove.power.places import Places
from tabside.prove.power.rows import OUT, OUT_AGAIN
from tabside.prove.power.supplies import Supplies

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


_ALL_OUT = "every plug out, before anything gets power"


_OUTPUT = "at the limiter's output"


def powered(power_up):
    """Rows after the one that takes every plug out, without those that meter the limiter alone."""
    return [row for row in power_up.rows if not row.stage.endswith(_ALL_OUT) and _OUTPUT not in row.where]


def stages(power_up):
    return [title.partition(": ")[2] for title in dict.fromkeys(row.stage for row in powered(power_up))]


def test_every_plug_comes_out_before_anything_gets_power():
    """The continuity sheet ends with everything plugged in: the pack would power all boards at once."""
    first, *rest = staged(*PACKED, *CONTROLLER, *RADIO).rows
    assert first.stage == f"Stage 1: {_ALL_OUT}" and first.do.startswith(OUT)
    assert "Take every plug out of every board: cables C1 and C2; what is soldered stays" in first.do
    assert not first.limiter and not first.otherwise
    for cable in ("C1", "C2"):
        assert sum(f"cable {cable} in for good" in row.do for row in rest) == 1


def test_an_input_that_is_tied_to_a_rail_feeds_nothing_and_is_fed_by_nothing():
    made = small_craft(
        pads("P1", "V GND", board="regulator", signals="5V, GND", gives="5V 2A"),
        pads("P2", "V GND", board="radio", signals="5V, GND", takes="5V 0.2A"),
        pads("P3", "V", board="driver", signals="ENABLE"),
        power("GND"),
        settings=FOUR_CELLS,
    )
    fed = Supplies(World(made, how_leads_are_made(made), Judgement(made).pack))
    ends = [{joint.a.termination, joint.b.termination} for joint in fed.all]
    assert {"P1", "P2"} in ends and not [pair for pair in ends if "P3" in pair]


BARE_HUB = (  # no ground pad: its grounds are in its connectors
    *PACKED,
    pads("P1", "PACK GND", board="driver", signals="VBAT, GND", leads_max=4),
    pads("P2", "PACK GND", board="light", signals="VBAT, GND"),
    *CONTROLLER,
    pads("P3", "Z", board="controller", signals="5V", gives="5V 1A"),
    captive("X4", "Z GND", board="buzzer", signals="5V, GND", takes="5V 0.1A"),
)


def test_black_goes_where_no_plug_has_to_go_in_while_there_is_power():
    made = small_craft(*BARE_HUB, power("GND"), settings=FOUR_CELLS)
    world = World(made, how_leads_are_made(made), Judgement(made).pack)
    places = Places(Supplies(world))
    red = made.contact(("P3", "1"))
    cold = places.black(red)
    assert places.black_of_live(red) == cold  # its cable is out: the pad of the driver is no ground of it
    (row,) = [row for row in first_power(world).rows if "controller/P3" in row.where]
    assert row.where.endswith("red on controller/P3:1 (5V), black on driver/P1:2 (GND)")
    assert cold.startswith("a known ground of controller (contact 2 of controller/J2, by a spare plug with pigtails")


def test_a_ground_that_is_soldered_brings_no_power():
    """The controller hangs on the driver by the buzzer's ground alone: its volts are metered first."""
    found = staged(*BARE_HUB)
    assert stages(found)[:2] == ["limited power to driver and light", "cable C1 to controller and buzzer"]
    (row,) = [row for row in found.rows if "at the pigtails" in row.where]
    assert row.volts == (4.75, 5.25)


def test_a_switch_with_a_common_contact_says_what_it_joins():
    switch = small_craft(
        captive("X1", "RAW GND", board="pack", signals="BAT+, BAT-", gives="9-13V 30A"),
        two_pin("SW1", "RAW", "PLUS"),
        pads("P1", "PLUS GND", board="hub", signals="BAT+, BAT-", takes="9-26V 9A"),
        power("GND"),
    ).terminations["SW1"]
    assert switch_words(switch) == "SW1"
    contacts = tuple(replace(switch.contacts[0], number=number) for number in "123")
    throws = replace(switch, contacts=contacts, passes=(("2", "1"), ("2", "3")))
    assert switch_words(throws) == "SW1 (first to where it connects 2 and 1, then to where it connects 2 and 3)"
    one_throw = replace(throws, contacts=contacts[1:], passes=(("2", "3"),))
    assert switch_words(one_throw) == "SW1 (to where it connects 2 and 3)"


def test_nothing_comes_out_where_all_is_soldered():
    found = staged(*PACKED, pads("P1", "PACK GND", board="driver", signals="VBAT, GND"))
    assert all(not row.stage.endswith(_ALL_OUT) for row in found.rows)


def test_an_antenna_s_cable_stays_in():
    found = staged(
        *PACKED,
        *CONTROLLER,
        plug("J10", "RF GND", board="controller", family="coax_ufl", signals="RF, GND"),
        plug("J11", "RF GND", board="antenna", family="coax_ufl", signals="RF, GND"),
    )
    coax = next(row for row in found.rows if "antennas" in row.stage).do.partition("Cable ")[2][:2]
    first = found.rows[0].do
    assert f"and the coax of cable {coax}" in first
    assert coax not in first.partition("of every board:")[2].partition(";")[0]


def test_the_pack_and_its_board_first_then_cable_by_cable():
    found = staged(*PACKED, *CONTROLLER, *RADIO)
    assert stages(found)[:3] == ["limited power to driver", "cable C1 to controller", "cable C2 to radio"]
    assert stages(found)[-1] == "without the limiter"


def test_the_spare_plugs_are_those_of_families_and_none_for_pads():
    lamp = (
        pads("P1", "V5 GND", board="driver", signals="5V, GND", gives="5V 2A", leads_max=4),
        pads("P2", "V5 GND", board="lamp", signals="5V, GND", takes="5V 0.2A"),
    )
    assert ("jst_sh", 3) in staged(*PACKED, *CONTROLLER).mating_plugs
    assert all(family for family, _ in staged(*PACKED, *lamp).mating_plugs)


def test_before_a_board_is_plugged_in_its_volts_are_measured_at_a_spare_plug():
    measured = [row for row in powered(staged(*PACKED, *CONTROLLER)) if row.where]
    (row,) = measured
    assert row.where == "DC volts at the pigtails: red on controller/J2:1 (5V), black on controller/J2:2 (GND)"
    assert row.volts == (4.75, 5.25) and "smoke stopper: dark" in row.limiter
    assert "spare mating connector with pigtails" in row.do and row.do.startswith(OUT_AGAIN)


def test_battery_volts_are_less_what_the_limiter_drops():
    found = staged(
        *PACKED,
        plug("J1", "PACK GND T", board="driver", family="JST SH", signals="VBAT, GND, TLM"),
        plug("J2", "PACK GND T", board="controller", family="JST SH", signals="VBAT, GND, RX"),
    )
    (row,) = [row for row in powered(found) if row.where]
    assert "less what the smoke stopper drops, or those that the bench supply is set to, at most 16.8 V" in row.expect
    assert row.volts == (None, 16.8)  # a pack that is low, behind a limiter that drops some, is no fault


def test_what_is_soldered_or_captive_belongs_to_its_board_s_stage():
    found = staged(
        *PACKED,
        pads("J5", "PACK GND", board="driver", signals="VBAT, GND"),
        pads("J6", "PACK GND", board="light", signals="VBAT, GND"),
        pads("J7", "A B C", board="driver", signals="PHASE_A, PHASE_B, PHASE_C"),
        captive("J8", "A B C", board="motor", signals="PHASE_A, PHASE_B, PHASE_C"),
    )
    assert stages(found)[0] == "limited power to driver, light and motor"
    assert any("let motor turn slowly" in row.do for row in found.rows)


def test_motors_turn_one_by_one_with_propellers_off_and_propellers_come_last():
    rows = staged(
        *PACKED,
        pads("J7", "A B C", board="driver", signals="PHASE_A, PHASE_B, PHASE_C"),
        captive("J8", "A B C", board="motor", signals="PHASE_A, PHASE_B, PHASE_C"),
    ).rows
    turning = [row for row in rows if "let motor turn" in row.do]
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


DRIVER = (  # a main switch in the plus wire of a pack that keeps its own plug; pads
    captive("X1", "PACK GND", board="pack", family="XT60", signals="BAT+, BAT-", gives="VBAT 30A"),
    two_pin("F1", "PACK", "FUSED", value="15A"),
    two_pin("SW1", "FUSED", "V"),
    pads("P1", "V GND", board="driver", signals="BAT+, BAT-", takes="9-26V 9A"),
    pads("P2", "V5 GND", board="driver", signals="5V, GND", gives="5V 3A"),
    pads("P3", "V5 GND", board="controller", signals="5V, GND", takes="4.5-5.5V 0.5A"),
    plug("J1", "T GND", board="controller", family="JST GH", signals="TX, GND"),
    plug("J2", "T GND", board="gps", family="JST GH", signals="RX, GND"),
)
LAMP = (
    pads("P5", "V GND", board="driver", signals="VBAT, GND", gives="VBAT 5A"),
    two_pin("SW2", "V", "L"),
    captive("X3", "L GND", board="lamp", signals="VBAT, GND", takes="9-26V 1A"),
)


def test_a_main_switch_goes_on_in_a_step_of_its_own_with_the_limiter_in():
    first, switch, *_ = powered(staged(*DRIVER))
    assert "Every switch off" in first.do and first.expect.startswith("nothing gets power yet, SW1 being off")
    assert switch.do == "Limited power still on: switch SW1 on" and "smoke stopper: dark" in switch.limiter
    assert switch.where == "DC volts at the pads: red on driver/P1:1 (BAT+), black on driver/P1:2 (BAT-)"
    assert switch.volts == (None, 16.8) and "controller and driver: no smell" in switch.expect


def test_from_there_the_main_switch_is_on_whenever_the_pack_is():
    rows = powered(staged(*DRIVER))[2:]
    on = [row.do for row in rows if "ower on" in row.do]
    assert on and all("SW1 on" in do for do in on)


def test_it_says_between_which_pads_nothing_may_be_left():
    """With SW1 off the plug reads nothing while the capacitors behind it are full: the pads behind the switch do."""
    first, *plugging = [row.do for row in staged(*DRIVER).rows if row.do.startswith("All power out")]
    assert f"{OUT} (DC volts between driver/P1:1 (BAT+) and driver/P1:2 (BAT-))" in first
    assert plugging and all(do.startswith(f"{OUT_AGAIN} driver/P1:1 (BAT+). ") for do in plugging)


def test_what_is_fed_over_solder_is_measured_at_its_pads():
    measured = [row for row in powered(staged(*DRIVER)) if "controller/P3" in row.where]
    assert [row.volts for row in measured] == [(4.75, 5.25)]
    assert measured[0].where == "DC volts at the pads: red on controller/P3:1 (5V), black on controller/P3:2 (GND)"


def test_a_lamp_behind_a_switch_is_tried_and_off_again():
    rows = staged(*DRIVER, *LAMP).rows
    (tried,) = [row for row in rows if "switch SW2 on, and off again" in row.do]
    assert "lamp: on as its maker says" in tried.expect and "while lamp draws current" in tried.limiter
    later = [row.do for row in rows[rows.index(tried) + 1 :] if "SW2" in row.do]
    assert len(later) == 1 and "Take the smoke stopper out" in later[0]


def test_motors_soldered_to_pads_turn_one_by_one_before_the_limiter_comes_out():
    motors = (
        pads("P6", "A B", board="driver", signals="M1A, M1B"),
        pads("P7", "A B", board="left motor", signals="M+, M-"),
        pads("P8", "C D", board="driver", signals="M2A, M2B"),
        pads("P9", "C D", board="right motor", signals="M+, M-"),
    )
    do = [row.do for row in staged(*DRIVER, *motors).rows]
    turning = [n for n, each in enumerate(do) if "motor turn slowly" in each]
    out = next(n for n, each in enumerate(do) if "Take the smoke stopper out" in each)
    assert len(turning) == 2 and max(turning) < out and "Propellers off" in do[turning[0]]


def test_packs_in_parallel_come_on_one_at_a_time():
    found = staged(
        captive("X1", ["A", "GND"], board="left pack", family="XT60", signals="BAT+, BAT-", gives="VBAT 30A"),
        captive("X2", ["B", "GND"], board="right pack", family="XT30", signals="BAT+, BAT-", gives="VBAT 30A"),
        two_pin("F1", "A", "V", value="15A"),
        two_pin("F2", "B", "V", value="15A"),
        pads("P1", "V GND", board="driver", signals="BAT+, BAT-", takes="9-26V 9A"),
    )
    assert stages(found)[:2] == ["limited power from left pack to driver", "limited power from right pack to driver"]
    first = powered(found)[0].do
    assert first.startswith("All power out") and "Right pack stays out" in first and "live meanwhile: cover it" in first
    last = next(row for row in found.rows if "Take the smoke stopper out" in row.do)
    assert "Packs within 0.1 V of each other" in last.do


def test_the_limiter_s_output_is_metered_before_a_board_is_on_it():
    alone, first = [row for row in staged(*PACKED).rows if ": limited power to" in row.stage][:2]
    assert alone.do.startswith((OUT, OUT_AGAIN)) and first.do.startswith(OUT_AGAIN)
    assert (
        "EITHER a smoke stopper onto the plug of pack, plus on plus, minus on minus; nothing on its output" in alone.do
    )
    assert "red on what will meet driver/X2:1 (BAT+), black on what will meet driver/X2:2 (BAT-)" in alone.where
    assert alone.volts == (None, 16.8) and "no minus sign" in alone.expect
    assert "Into driver/X2, plus on plus, minus on minus: EITHER the output of the smoke stopper" in first.do


def test_a_switch_in_the_minus_wire_of_a_pack_is_switched_on_too():
    symbols = (
        captive("X1", "PACK N", board="pack", family="XT60", signals="BAT+, BAT-", gives="VBAT 30A"),
        two_pin("SW1", "N", "GND"),
        pads("P1", "PACK GND", board="hub", signals="BAT+, BAT-", takes="9-26V 9A"),
        plug("J1", "T GND", board="hub", family="JST GH", signals="TX, GND"),
        plug("J2", "T GND", board="gps", family="JST GH", signals="RX, GND"),
    )
    first, switch, *rest = powered(staged(*symbols))
    assert first.expect.startswith("nothing gets power yet, SW1 being off") and first.where == ""
    assert "switch SW1 on" in switch.do and switch.volts == (None, 16.8)
    assert all("SW1 on" in row.do for row in rest if "ower on" in row.do)


def test_packs_in_series_give_their_volts_together():
    low = captive("X1", "M GND", board="low", family="XT60", signals="BAT+, BAT-", gives="9-13V 30A")
    high = captive("X2", "A M", board="high", signals="BAT+, BAT-", gives="9-13V 30A")
    hub = pads("P1", "A GND", board="hub", signals="BAT+, BAT-", takes="9-40V 9A")
    found = staged(low, high, hub, settings=CraftSettings())
    assert [row.volts for row in powered(found) if row.where] == [(None, 26.0)]


def test_a_pack_is_never_fed_from_a_bench_supply():
    found = staged(
        captive("X1", "P G", board="left pack", family="XT60", signals="BAT+, BAT-", gives="VBAT 30A"),
        captive("X2", "P G", board="right pack", family="XT60", signals="BAT+, BAT-", gives="VBAT 30A"),
    )
    assert not any("ench supply" in row.do for row in found.rows)


def test_what_usb_has_charged_is_empty_before_the_pack_comes():
    found = staged(
        *PACKED,
        *CONTROLLER,
        pads("P1", "V5 GND", board="controller", signals="5V, GND"),
        plug("J9", "- - - -", board="controller", family="usb_c", signals="5V, D-, D+, GND", takes="1:5V 0.5A"),
    )
    alone = next(row for row in found.rows if _OUTPUT in row.where)
    pack = next(row for row in found.rows if "Into driver/X2" in row.do)
    assert "between controller/P1:1 (5V) and controller/P1:2 (GND)" in alone.do
    assert "; and at controller/P1:1 (5V). Into driver/X2" in pack.do


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
        touches = any(word in row.do for word in ("Plug ", "in for good", "Spare plug", "spare mating", "stopper out"))
        assert not touches or row.do.startswith((OUT, OUT_AGAIN)), row.do
        assert not row.where or row.limiter
    all_out = found.rows[0].do.partition("every board: ")[2].partition(";")[0]
    for cable in re.findall(r"C\d+", all_out):
        plugged = [row.do for row in found.rows if re.search(rf"{cable} in for good|Plug cable {cable} in\.", row.do)]
        assert len(plugged) == 1, cable
    titles = list(dict.fromkeys(row.stage for row in found.rows))
    fed = [title for title in titles if ": cable " in title or "limited power" in title]
    assert len(fed) == len(set(fed))


@pytest.mark.parametrize(
    ("between", "words"),
    [
        ("", "Smoke stopper between the pad and the bare end of the plus lead"),
        ("fuse", "Smoke stopper in place of the fuse in F1"),
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
    alone, first = [row for row in staged(*symbols).rows if row.stage.startswith("Stage 1")][:2]
    assert words in first.do
    assert "its other end free, touching nothing" in alone.do and _OUTPUT in alone.where


def test_what_lies_behind_a_switch_gets_its_first_power_through_the_limiter_too():
    found = staged(
        *PACKED,
        pads("J5", "PACK GND", board="driver", signals="VBAT, GND"),
        two_pin("SW1", "PACK", "LAMP"),
        pads("J6", "LAMP GND", board="light", signals="VBAT, GND", takes="9-26V 1A"),
    )
    first, switched = powered(found)[:2]
    assert "Every switch off" in first.do and first.expect.startswith("driver: ")
    assert "Limited power still on: switch SW1 on" in switched.do and "light: " in switched.expect
    assert "SW1 on" in next(row for row in found.rows if "smoke stopper out" in row.do).do


def test_a_pack_behind_a_switch_alone_powers_nothing_before_it_is_on():
    found = staged(
        captive("X1", "RAW GND", board="pack", signals="BAT+, BAT-", gives="9-13V 30A"),
        two_pin("SW1", "RAW", "PLUS"),
        pads("P1", "PLUS GND", board="hub", signals="BAT+, BAT-", takes="9-26V 9A"),
    )
    first, switched = powered(found)[:2]
    assert not first.expect.startswith("hub") and "hub: " in switched.expect


def test_a_splice_whose_reference_is_that_of_a_switch_is_never_switched_on():
    found = staged(
        *PACKED,
        plug("J1", "V5 GND T", board="driver", family="JST SH", signals="5V, GND, TLM", gives="5V 2A"),
        splice("S1", "V5"),
        plug("J2", "V5 GND T", board="controller", family="JST SH", signals="5V, GND, RX"),
    )
    assert not any("S1 on" in row.do for row in found.rows)


def test_two_rails_of_one_board_that_meet_over_a_tie_end_the_search():
    board = pads("J1", "U W G", board="psu", signals="5V, 3V3, GND", gives="5V 2A; 3.3V 1A")
    camera = pads("J2", "U W G", board="cam", signals="5V, 3V3, GND")
    assert stages(staged(board, camera, two_pin("NT1", "U", "W")))


def test_of_a_pack_with_a_plug_each_kind_of_limiter_is_told_by_itself():
    """A bench supply stands in place of the pack and never meets it; a dark lamp says nothing of it."""
    found = staged(*PACKED, *CONTROLLER)
    assert found.limiter == Limiter(bench_supply=True, into=("driver/X2",))
    alone, first, *_ = powered_rows = [row for row in found.rows if row.limiter]
    stopper, supply = alone.do.split("EITHER ")[1].split(" OR ")
    assert stopper.startswith("a smoke stopper onto the plug of pack") and "supply" not in stopper
    assert supply == "a bench supply set to 12 to 16.8 V and 0.5 A, pack away, nothing on the supply's lead; supply on"
    assert first.do.endswith("OR the lead of the bench supply, pack away. Limited power on")
    assert alone.limiter == "smoke stopper: dark; bench supply: 0 A"
    for row in powered_rows[1:]:
        assert re.fullmatch(r"smoke stopper: (dark|may glow).*; bench supply: below its limit.*", row.limiter)
    said = " ".join(needs_words(found, {}))
    assert (
        "OR a bench supply, its limit at 0.5 A (common practice, no source), in place of the pack, which stays away"
        in said
    )
    assert "A bench supply is never connected to a pack." in said and "a lead that plugs into driver/X2" in said


SOLDERED = (
    captive("X1", ["PLUS", "GND"], board="pack", signals="BAT+, BAT-", gives="9-13V 30A"),
    pads("P1", ["FUSED", "GND"], board="hub", signals="BAT+, BAT-", takes="9-26V 9A"),
    two_pin("F1", "PLUS", "FUSED", value="10A"),
)
SWITCHED_BEFORE_ITS_PLUG = (
    captive("X1", "RAW GND", board="pack", signals="BAT+, BAT-", gives="VBAT 30A"),
    two_pin("SW1", "RAW", "PACK"),
    PACKED[1],
)
TWO_PACKS = (
    captive("X1", "PACK GND", board="one", family="XT60", signals="BAT+, BAT-", gives="VBAT 30A"),
    captive("X2", "PACK GND", board="two", family="XT30", signals="BAT+, BAT-", gives="VBAT 30A"),
    pads("P1", "PACK GND", board="hub", signals="BAT+, BAT-", takes="9-26V 9A", leads_max=4),
)


@pytest.mark.parametrize("symbols", [SOLDERED, SWITCHED_BEFORE_ITS_PLUG, TWO_PACKS], ids=["soldered", "switch", "two"])
def test_no_bench_supply_where_no_one_plug_parts_the_pack_from_the_craft(symbols):
    found = staged(*symbols)
    assert replace(found.limiter, out="") == Limiter()
    assert not any(
        "bench supply" in text for row in found.rows for text in (row.do, row.where, row.expect, row.limiter)
    )
    assert all(row.limiter.startswith("smoke stopper: ") for row in found.rows if row.limiter)
    said = " ".join(needs_words(found, {}))
    assert "No bench supply" in said and "OR" not in said


def test_a_soldered_pack_is_out_and_on_by_its_fuse_or_its_last_joint():
    """There is no plug to pull: what is taken out, and what switches it on, is said."""
    found = staged(*SOLDERED)
    assert "All power out: neither fuse nor smoke stopper in F1, USB out." in needs_words(found, {})[0]
    alone = next(row for row in found.rows if _OUTPUT in row.where)
    assert alone.do.endswith("touching nothing: the pack is on") and "black on hub/P1:2 (BAT-)" in alone.where
    last = found.rows[-2].do
    assert last.endswith("hands clear. Take the smoke stopper out, then the fuse into F1: the pack is on")
    bare = staged(SOLDERED[0], pads("P1", ["PLUS", "GND"], board="hub", signals="BAT+, BAT-", takes="9-26V 9A"))
    assert "All power out: the bare plus lead of the pack off everything, and taped" in needs_words(bare, {})[0]
    assert bare.rows[-2].do.endswith("make the last joint as its sheet says, LIVE: the pack is on")


def test_a_switch_beyond_the_pack_s_plug_is_off_while_the_limiter_is_metered():
    alone = next(row for row in staged(*DRIVER).rows if _OUTPUT in row.where)
    assert "Every switch off" in alone.do and "for this step alone" not in alone.do
    first = next(row for row in staged(*DRIVER).rows if "Limited power on" in row.do)
    assert "Into the craft's plug for pack/X1, plus on plus" in first.do  # no plug of the pack
    before = next(row for row in staged(*SWITCHED_BEFORE_ITS_PLUG).rows if _OUTPUT in row.where)
    assert "a switch between pack and smoke stopper on, for this step alone" in before.do


def test_without_a_pack_nothing_is_said_of_a_smoke_stopper():
    found = staged(*RADIO)
    assert found.limiter == Limiter(smoke_stopper=False, bench_supply=True)
    assert "smoke" not in " ".join([*needs_words(found, {}), *(f"{row.do} {row.limiter}" for row in found.rows)])


def test_a_part_that_bursts_when_reversed_is_named_where_it_gets_its_first_power():
    """An electrolytic capacitor put in reversed can burst: common knowledge of the trade, from memory."""
    rows = staged(*PACKED, *CONTROLLER, two_pin("C1", "PACK", "GND", value="470uF 35V")).rows
    named = [row for row in rows if "capacitor C1 (drawing)" in row.expect]
    assert len(named) == 1 and named[0].do.endswith("pack away. Limited power on")
    assert "keep your face away from capacitor C1 (drawing): reversed it can burst" in named[0].expect
    resistor = staged(*PACKED, *CONTROLLER, two_pin("R1", "PACK", "GND", value="10k")).rows
    assert not any("keep your face away" in row.expect for row in resistor)


def test_a_plug_that_lies_loose_on_a_soldered_cable_is_live_once_its_board_has_power():
    camera = (
        pads("P1", "V5 GND", board="controller", signals="5V, GND", gives="5V 1A"),
        plug("J5", "V5 GND", board="camera", family="JST GH", signals="5V, GND", takes="5V 0.2A"),
    )
    symbols = (*PACKED, plug("J1", "W5 GND T", board="driver", family="JST SH", signals="5V, GND, TLM", gives="5V 2A"))
    fed = plug("J2", "W5 GND T", board="controller", family="JST SH", signals="5V, GND, RX", takes="5V 0.2A")
    rows = staged(*symbols, fed, *camera).rows
    (live,) = [row.do for row in rows if "touch nothing" in row.do]
    assert "in for good" in live and "; the loose plug of cable C2 is live from here: let it touch nothing" in live
    own = next(row.do for row in rows if "C2 is soldered to controller/P1" in row.do)
    assert rows.index(next(row for row in rows if row.do == live)) < [row.do for row in rows].index(own)


def test_two_supplies_of_one_plug_are_two_places_for_one_probe():
    doubled = (
        plug("J1", "VA VB GND", board="driver", family="JST GH", signals="5V, 5V, GND", gives="5V 2A"),
        plug("J2", "VA VB GND", board="controller", family="JST GH", signals="5V, 5V, GND", takes="5V 0.2A"),
    )
    (row,) = [row for row in staged(*PACKED, *doubled).rows if "pigtails: " in row.where]
    assert row.where.endswith(
        "red on controller/J2:1 (5V), then on controller/J2:2 (5V); black stays on controller/J2:3 (GND)"
    )
    assert "no volts at all: see in the manual of driver whether it switches this output" in row.expect


def test_a_spare_plug_goes_where_no_cable_is_and_the_cable_is_out_where_there_is_no_other_place():
    """A connector takes one plug."""

    def named(*more):
        made = small_craft(*BARE_HUB, *more, power("GND"), settings=FOUR_CELLS)
        return known_ground(World(made, how_leads_are_made(made), Judgement(made).pack), "controller")

    used = "contact 2 of controller/J2, by a spare plug with pigtails in place of its cable, put in before any power"
    assert used in named()
    free = plug("J9", "- -", board="controller", signals="TX, GND", family="JST GH")
    assert "contact 2 of controller/J9, by a spare plug" in named(free) and "its cable" not in named(free)


def test_the_limiter_goes_where_the_first_fuse_is_and_a_branch_gets_its_own_before():
    """One smoke stopper stands in one place: a branch's fuse lies behind it.  Logic."""
    found = staged(
        captive("X1", "RAW GND", board="pack", signals="BAT+, BAT-", gives="1:14.8V 40A"),
        two_pin("F1", "RAW", "FUSED", value="30A"),
        two_pin("SW1", "FUSED", "ON"),
        splice("S1", "ON"),
        two_pin("F2", "ON", "LIT", value="1A"),
        pads("P1", "ON GND", board="drive", signals="VBAT, GND", takes="9-26V 9A"),
        pads("P2", "LIT GND", board="lamp", signals="VBAT, GND", takes="9-26V 0.3A"),
    )
    said = " ".join(row.do for row in found.rows)
    assert "fuse out of F1; a smoke stopper" in said and "F1 and F2" not in said
    assert "See that the fuse is in F2. Smoke stopper in place of the fuse in F1: " in said
    assert "a switch between pack and smoke stopper" not in said  # SW1 lies behind it
    expected = [row.expect for row in found.rows if "the pack's volts" in row.expect]
    assert expected and all("at most 16.8 V" in each for each in expected)  # 14.8 V is what four cells go by


FED_TWICE = (  # the bridge takes 5 V that the pilot gives, and the pilot gets its own from the regulator
    captive("X1", "PACK GND", board="pack", family="XT60", signals="BAT+, BAT-", gives="4S 40A"),
    pads("P1", "PACK GND", board="bridge", signals="VM, GND", takes="9-26V 9A"),
    pads("P2", "PACK GND", board="regulator", signals="VIN, GND", takes="9-26V 1A"),
    plug("J1", "A V GND", board="bridge", family="JST GH", signals="IN1, 5V, GND", takes="2:4.5-5.5V 0.1A"),
    plug("J2", "A V GND", board="pilot", family="JST GH", signals="PWM1, 5V, GND", gives="2:5V 0.5A"),
    plug("J3", "R GND", board="regulator", family="JST PH", signals="5V, GND", gives="5V 2A"),
    plug("J4", "R - - GND", board="pilot", family="JST GH", signals="VCC, nc, GND, GND", takes="1:4.5-5.5V 0.4A"),
)


def test_a_board_is_fed_by_what_gives_and_not_back_over_what_it_gives_itself():
    found = staged(*FED_TWICE)
    (feeding,) = [row for row in found.rows if "pigtails" in row.where]
    assert "Plug cable C2 into regulator/J3" in feeding.do and "red on pilot/J4:1 (VCC)" in feeding.where
    assert any("Plug cable C1 in." in row.do for row in found.rows)  # it brings the pilot nothing


def test_on_a_loose_plug_black_goes_where_a_wire_ends():
    (feeding,) = [row for row in staged(*FED_TWICE).rows if "pigtails" in row.where]
    assert feeding.where.endswith("black on pilot/J4:4 (GND)")  # J4:3 is a ground with no wire


def test_a_plug_that_goes_in_is_not_called_loose_in_the_same_breath():
    found = staged(
        *PACKED,
        plug("J1", "V5 GND", board="driver", family="JST XH", signals="5V, GND", gives="5V 2A"),
        pads("P5", "V5 GND", board="computer", signals="5V, GND", takes="4.75-5.25V 1A"),
    )
    in_for_good = [row.do for row in found.rows if "in for good" in row.do]
    assert in_for_good and not any("live from here" in each for each in in_for_good)


def test_the_fuses_behind_a_packs_plug_go_in_before_the_limiter():
    found = staged(
        captive("X1", "RAW GND", board="pack", family="XT60", signals="BAT+, BAT-", gives="4S 40A"),
        two_pin("F1", "RAW", "ON", value="30A"),
        two_pin("F2", "ON", "LIT", value="1A"),
        pads("P1", "ON GND", board="drive", signals="VBAT, GND", takes="9-26V 9A"),
        pads("P2", "LIT GND", board="lamp", signals="VBAT, GND", takes="9-26V 0.3A"),
    )
    assert any("See that the fuses are in F1 and F2. Into the craft's plug for pack/X1" in row.do for row in found.rows)


def test_a_fuse_in_a_packs_lead_is_in_before_its_plug_is_metered():
    """It lies between the cells and the plug: with it out the limiter has nothing to show.  Logic."""
    found = staged(
        captive("X1", "RAW GND", board="pack", signals="BAT+, BAT-", gives="4S 40A"),
        two_pin("F1", "RAW", "ON", value="30A"),
        plug("J1", "ON GND", board="power", family="XT60", signals="VBAT, GND", takes="9-26V 9A"),
        pads("P1", "ON2 GND", board="power", signals="VBAT, GND", gives="1:4S 9A"),
        two_pin("F2", "ON2", "LIT", value="1A"),
        pads("P2", "LIT GND", board="lamp", signals="VBAT, GND", takes="9-26V 0.3A"),
    )
    said = [row.do for row in found.rows]
    (metered,) = [n for n, do in enumerate(said) if "onto the plug of pack" in do]
    assert "nothing on its output; fuse in F1" in said[metered]
    assert not any("fuse is in F1" in do for do in said)


def boat_with_a_winch(*, main_fuse):
    """A battery without a plug: a winch on pads, and a regulator whose plug is behind a fuse of its own."""
    before = [two_pin("F1", "RAW", "ON", value="30A")] if main_fuse else []
    return staged(
        captive("X1", "RAW GND" if main_fuse else "ON GND", board="battery", signals="BAT+, BAT-", gives="4S 40A"),
        *before,
        splice("S1", "ON"),
        two_pin("F2", "ON", "REG", value="5A"),
        pads("P1", "ON GND", board="winch", signals="VBAT, GND", takes="9-26V 9A"),
        plug("J1", "REG GND", board="regulator", family="JST VH", signals="VBAT, GND", takes="9-26V 2A"),
        splice("S2", "GND"),
    )


def test_one_plug_of_several_loads_does_not_part_the_pack_from_the_craft():
    """Power through a smoke stopper in that plug alone would leave the winch on the battery as it is.  Logic."""
    said = [row.do for row in boat_with_a_winch(main_fuse=True).rows]
    assert not any("onto the plug of battery" in do for do in said)
    (limited,) = [do for do in said if "Smoke stopper in place of the fuse in F1" in do]
    assert "See that the fuse is in F2. The plug into regulator/J1. " in limited


def test_a_fuse_of_one_branch_is_no_place_for_the_limiter():
    """The winch is not behind it.  Logic."""
    found = boat_with_a_winch(main_fuse=False)
    said = " ".join(row.do for row in found.rows)
    assert "in place of the fuse" not in said and "onto the plug of battery" not in said
    assert "between the pad and the bare end of the plus lead of battery" in said


def test_a_breaker_is_switched_and_nothing_is_taken_out_of_it():
    found = staged(
        captive("X1", "RAW GND", board="battery", signals="BAT+, BAT-", gives="4S 40A"),
        two_pin("CB1", "RAW", "ON", value="30A"),
        pads("P1", "ON GND", board="winch", signals="VBAT, GND", takes="9-26V 9A"),
    )
    said = [row.do for row in found.rows]
    assert any(do.endswith("switch CB1 on") for do in said) and not any("fuse" in do for do in said)


def test_what_is_soldered_at_both_ends_is_not_plugged_in():
    """A receiver whose own plug was cut off for the pads."""
    found = staged(
        *PACKED,
        *CONTROLLER,
        captive("X9", "V5B GND R", board="receiver", family="JST GH", signals="5V, GND, TX", takes="5V 0.1A"),
        pads("P9", "V5B GND R", board="controller", signals="5V, GND, RX", gives="5V 1A"),
    )
    soldered = [row.do for row in found.rows if "Plug cable" in row.do and "JST" not in row.do]
    made = small_craft(
        captive("X9", "V5B GND R", board="receiver", family="JST GH", signals="5V, GND, TX", takes="5V 0.1A"),
        pads("P9", "V5B GND R", board="controller", signals="5V, GND, RX", gives="5V 1A"),
        power("GND"),
    )
    assert [cable.ends for cable in made.cables]  # its wires are one cable all the same
    assert not any(stage.startswith("cables that bring no supply") for stage in stages(found)), soldered


IN_SERIES = (
    captive("X1", "TOP LOW", board="battery aft", signals="BAT+, BAT-", gives="1:12V 30A"),
    captive("X2", "MID GND", board="battery fore", signals="BAT+, BAT-", gives="1:12V 30A"),
    two_pin("F1", "LOW", "MID", value="40A"),
)


def test_a_fuse_between_packs_is_where_the_limiter_goes_when_plus_has_none():
    """All that flows comes through it; with it out nothing has power.  Logic."""
    drive = pads("P1", "TOP GND", board="drive", signals="VBAT, GND", takes="18-32V 9A")
    found = staged(*IN_SERIES, drive, settings=CraftSettings(battery=Volts(21.0, 28.8)))
    said = [row.do for row in found.rows]
    assert any("Smoke stopper in place of the fuse in F1" in do for do in said)
    assert not any("before that joint is soldered" in do for do in said)


def test_a_fuse_between_packs_is_in_when_the_limiter_is_in_plus():
    drive = pads("P1", "ON GND", board="drive", signals="VBAT, GND", takes="18-32V 9A")
    plus = two_pin("F2", "TOP", "ON", value="30A")
    found = staged(*IN_SERIES, plus, drive, settings=CraftSettings(battery=Volts(21.0, 28.8)))
    alone, limited = [row.do for row in found.rows if "moke stopper" in row.do and "F2" in row.do][:2]
    assert alone.endswith("the pack is on; fuse in F1")
    assert "See that the fuse is in F1. Smoke stopper in place of the fuse in F2" in limited
