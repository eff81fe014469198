"""The continuity sheet of small crafts, typed by hand from the drawing.

That every wire is tested and every short looked for is published practice (NASA-STD-8739.4, IPC/WHMA-A-620 as quoted by
a supplier); the order of the rows and the ground check are this product's own.
"""

import pytest

from crafts.craft_kit import captive, craft, pads, plug, power, splice, two_pin
from crafts.small_craft import CAMERA, FUSED, LIGHT, PACK, RADIO, small_craft
from tabside.analysis.joined.lead_ends import how_leads_are_made
from tabside.analysis.judgement import Judgement
from tabside.model.craft import CraftSettings
from tabside.model.roles import Volts
from tabside.prove.bench.mistakes import MistakeKind
from tabside.prove.continuity import ground_plugs_for, prove_craft, spare_plugs
from tabside.prove.measurement import At, RowKind, When
from tabside.prove.measurement import Test as Kind


def proof_of(*symbols, craft_of=small_craft, **more):
    made = craft_of(*symbols, **more)
    return prove_craft(made, how_leads_are_made(made), Judgement(made).pack)


def measured(*symbols, **more):
    return proof_of(*symbols, **more).rows


def of(kind, rows):
    return [row for row in rows if row.test is kind]


def places(ends):
    return {f"{end.termination}:{end.contact}" for end in ends}


def by_eye(proof):
    return {mistake.id for mistake in proof.mistakes if mistake.id in proof.by_eye}


def test_the_meter_itself_comes_first():
    first, *rest = measured(*RADIO)
    assert (first.test, first.when, first.expect) == (Kind.METER, When.METER, "beeps; note the reading")
    assert "subtract it" in first.note and rest


def test_a_cable_is_measured_loose_then_from_each_of_its_boards():
    """Three wires from end to end; ground beeps from both boards, which shows the fourth and a mirror at either end."""
    rows = measured(*RADIO)[1:]
    assert [row.test for row in rows] == [Kind.WIRE] * 3 + [Kind.GROUND] * 2
    first = rows[0]
    assert (first.where.termination, first.where.contact, places(first.joined)) == ("J1", "1", {"J3:1"})
    assert places(first.open) == {"J3:2", "J3:3", "J3:4"} and first.plugged == ()
    assert first.words.startswith("Black on pilot/J1:1 (5V); red along radio/J3: only 1 (5V) beeps")
    ground = rows[3]
    assert (ground.where.at, ground.where.board, ground.plugged) == (At.GROUND, "pilot", ("J1",))
    assert (places(ground.joined), places(ground.open)) == ({"J3:4"}, {"J3:1"})
    assert "hold" in ground.meter and {row.group for row in rows} == {"Cable C1: pilot/J1, radio/J3"}


def test_a_limit_says_which_wire_it_rests_on():
    """28 AWG: 0.0649 ohm a foot (published table); two GH contacts of 50 mohm (JST): 0.0649 x 1.2 + 0.1 + 0.05."""
    rows = of(Kind.WIRE, measured(*RADIO, leads={"J1:1 - J3:1": {"gauge_awg": 28, "length_mm": 304.8}}))
    assert (rows[0].limit_ohm, rows[0].note) == (0.23, "28 AWG, 304.8 mm") and "below 1 ohm" in rows[0].expect
    assert rows[1].limit_ohm is None and "not known" in rows[1].note


def test_the_sheet_says_what_it_is_worth():
    proof = proof_of(*RADIO)
    assert f"6 rows with the meter find {len(proof.mistakes)} of {len(proof.mistakes)} mistakes" in proof.worth
    assert "cold joints" in proof.worth and "a drawing that is wrong" in proof.worth


def test_the_steps_for_the_eye_are_named():
    proof = proof_of(*LIGHT)
    looks = [proof.step_of[row.id] for row in proof.rows if row.kind is RowKind.LOOK]
    assert len(looks) == 2 and f"by eye, steps {looks[0]}, {looks[1]}; not seen" in proof.worth


