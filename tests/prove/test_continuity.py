"""The measurements of small crafts, typed by hand from the drawing.

The order of the landmark test is the product's own; that must be measured is common practice, no source.
"""

import pytest

from craft_kit import captive, craft, pads, plug, power, splice, two_pin
from small_craft import CAMERA, FUSED, LIGHT, PACK, RADIO, small_craft
from tabside.documents.build import build_plan
from tabside.model.craft import CraftSettings
from tabside.model.findings import Judged, Verdict
from tabside.model.roles import Volts
from tabside.prove.continuity import continuity
from tabside.prove.measurement import Test as Kind


def measured(*symbols, craft_of=small_craft, **more):
    made = craft_of(*symbols, **more)
    return continuity(build_plan(made, Verdict((), Judged(len(made.leads), 0, 0, 0, 0))))


def of(kind, found):
    return [each for each in found if each.test is kind]


def ends(kind, found):
    return [(each.start, each.end) for each in of(kind, found)]


def test_the_meter_itself_comes_first():
    first, *rest = measured(*RADIO)
    assert (first.test, first.start, first.end) == (Kind.METER, "one probe", "the other probe")
    assert "take this reading off" in first.note and rest


def test_every_lead_of_a_cable_then_what_must_be_open_then_the_landmarks():
    found = measured(*RADIO)
    assert [each.test for each in found[1:]] == [Kind.LEAD] * 4 + [Kind.OPEN] * 6 + [Kind.LANDMARK] * 4
    assert ends(Kind.LEAD, found) == [
        ("pilot/J1:1 (5V)", "radio/J3:1 (5V)"),
        ("pilot/J1:2 (TX)", "radio/J3:3 (RX)"),
        ("pilot/J1:3 (RX)", "radio/J3:2 (TX)"),
        ("pilot/J1:4 (GND)", "radio/J3:4 (GND)"),
    ]
    assert {each.group for each in found[1:]} == {"Cable C1: pilot/J1, radio/J3"}


def test_a_limit_says_which_wire_it_rests_on():
    """28 AWG: 0.0649 ohm a foot (published table); two GH contacts of 50 mohm (JST): 0.0649 x 1.2 + 0.1 + 0.05."""
    rows = of(Kind.LEAD, measured(*RADIO, leads={"J1:1 - J3:1": {"gauge_awg": 28, "length_mm": 304.8}}))
    assert (rows[0].limit_ohm, rows[0].expect, rows[0].note) == (0.23, "sounds; below 1 ohm", "28 AWG, 304.8 mm")
    assert (rows[1].limit_ohm, rows[1].expect) == (None, "sounds") and "not known" in rows[1].note


def test_neighbours_and_supply_against_ground_must_be_open_each_pair_of_leads_once():
    """At J3 the two middle leads lie the other way round: two new pairs of neighbours, and one that is done already."""
    found = of(Kind.OPEN, measured(*RADIO))
    assert [(each.start, each.end, each.note) for each in found] == [
        ("pilot/J1:1 (5V)", "pilot/J1:2 (TX)", "neighbours"),
        ("pilot/J1:2 (TX)", "pilot/J1:3 (RX)", "neighbours"),
        ("pilot/J1:3 (RX)", "pilot/J1:4 (GND)", "neighbours"),
        ("pilot/J1:1 (5V)", "pilot/J1:4 (GND)", "supply and ground"),
        ("radio/J3:1 (5V)", "radio/J3:2 (TX)", "neighbours"),
        ("radio/J3:3 (RX)", "radio/J3:4 (GND)", "neighbours"),
    ]  # fmt: skip
    assert {each.expect for each in found} == {"does not sound"}


def test_the_landmark_test_of_both_plugs():
    found = of(Kind.LANDMARK, measured(*RADIO))
    assert [(each.start, each.end, each.expect) for each in found] == [
        ("known ground of pilot, with pilot/J1 plugged in", "radio/J3:4 (GND)", "sounds"),
        ("known ground of pilot, with pilot/J1 plugged in", "radio/J3:1 (5V)", "does not sound"),
        ("known ground of radio, with radio/J3 plugged in", "pilot/J1:4 (GND)", "sounds"),
        ("known ground of radio, with radio/J3 plugged in", "pilot/J1:1 (5V)", "does not sound"),
    ]