def test_ground_in_the_middle_shows_no_mirror_and_says_so():
    proof = proof_of(
        plug("J1", "V GND S", board="hub", family="JST GH", signals="5V, GND, VIDEO_IN"),
        plug("J2", "V GND S", board="camera", family="JST GH", signals="5V, GND, VIDEO_OUT"),
        power("GND"),
    )
    assert by_eye(proof) == {"mirrored-plug@J1", "mirrored-plug@J2"}
    assert all("ground lies in the middle" in words for words in proof.by_eye.values())
    looks = of(Kind.LOOK, proof.rows)
    assert [row.where.termination for row in looks] == ["J1", "J2"]
    assert all("contact 1" in row.expect and row.kind is RowKind.LOOK for row in looks)


def test_doubled_grounds_may_change_places_but_none_may_be_left_out():
    proof = proof_of(
        plug("J1", "GND GND A", board="a", family="JST GH", signals="GND, GND, X"),
        plug("J2", "GND GND A", board="b", family="JST GH", signals="GND, GND, X"),
        power("GND"),
    )
    ids = {mistake.id for mistake in proof.mistakes}
    assert "swapped-contacts@J1.1+J1.2" not in ids and "bridge@J1.1+J1.2" not in ids
    assert {"wire-left-out@J1.1+J2.1", "wire-left-out@J1.2+J2.2"} <= ids


def test_a_large_plug_needs_no_more_rows_than_its_wires_and_a_few():
    nets = [f"N{n}" for n in range(40)]
    names = ", ".join(f"X{n}" for n in range(40))
    rows = measured(
        plug("J1", nets, board="a", family="JST GH", signals=names),
        plug("J2", nets, board="b", family="JST GH", signals=names),
    )
    assert len(rows) <= 44


def test_a_soldered_end_is_measured_after_it_is_soldered_pad_by_pad():
    """Two wires of no stated colour: swapped on their pads they would beep loose, not once they are soldered."""
    proof = proof_of(
        plug("J5", "A B", board="pilot", family="JST GH", signals="TX, RX"),
        pads("P2", "A B", board="radio", signals="RX, TX"),
    )
    soldered = of(Kind.SOLDERED, proof.rows)
    assert {(row.where.contact, *places(row.joined)) for row in soldered} <= {("1", "P2:1"), ("2", "P2:2")} and soldered
    assert all(row.plugged == ("P2",) for row in soldered)
    assert "swapped-at-solder@P2.1+P2.2" not in by_eye(proof)


def test_a_bridge_between_soldered_pads_of_signals_is_for_the_eye():
    assert "pad-bridge@P2.1+P2.2" in by_eye(proof_of(*LIGHT))


def test_supplies_soldered_at_both_ends_are_proved_from_ground_to_ground():
    rows = measured(
        pads("P1", "V GND", board="power", signals="5V, GND", gives="5V 1A"),
        pads("P2", "V GND", board="pilot", signals="5V, GND"),
        plug("J9", "A GND", board="pilot", family="JST GH", signals="TX, GND"),
        power("GND"),
        craft_of=craft,
    )
    (ground,) = of(Kind.GROUND, rows)
    assert (ground.where.board, ground.when, ground.plugged) == ("power", When.SOLDERED, ("P1", "P2"))
    assert places(ground.joined) == {"P2:2", ":"} and places(ground.open) == {"P2:1"}


def test_isolated_ground_is_no_ground_to_check_from():
    rows = measured(
        plug("J1", "A B GND", board="hub", family="JST GH", signals="TX, RX, GND"),
        plug("J2", "B A GND", board="gps", family="JST GH", signals="TX, RX, GND", isolated="yes"),
        power("GND"),
    )
    assert not of(Kind.GROUND, rows)


def test_what_only_takes_a_supply_is_not_promised_to_stay_quiet():
    """A lamp, a fan or a heater conducts like a wire."""
    rows = measured(
        plug("J1", "V A GND", board="hub", family="JST GH", signals="5V, TX, GND"),
        plug("J2", "V GND", board="fan", family="JST GH", signals="5V, GND"),
        plug("J3", "A GND", board="radio", family="JST GH", signals="RX, GND"),
        power("GND"),
    )
    from_fan = [row for row in of(Kind.GROUND, rows) if row.where.board == "fan"]
    assert not any(row.open for row in from_fan)