def test_a_cable_drawn_in_mirror_image_fails_the_landmark_test():
    """Expected is what the loose end's board has there; the drawing joins pilot's 5V to it."""
    found = of(Kind.LANDMARK, measured(
        plug("J1", "A B C D", board="pilot", family="JST GH", signals="5V, TX, RX, GND"),
        plug("J3", "D C B A", board="radio", family="JST GH", signals="5V, TX, RX, GND"),
    ))  # fmt: skip
    assert ("known ground of pilot, with pilot/J1 plugged in", "radio/J3:4 (GND)", "sounds") in [
        (each.start, each.end, each.expect) for each in found
    ]
    (row,) = [each for each in found if each.end == "radio/J3:4 (GND)"]
    assert row.leads == ("W1",)  # which goes to pilot's 5V: it will not sound


def test_leads_that_one_net_joins_need_not_be_open():
    found = measured(
        plug("J1", "GND GND A", board="a", family="JST GH", signals="GND, GND, X"),
        plug("J2", "GND GND A", board="b", family="JST GH", signals="GND, GND, X"),
        power("GND"),
    )
    assert ends(Kind.OPEN, found) == [("a/J1:2 (GND)", "a/J1:3 (X)")]


def test_a_large_plug_needs_no_more_measurements_than_twice_its_leads():
    nets = [f"N{n}" for n in range(30)]
    names = ", ".join("5V" if n % 5 == 0 else "GND" if n % 5 == 1 else f"X{n}" for n in range(30))
    found = of(Kind.OPEN, measured(
        plug("J1", nets, board="a", family="JST GH", signals=names),
        plug("J2", nets, board="b", family="JST GH", signals=names),
    ))  # fmt: skip
    assert 29 <= len(found) <= 60


def test_a_soldered_end_is_measured_before_it_is_soldered():
    found = measured(*LIGHT)
    assert ends(Kind.LEAD, found) == [
        ("pilot/J5:1 (LED+)", "bare end of W1 for light/P2:1 (LED+)"),
        ("pilot/J5:2 (LED-)", "bare end of W2 for light/P2:2 (LED-)"),
    ]
    assert all("before its bare end is soldered" in each.note for each in of(Kind.LEAD, found))


def test_a_lead_that_begins_inside_a_part_is_looked_at_and_its_open_pairs_are_not_measured():
    found = measured(*CAMERA, power("GND"))
    assert ends(Kind.EYE, found) == [
        ("camera/J6:1 (5V)", "pilot/J7:1 (5V)"),
        ("camera/J6:2 (VIDEO)", "pilot/J7:2 (VIDEO)"),
        ("camera/J6:3 (GND)", "pilot/J7:3 (GND)"),
    ]
    assert not of(Kind.LEAD, found) and not of(Kind.OPEN, found)


def test_motor_windings_are_no_fault():
    found = measured(
        captive("J1", "A B C", board="motor", signals="PHASE_A, PHASE_B, PHASE_C", family="MR30"),
        plug("J2", "A B C", board="drive", signals="PHASE_A, PHASE_B, PHASE_C", family="MR30"),
    )
    assert {each.test for each in found[1:]} == {Kind.EYE}


def test_no_resistance_is_ever_measured_on_a_pack():
    settings = CraftSettings(battery=Volts(12.0, 16.8))
    found = measured(*PACK, settings=settings)
    (volts,) = of(Kind.VOLTS, found)
    assert (volts.start, volts.end) == ("red probe: pack/J8:2 (VBAT)", "black probe: pack/J8:1 (GND)")
    assert volts.expect == "DC volts: 12 to 16.8 V, no minus sign"
    ohms = [each for each in found if each.test is not Kind.VOLTS]
    assert not [each for each in ohms if "pack/J8:" in each.start + each.end]


def test_the_plug_that_meets_a_pack_s_own_is_named_so_that_no_probe_goes_to_the_pack():
    """The pack keeps its plug; a lead with a plug for it is made and measured loose."""
    found = measured(
        captive("J8", "B_P B_N", board="pack", family="XT60", signals="VBAT, GND", gives="VBAT 30A"),
        pads("P1", "B_P B_N", board="power", signals="VBAT, GND"),
    )
    assert ends(Kind.LEAD, found) == [
        ("plug for pack/J8:1 (VBAT), not on it", "bare end of W1 for power/P1:1 (VBAT)"),
        ("plug for pack/J8:2 (GND), not on it", "bare end of W2 for power/P1:2 (GND)"),
    ]
    assert all("not on it" in each.start and "not on it" in each.end for each in of(Kind.OPEN, found))