def test_a_lead_that_begins_inside_a_part_is_looked_at():
    proof = proof_of(*CAMERA, power("GND"))
    assert not of(Kind.WIRE, proof.rows)
    (look,) = of(Kind.LOOK, proof.rows)
    assert look.where.termination == "J7" and by_eye(proof) == {mistake.id for mistake in proof.mistakes}


def test_motor_windings_are_no_fault_and_any_order_of_phases_is_right():
    proof = proof_of(
        captive("J1", "A B C", board="motor", signals="PHASE_A, PHASE_B, PHASE_C", family="MR30"),
        plug("J2", "A B C", board="drive", signals="PHASE_A, PHASE_B, PHASE_C", family="MR30"),
    )
    assert len(proof.rows) == 1 and not proof.mistakes


def test_no_resistance_is_ever_measured_on_a_pack():
    settings = CraftSettings(battery=Volts(12.0, 16.8))
    rows = measured(*PACK, settings=settings)
    (volts,) = of(Kind.VOLTS, rows)
    assert (places([volts.where]), places(volts.joined), volts.volts) == ({"J9:2"}, {"J9:1"}, (12.0, 16.8))
    assert "red lead in the V jack" in volts.meter and volts.words.startswith("Red on power/J9:2 (VBAT); black on")
    assert volts is rows[-1]
    beeps = [row for row in rows if row.kind is RowKind.BEEP and row.test not in (Kind.METER, Kind.SHORT)]
    assert not beeps


def test_probe_never_placed_on_a_pack_s_plug():
    """The pack keeps its plug; a lead with a plug for it is made and measured without the pack."""
    rows = measured(
        captive("J8", "B_P B_N", board="pack", family="XT60", signals="VBAT, GND", gives="VBAT 30A"),
        pads("P1", "B_P B_N", board="power", signals="VBAT, GND"),
    )
    beeps = [row for row in rows if row.kind is RowKind.BEEP and row.test is not Kind.METER]
    assert beeps and all("J8:" not in row.words.replace("plug for pack/J8:", "") for row in beeps)


def test_a_pack_soldered_to_a_board_is_measured_before_its_last_wire():
    rows = measured(
        captive("X1", "PACK GND", board="pack", signals="VBAT, GND", gives="VBAT 30A"),
        two_pin("F1", "PACK", "VBAT", value="30A"),
        pads("P1", "VBAT GND", board="power", signals="VBAT, GND"),
    )
    (volts,) = of(Kind.VOLTS, rows)
    assert volts.where.at is At.BARE and volts.joined[0].at is At.GROUND
    assert "minus soldered already" in volts.start


def test_no_ohms_at_pads_where_a_pack_s_own_leads_are_soldered_too():
    rows = measured(
        captive("X1", "VBAT GND", board="pack", signals="VBAT, GND", gives="VBAT 30A"),
        pads("P1", "VBAT GND", board="power", signals="VBAT, GND", leads_max=4),
        pads("P2", "VBAT GND", board="drive", signals="VBAT, GND"),
        plug("J1", "A GND", board="drive", family="JST GH", signals="PWM, GND"),
        plug("J2", "A GND", board="power", family="JST GH", signals="PWM, GND"),
    )
    for row in rows:
        assert row.kind is not RowKind.BEEP or "P1" not in row.plugged, row.words


def test_packs_in_series_are_measured_each_and_together():
    """Two of 6 to 8.4 V: 12 to 16.8 V at the finished plug, and no single pack is held against that."""
    rows = measured(
        captive("X1", "P M", board="first", signals="BAT+, BAT-", gives="1:6-8.4V 30A"),
        captive("X2", "M GND", board="second", signals="BAT+, BAT-", gives="1:6-8.4V 30A"),
        plug("J1", "P GND", board="hub", family="XT60", signals="BAT+, BAT-", takes="9-26V 9A"),
    )
    volts = {row.where.termination: row.volts for row in of(Kind.VOLTS, rows)}
    assert volts["J1"] == (12.0, 16.8) and volts["X1"] == volts["X2"] == (6.0, 8.4)


def test_a_pack_that_states_the_volts_it_goes_by_is_expected_to_reach_all_of_its_cells_volts():
    for gives, reach in (("1:14.8V 60A", (12.0, 16.8)), ("1:12V 7A", (10.5, 14.4)), ("1:4S 60A", (12.0, 16.8))):
        (row,) = of(
            Kind.VOLTS,
            measured(
                captive("X1", "P M", board="pack", family="XT60", signals="BAT+, BAT-", gives=gives),
                pads("P1", "P M", board="power", signals="VBAT, GND"),
            ),
        )
        assert row.volts == reach


FUSED_PACK_AND_DRIVE = (
    captive("X1", "RAW GND", board="pack", signals="BAT+, BAT-", gives="4S 30A"),
    two_pin("F1", "RAW", "V", value="20A"),
    splice("S1", "V"),
    splice("S2", "GND"),
    pads("P1", "V GND", board="drive", signals="VBAT, GND", takes="9-26V 9A"),
)


def test_each_board_that_a_soldered_pack_feeds_is_looked_at_for_a_short_before():
    """Its plus is soldered last, so that no meter at another board's pads sees it.  Logic."""
    rows = measured(
        *FUSED_PACK_AND_DRIVE,
        pads("P2", "V GND", board="regulator", signals="VIN, GND", takes="9-26V 1A"),
    )
    assert [row.where.termination for row in of(Kind.SHORT, rows)] == ["P1", "P2"]


def test_a_soldered_pack_looks_for_no_short_where_its_plus_comes_alone_or_over_a_plug():
    """A pad without a ground beside it gives the meter no second end; a plug is looked at with the craft."""
    rows = measured(
        *FUSED_PACK_AND_DRIVE,
        pads("P2", "V", board="regulator", signals="VIN", takes="9-26V 1A"),
        pads("P3", "GND", board="regulator", signals="GND"),
        plug("Q1", "V GND", board="radio", family="JST GH", signals="VIN, GND", takes="9-26V 1A"),
    )
    assert [(row.where.termination, places(row.open)) for row in of(Kind.SHORT, rows)] == [("P1", {"P1:1"})]


def test_packs_in_series_and_one_by_itself_are_each_looked_at_across_their_own_board():
    """The lowest pack's minus belongs to the highest one's plus, and no other pack's does.  Logic."""
    rows = measured(
        captive("X1", "A AM", board="first", signals="BAT+, BAT-", gives="1:6-8.4V 30A"),
        plug("J1", "A AM", board="lamp", family="XT60", signals="BAT+, BAT-", takes="5-9V 1A"),
        captive("X2", "P M", board="second", signals="BAT+, BAT-", gives="1:6-8.4V 30A"),
        captive("X3", "M GND", board="third", signals="BAT+, BAT-", gives="1:6-8.4V 30A"),
        plug("J2", "P GND", board="hub", family="XT60", signals="BAT+, BAT-", takes="9-26V 9A"),
    )
    shorts = {(row.where.termination, row.where.contact, *places(row.open)) for row in of(Kind.SHORT, rows)}
    assert shorts == {("J1", "2", "J1:1"), ("J2", "2", "J2:1")}


def test_packs_in_parallel_are_compared_before_they_are_connected():
    packs = [
        captive(f"X{n}", "B_P B_N", board=f"pack{n}", family="XT60", signals="VBAT, GND", gives="VBAT 30A")
        for n in (1, 2)
    ]
    rows = measured(*packs, pads("P1", "B_P B_N", board="power", signals="VBAT, GND"))
    volts = of(Kind.VOLTS, rows)
    assert len(volts) == 2 and all("within 0.1 V" in row.note for row in volts)