def test_before_the_battery_the_craft_must_not_be_a_short():
    found = measured(*PACK)
    (last,) = of(Kind.SHORT, found)
    assert last is found[-1]
    assert (last.start, last.end) == ("power/J9:2 (VBAT)", "power/J9:1 (GND)")
    assert last.expect.startswith("does not keep sounding")


@pytest.mark.parametrize(
    ("reference", "value", "expect"),
    [
        ("F1", "10 A", "sounds"),
        ("SW1", "", "sounds in one position, does not in the other"),
        ("JP1", "", "sounds closed, does not open"),
        ("D1", "", "diode range: conducts one way only"),
    ],
)
def test_an_in_line_part_is_measured_from_end_to_end(reference, value, expect):
    found = measured(
        pads("P3", "F_P GND", board="power", signals="VBAT, GND"),
        two_pin(reference, "F_P", "F_Q", value=value),
        pads("P1", "F_Q GND", board="pilot", signals="VBAT, GND"),
        power("GND"),
    )
    (part,) = of(Kind.PART, found)
    assert (part.start, part.end, part.expect) == (f"{reference}:1", f"{reference}:2", expect)
    assert len(of(Kind.LEAD, found)) == 3


def test_leads_without_a_plug_are_gathered_by_link():
    groups = {each.group for each in of(Kind.LEAD, measured(*FUSED, power("GND")))}
    assert groups == {"Leads F1 - power/P3", "Leads F1 - pilot/P1", "Leads pilot/P1 - power/P3"}


def test_neighbours_that_a_fuse_joins_are_open_only_while_it_is_out():
    found = measured(
        plug("J1", "A B", board="a", family="JST XH", signals="VBAT, VBAT"),
        plug("J2", "A B", board="b", family="JST XH", signals="VBAT, VBAT"),
        two_pin("F1", "A", "B"),
        craft_of=craft,
    )
    assert {each.expect for each in of(Kind.OPEN, found)} == {"does not sound while F1 is out or off"}


def test_the_landmark_test_goes_through_a_splice_to_each_board_behind_it():
    found = of(Kind.LANDMARK, measured(
        plug("J1", "A G", board="hub", family="JST GH", signals="X, GND"),
        splice("X1", "G"),
        plug("J2", ["A", "G"], board="left", family="JST GH", signals="X, GND"),
        plug("J3", ["-", "G"], board="right", family="JST GH", signals="X, GND"),
    ))  # fmt: skip
    reached = {each.end for each in found if each.start.startswith("known ground of hub")}
    assert reached == {"left/J2:2 (GND)", "right/J3:2 (GND)"}
    assert any("through X1" in each.note for each in found)


def test_without_ground_between_two_plugs_the_landmark_test_says_that_it_cannot_be_done():
    found = of(Kind.LANDMARK, measured(
        plug("J1", "A B", board="a", family="JST GH", signals="TX, RX"),
        plug("J2", "B A", board="b", family="JST GH", signals="TX, RX"),
    ))  # fmt: skip
    assert [each.expect for each in found] == ["cannot be done: no lead between them is ground"] * 2


def test_a_plug_of_two_rows_has_both_kinds_of_neighbours():
    """Numbered 1 to 4 and 5 to 8 along the rows, or to and fro: 1 has 2, 3 or 5 beside it."""
    nets = [f"N{n}" for n in range(1, 9)]
    found = of(Kind.OPEN, measured(
        plug("J1", nets, board="a", footprint="Connector_Molex:Molex_Micro-Fit_3.0_43045-0812_2x04_P3.00mm_Vertical"),
        plug("J2", nets, board="b", footprint="Connector_Molex:Molex_Micro-Fit_3.0_43045-0812_2x04_P3.00mm_Vertical"),
    ))  # fmt: skip
    beside_1 = {each.end.partition(":")[2].split()[0] for each in found if each.start.startswith("a/J1:1")}
    assert beside_1 == {"2", "3", "5"}