SWITCHED = (
    captive("X1", "PACK GND", board="pack", family="XT60", signals="BAT+, BAT-", gives="VBAT 30A"),
    two_pin("F1", "PACK", "FUSED", value="15A"),
    two_pin("SW1", "FUSED", "V"),
    pads("P1", "V GND", board="driver", signals="BAT+, BAT-", takes="9-26V 9A"),
    plug("J1", "T GND", board="driver", family="JST GH", signals="TX, GND"),
    plug("J2", "T GND", board="radio", family="JST GH", signals="RX, GND"),
)
LAMP = (
    pads("P2", "V GND", board="driver", signals="VBAT, GND", gives="VBAT 5A"),
    two_pin("SW2", "V", "L"),
    captive("X2", "L GND", board="lamp", signals="VBAT, GND", takes="9-26V 1A"),
)


def test_a_main_switch_on_the_way_is_on_while_a_short_is_looked_for():
    (short,) = of(Kind.SHORT, measured(*SWITCHED))
    assert "fuses in: F1; switched on: SW1" in short.note and short.off == () and "SW1" in short.plugged


def test_a_switch_that_feeds_a_lamp_alone_is_off_meanwhile():
    (short,) = of(Kind.SHORT, measured(*SWITCHED, *LAMP))
    assert short.off == ("SW2",) and "switched on: SW1, every other switch off" in short.note
    assert "lamp" not in short.note


def test_with_two_packs_both_are_away_while_a_short_is_looked_for():
    """The other one would reach the meter through the splice."""
    twins = (
        captive("X1", ["A", "GND"], board="left pack", family="XT60", signals="BAT+, BAT-", gives="VBAT 30A"),
        captive("X2", ["B", "GND"], board="right pack", family="XT30", signals="BAT+, BAT-", gives="VBAT 30A"),
        two_pin("F1", "A", "V", value="15A"),
        two_pin("F2", "B", "V", value="15A"),
        pads("P1", "V GND", board="driver", signals="BAT+, BAT-", takes="9-26V 9A"),
    )
    shorts = of(Kind.SHORT, measured(*twins))
    assert len(shorts) == 2 and all("every pack away" in row.end for row in shorts)


def test_the_switch_of_a_craft_that_is_nothing_but_a_lamp_is_on():
    (short,) = of(
        Kind.SHORT,
        measured(
            captive("X1", "PACK GND", board="pack", family="XT60", signals="BAT+, BAT-", gives="VBAT 30A"),
            two_pin("SW1", "PACK", "V"),
            pads("P1", "V GND", board="lamp", signals="BAT+, BAT-", takes="9-26V 9A"),
        ),
    )
    assert "switched on: SW1" in short.note and "lamp may conduct like a wire" in short.note


def test_a_lamp_behind_the_main_switch_is_taken_off_first():
    lamp = captive("X2", "V GND", board="lamp", signals="VBAT, GND", takes="9-26V 1A")
    (short,) = of(Kind.SHORT, measured(*SWITCHED, lamp))
    assert "lamp may conduct like a wire: take it off first" in short.note


def test_a_known_ground_is_named_by_a_pad_that_is_not_measured():
    """The pad may be the mistake where its own wire is measured: then nothing but "known" is said."""
    pad = pads("P1", "V5 GND", board="pilot", signals="5V, GND")
    ground = of(Kind.GROUND, measured(*RADIO, pad))[0]
    assert ground.start.startswith("a known ground of pilot (its pad printed GND at pilot/P1), pilot/J1 plugged in")
    pair = [
        pads("P5", "V GND", board="hub", signals="5V, GND", gives="5V 1A"),
        pads("P6", "V GND", board="pump", signals="5V, GND"),
        plug("J5", "T GND", board="pump", family="JST GH", signals="TX, GND"),
    ]
    own = of(Kind.GROUND, measured(*pair))
    assert own and not any("its pad printed" in f"{row.start} {row.end} {row.expect}" for row in own)


def test_a_board_on_which_the_drawing_names_no_ground_says_how_one_is_known_and_what_to_do_without():
    for ground in of(Kind.GROUND, measured(*RADIO)):
        anywhere = f"a known ground of {ground.where.board} (one that its maker calls ground; not a screw, not a shell)"
        assert ground.start.startswith(anywhere)
        assert f"if you find none on {ground.where.board}, leave this step open and look at contact 1" in ground.note


def test_volts_behind_a_fuse_want_the_fuse_in():
    """Without it the finished plug reads nothing, and the pack is blamed: logic."""
    packed = (
        captive("J8", "RAW GND", board="pack", signals="BAT+, BAT-", gives="VBAT 30A"),
        two_pin("F1", "RAW", "FUSED", value="15A"),
        plug("J9", "FUSED GND", board="hub", family="XT60", signals="BAT+, BAT-", takes="9-26V 9A"),
    )
    (volts,) = of(Kind.VOLTS, measured(*packed))
    assert volts.note.startswith("the pack alone, fuse in F1 for this")
    assert not any("fuse in" in row.note for row in of(Kind.VOLTS, measured(*PACK)))


def test_a_ground_that_was_named_once_in_a_row_is_not_named_at_length_again():
    pair = [
        pads("P5", "V GND", board="hub", signals="5V, GND", gives="5V 1A"),
        pads("P6", "V GND", board="pump", signals="5V, GND"),
        plug("J5", "T GND", board="pump", family="JST GH", signals="TX, GND"),
    ]
    row = next(row for row in of(Kind.GROUND, measured(*pair)) if "by a spare plug" in row.end)
    assert "the known ground of pump" in row.expect and "by a spare plug" not in row.expect


def test_before_the_pack_the_craft_must_not_be_a_short():
    rows = measured(*PACK)
    (short,) = of(Kind.SHORT, rows)
    assert (places([short.where]), places(short.open)) == ({"J9:1"}, {"J9:2"})
    assert short.where.lead is None and "J9" not in short.plugged
    assert short.expect == "no steady beep; the reading climbs"


@pytest.mark.parametrize(
    ("reference", "value", "expect"),
    [
        ("F1", "10 A", "beeps with the fuse in, no beep with it out"),
        ("SW1", "", "beeps switched on, no beep switched off"),
        ("JP1", "", "beeps closed, no beep open"),
        ("D1", "", "reads one way only"),
        ("R1", "1k", "its value is 1k"),
        ("CB1", "20 A", "beeps when it is on, no beep when it is off"),
    ],
)
def test_an_in_line_part_is_measured_from_end_to_end(reference, value, expect):
    rows = measured(
        pads("P3", "F_P GND", board="power", signals="VBAT, GND"),
        two_pin(reference, "F_P", "F_Q", value=value),
        pads("P1", "F_Q GND", board="pilot", signals="VBAT, GND"),
        power("GND"),
    )
    (part,) = of(Kind.PART, rows)
    assert (part.start, part.end) == (f"{reference}:1", f"on {reference}:2") and expect in part.expect
    assert part.kind is (RowKind.LOOK if reference in ("D1", "R1") else RowKind.BEEP)


def test_wires_without_a_plug_are_gathered_by_link():
    groups = {row.group for row in measured(*FUSED, power("GND"))}
    assert {"Wires F1 - power/P3", "Wires F1 - pilot/P1", "Wires pilot/P1 - power/P3"} & groups


def test_a_splice_is_measured_through_to_each_end_without_any_board():
    rows = measured(
        plug("J1", "A G", board="hub", family="JST GH", signals="X, 5V"),
        splice("X1", "G"),
        plug("J2", ["A", "G"], board="left", family="JST GH", signals="X, 5V"),
        plug("J3", ["-", "G"], board="right", family="JST GH", signals="X, 5V"),
    )
    through = of(Kind.THROUGH, rows)
    assert any(places(row.joined) >= {"J1:2", "J3:2"} for row in through)
    assert all(row.plugged == ("X1",) for row in through)


def test_a_plug_of_two_rows_has_both_kinds_of_neighbours():
    """Numbered 1 to 4 and 5 to 8 along the rows, or to and fro: 1 has 2, 3 or 5 beside it."""
    nets = [f"N{n}" for n in range(1, 9)]
    footprint = "Connector_Molex:Molex_Micro-Fit_3.0_43045-0812_2x04_P3.00mm_Vertical"
    proof = proof_of(plug("J1", nets, board="a", footprint=footprint), plug("J2", nets, board="b", footprint=footprint))
    beside_1 = {mistake.at[1][1] for mistake in proof.mistakes if mistake.id.startswith("bridge@J1.1+")}
    assert beside_1 == {"2", "3", "5"}


def test_an_id_is_made_of_what_is_measured():
    """Another cable beside it changes no id of this one; another wire map, gauge or board does."""
    alone = {row.id: row.words for row in measured(*RADIO)}
    with_more = {row.id for row in measured(*RADIO, *LIGHT)}
    assert set(alone) <= with_more
    other = plug("J3", "RX GND TX V", board="radio", family="JST GH", signals="TX, GND, RX, 5V")
    moved = {row.id for row in measured(RADIO[0], other)}
    assert len(set(alone) & moved) == 1  # the meter itself


def test_rows_that_work_on_a_wire_can_have_spoiled():
    proof = proof_of(*RADIO, *LIGHT)
    again = proof.rows_of(["W1"])
    assert again and {row.cable for row in again} == {"C1"}


def test_cables_with_each_other_s_labels_are_found():
    symbols = []
    for n, far in ((1, "A B"), (3, "B A")):
        nets = [f"{name}{n}" for name in ("A", "B")]
        symbols.append(plug(f"J{n}", nets, board="hub", family="JST GH", signals="TX, RX"))
        order = [f"{name}{n}" for name in far.split()]
        symbols.append(plug(f"J{n + 1}", order, board=f"radio{n}", family="JST SH", signals="RX, TX"))
    proof = proof_of(*symbols)
    (label,) = [mistake for mistake in proof.mistakes if mistake.kind.value == "label on the wrong cable"]
    assert label.id not in proof.by_eye and proof.found_by[label.id]


def test_a_cable_plug_is_not_thought_into_the_plug_of_a_part():
    """The camera's own plug has the shape of J1 and other functions; nothing enters a plug but a connector."""
    proof = proof_of(
        plug("J1", "A B", board="hub", family="JST GH", signals="TX, RX"),
        plug("J2", "B A", board="radio", family="JST SH", signals="RX, TX"),
        captive("X1", "V G", board="camera", family="JST GH", signals="VIN, GND"),
        plug("J3", "V G", board="hub", family="JST GH", signals="5V, GND"),
    )
    entered = {m.at[1][0] for m in proof.mistakes if m.kind is MistakeKind.LOOK_ALIKE}
    assert "J3" in entered and "X1" not in entered


def test_one_look_at_a_set_of_pads_names_the_wires_of_all_cables_there():
    rows = measured(
        pads("P1", "A B C D", board="hub", signals="TX1, RX1, TX2, RX2"),
        plug("J2", "A B", board="radio", family="JST GH", signals="RX, TX"),
        plug("J3", "C D", board="gps", family="JST GH", signals="RX, TX"),
    )
    (look,) = [row for row in rows if row.kind is RowKind.LOOK and row.where.termination == "P1"]
    assert look.leads == ("W1", "W2", "W3", "W4")


@pytest.mark.parametrize(("family", "wanted"), [("JST GH", 1), ("JST ZH", 1), ("JST PH", 0), ("JST XH", 0)])
def test_a_spare_connector_is_wanted_where_a_probe_would_spread_a_contact(family, wanted):
    """Pitches 1.25, 1.5, 2.0 and 2.5 mm; that 2.0 mm takes a probe: common practice, no source."""
    made = small_craft(
        plug("J1", "V A GND", board="hub", family=family, signals="5V, TX, GND"),
        plug("J2", "V A GND", board="radio", family=family, signals="5V, RX, GND"),
        power("GND"),
    )
    proof = prove_craft(made, how_leads_are_made(made), None)
    assert len(spare_plugs(proof.world)) == wanted


def test_a_splice_called_like_a_switch_is_nothing_to_switch_on_for_the_pack_s_volts():
    """S is a switch's letter, and the splice lies on the way of the pack's plus."""

    def notes_of(on_the_way, plus):
        rows = measured(
            captive("X1", "BAT GND", board="pack", signals="VBAT, GND", gives="VBAT 30A"),
            on_the_way,
            plug("J1", [plus, "GND"], board="power", family="XT60", signals="VBAT, GND"),
        )
        return [row.note for row in of(Kind.VOLTS, rows)]

    assert any("S1" in note for note in notes_of(two_pin("S1", "BAT", "PLUS"), "PLUS"))
    spliced = notes_of(splice("S1", "BAT"), "BAT")
    assert spliced and not any("S1" in note for note in spliced)


SPARE = {
    "pilot": plug("J5", "- - - - - OUT", board="pilot", family="JST SH", signals="5V, A, B, C, D, GND"),
    "radio": plug("J6", "- - OTHER", board="radio", family="JST ZH", signals="5V, A, GND"),
}


@pytest.mark.parametrize(
    ("boards", "plugs"),
    [
        ((), ()),
        (("pilot",), (("jst_sh", 6, "pilot/J5"),)),
        (("pilot", "radio"), (("jst_sh", 6, "pilot/J5"), ("jst_zh", 3, "radio/J6"))),
    ],
)
def test_a_ground_is_reached_by_a_plug_for_a_connector_that_is_not_measured_itself(boards, plugs):
    """The contact of the wire that is measured may be the mistake."""
    proof = proof_of(*RADIO, *(SPARE[board] for board in boards))
    assert ground_plugs_for(proof.world, proof.rows) == plugs
    assert ground_plugs_for(proof.world, [row for row in proof.rows if row.test is not Kind.GROUND]) == ()


@pytest.mark.parametrize(
    ("ends", "words"),
    [
        pytest.param("pads", "within 0.1 V of it before they are connected", id="bare ends"),
        pytest.param("plug", "in parallel with pack2 there", id="one plug"),
    ],
)
def test_a_pack_in_parallel_says_what_the_meter_shows_there(ends, words):
    """Bare ends show this pack alone; in a plug the other one's volts are there as well."""
    packs = [captive(f"X{n}", "P N", board=f"pack{n}", signals="BAT+, BAT-", gives="4S 30A") for n in (1, 2)]
    there = {"board": "power", "signals": "VBAT, GND"}
    end = (
        [pads("P1", "P N", **there)]
        if ends == "pads"
        else [splice("J7", "P"), splice("J8", "N"), plug("P1", "P N", family="XT60", **there)]
    )
    volts = of(Kind.VOLTS, measured(*packs, *end))
    assert words in volts[0].note, [row.words for row in volts]


def test_the_eye_is_told_to_look_for_contact_1_at_plugs_that_can_be_turned_alone():
    """A part's own plug is turned; pads have no way round."""
    fan = captive("X1", "V S G", board="fan", family="pinheader_254", signals="5V, TACHO, GND")
    pump = (  # whose own plug another one mates with, elsewhere
        pads("P2", "B G", board="driver", signals="VBAT, GND", gives="VBAT 5A"),
        captive("X3", "B G", board="pump", family="XT30", signals="VBAT, GND", takes="9-26V 5A"),
    )
    header = plug("J1", "V S G", board="pilot", family="pinheader_254", signals="5V, RX, GND")
    turned = measured(header, fan, *pump)
    lamp = measured(pads("P1", "V G", board="hub", signals="5V, GND"), captive("X2", "V G", board="lamp"))
    for rows, told in ((turned, True), (lamp, False)):
        looks = [row.words for row in rows if row.kind is RowKind.LOOK]
        assert looks and any("contact 1 of the plug at the board's contact-1 mark" in words for words in looks) is told


def test_a_row_is_of_the_wires_that_conduct_in_it_alone():
    """Work on another wire spoils it no more than any other row."""
    proof = proof_of(*RADIO)
    for row in of(Kind.WIRE, proof.rows):
        met = {f"{end.termination}:{end.contact}" for end in (row.where, *row.joined)}
        conducting = [mark for mark, ends in proof.world.ends.items() if {":".join(key) for key in ends} <= met]
        assert sorted(row.leads) == sorted(conducting)
