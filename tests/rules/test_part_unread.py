"""Parts that are counted and named.  Circuits are common practice, no source."""

from __future__ import annotations

import pytest

from crafts.craft_kit import craft, lead_ends, pads, plug, power, two_pin
from crafts.finding_kit import all_findings, findings_of
from tabside.model.craft import Kind
from tabside.model.findings import Outcome, Severity
from tabside.rules import check_craft
from tabside.rules.part_unread import not_fitted, part_unread

PILOT = plug("J1", "V GND", signals="VBAT GND", board="pilot")
RADIO = plug("J2", "W GND", signals="VBAT GND", board="radio")


def symbol(reference, nets, lib_id, names, **more):
    return plug(reference, nets, lib_id=lib_id, value=lib_id.split(":")[1], names=names, **more)


TRANSISTOR = symbol("Q1", "G W V", "Device:Q_PMOS", ["G", "D", "S"])
MOTOR = symbol("M1", "W GND", "Motor:Motor_DC", {"1": "+", "2": "-"})
MODULE = symbol("U1", "W GND", "Regulator_Linear:LM7805_TO220", ["VI", "GND"])
RELAY = symbol("K1", "W GND G V", "Relay:G5Q-1A", ["~"] * 4)


@pytest.mark.parametrize(("part", "name"), [(TRANSISTOR, "Q1"), (MODULE, "U1"), (RELAY, "K1")])
def test_a_part_without_a_word_is_named_where_wires_meet_it(part, name):
    (found,) = findings_of(part_unread, PILOT, RADIO, part)
    assert found.severity is Severity.WARNING and name in found.message and found.where[0].termination == name


def test_a_transistor_gets_its_wires():
    made = craft(PILOT, RADIO, plug("J3", "G", signals="PWM", board="pilot"), TRANSISTOR)
    assert {"J1:1 - Q1:3", "J2:1 - Q1:2", "J3:1 - Q1:1"} <= lead_ends(made)
    assert made.terminations["Q1"].kind is Kind.PAD and made.terminations["Q1"].unread


@pytest.mark.parametrize(
    "part",
    [
        MOTOR,
        symbol("M2", "W GND", "Motor:Fan", {"1": "+", "2": "-"}),
        symbol("M3", "T GND W", "Motor:Fan_Tacho", {"1": "Tacho", "2": "-", "3": "+"}),
        symbol("M4", "P W GND", "Motor:Motor_Servo", {"1": "PWM", "2": "+", "3": "-"}),
        symbol("LS1", "W GND", "Device:Speaker", ["1", "2"]),
        symbol("BZ1", "W GND", "Device:Buzzer", {"1": "+", "2": "-"}),
        symbol("LA1", "GND W", "Device:Lamp", {"1": "-", "2": "+"}),
        symbol("M5", "W GND", "own:winch", ["~", "~"]),
    ],
)
def test_plain_motors_lamps_and_sounders_have_a_word(part):
    # Pin names: KiCad's libraries Device and Motor.
    found = all_findings(plug("J3", "W GND P", signals="5V GND PWM", gives="5V 2A", board="psu"), part)
    assert not [each for each in found if each.severity is not Severity.NOTE]


def test_a_motor_of_unknown_pins_stays_without_a_word():
    module = symbol("M1", "V GND", "own:module", ["VIN", "GND"])
    assert findings_of(part_unread, PILOT, RADIO, module)


def test_quiet_where_everything_has_a_word():
    parts = [
        two_pin("C1", "V", "GND"),
        two_pin("F1", "V", "W"),
        two_pin("R1", "V", "GND"),
        two_pin("D2", "GND", "V"),
        plug("H1", ["GND"], lib_id="Mechanical:MountingHole_Pad"),
        pads("TP1", "V"),
        symbol("M1", "W GND", "Motor:Motor_DC", ["+", "-"], board="motor", kind="captive"),
    ]
    assert not findings_of(part_unread, PILOT, RADIO, *parts, power("GND"))


def test_the_letters_of_a_transistor_are_no_names_of_signals():
    gate = plug("J3", "G", signals="PWM", board="pilot")
    assert not [each for each in all_findings(PILOT, RADIO, gate, TRANSISTOR) if each.severity is Severity.ERROR]


def test_a_relays_coil_leaves_nothing_undecided():
    coil = {"A1": "P", "A2": "GND", "11": "V", "14": "W"}
    relay = plug("K1", coil, lib_id="Relay:Relay_SPST-NO", names=dict.fromkeys(coil, "~"))
    found = all_findings(PILOT, RADIO, plug("J3", "P GND", signals="PWM GND", board="pilot"), relay)
    assert not {"not-judged", "part-unread"} & {each.rule for each in found}


@pytest.mark.parametrize("contacts", ["COM NO A1 A2", "11 14 A1 A2", "COM NO COIL1 COIL2"])
def test_a_lamp_over_a_relay_leaves_nothing_undecided(contacts):
    relay = plug("K1", dict(zip(contacts.split(), ("V", "W", "P", "GND"), strict=True)), lib_id="own:K")
    lamp = plug("J2", "W GND", signals="VBAT GND", board="lamp")
    found = all_findings(PILOT, lamp, plug("J3", "P GND", signals="PWM GND", board="pilot"), relay)
    assert not {"not-judged", "part-unread"} & {each.rule for each in found}


def test_a_part_that_nothing_meets_is_a_note():
    (found,) = findings_of(part_unread, PILOT, RADIO, symbol("U1", "x y z", "Device:U", ["a", "b", "c"]))
    assert found.severity is Severity.NOTE and "U1" in found.message


def test_a_battery_symbol_is_a_pack_with_leads_of_its_own():
    made = craft(PILOT, symbol("BT1", "V GND", "Device:Battery", ["+", "-"]))
    pack = made.terminations["BT1"]
    assert pack.kind is Kind.CAPTIVE and [contact.role.battery for contact in pack.contacts] == [True, False]
    assert lead_ends(made) == {"BT1:1 - J1:1", "BT1:2 - J1:2"}


def test_a_battery_symbol_the_wrong_way_round_clashes():
    found = all_findings(PILOT, symbol("BT1", "GND V", "Device:Battery", ["+", "-"]))
    assert any(each.severity is Severity.ERROR for each in found)


def test_what_is_not_fitted_gets_no_wire_and_is_named():
    boards = [PILOT, plug("J3", "V GND", signals="VBAT GND", board="lamp", dnp=True)]
    made = craft(*boards, plug("J4", "V GND", signals="VBAT GND", board="camera"))
    assert lead_ends(made) == {"J1:1 - J4:1", "J1:2 - J4:2"} and "J3" not in made.terminations
    (found,) = findings_of(not_fitted, *boards)
    assert found.severity is Severity.NOTE and "J3" in found.message


def test_a_part_not_fitted_does_not_cut_a_wire():
    made = craft(
        PILOT,
        RADIO,
        plug("J3", "GND", signals="GND", board="lamp", dnp=True),
        runs=[("J1:2", "J3:1"), ("J3:1", "J2:2")],
    )
    assert "J1:2 - J2:2" in lead_ends(made)


def test_a_fuse_that_is_not_fitted_leaves_its_two_sides_apart():
    (found,) = findings_of(not_fitted, PILOT, RADIO, two_pin("F1", "V", "W", dnp=True))
    assert found.severity is Severity.WARNING and "F1" in found.message


def test_left_out_of_the_parts_list_alone_it_is_built():
    made = craft(PILOT, RADIO, two_pin("F1", "V", "W", in_bom=False))
    assert {"F1:1 - J1:1", "F1:2 - J2:1"} <= lead_ends(made)


def undecided(*parts):
    return [each.undecided for each in findings_of(part_unread, *parts)]


def test_boards_that_no_field_calls_so_leave_the_verdict_open():
    """Two symbols of free letters, wired to each other alone: their plus and minus are swapped.  Logic."""
    pilot = symbol("FC1", "A B C D", "own:pilot", ["5V", "TX", "RX", "GND"])
    receiver = symbol("GPS1", "A B C D", "own:gps", ["GND", "RX", "TX", "VCC"])
    assert undecided(pilot, receiver) == [4]
    assert check_craft(craft(pilot, receiver)).outcome is Outcome.NOT_DECIDED
    assert undecided(PILOT, symbol("U1", "V GND", "own:sonar", ["VIN", "GND"])) == [2]


def test_a_battery_by_its_value_leaves_the_verdict_open_and_other_parts_do_not():
    assert undecided(PILOT, plug("E1", "V GND", lib_id="own:pack", value="4S LiPo", names=["1", "2"])) == [2]
    assert undecided(PILOT, RADIO, symbol("U1", "W V", "own:switch", ["A", "B"])) == [0]
    assert undecided(PILOT, RADIO, TRANSISTOR) == [0]


def test_parts_that_only_meet_each_other_are_met_by_wires():
    (found,) = findings_of(
        part_unread, symbol("U1", "A B", "own:one", ["P", "Q"]), symbol("U2", "A C", "own:two", ["R", "S"])
    )
    assert found.severity is Severity.WARNING


@pytest.mark.parametrize(
    "pins",
    [
        pytest.param({"1": "VI", "2": "GND", "3": "VO"}, id="a linear regulator"),
        pytest.param({"1": "+Vin", "2": "-Vin", "3": "+Vout", "4": "-Vout"}, id="a converter"),
    ],
)
def test_a_regulator_that_no_field_calls_a_board_leaves_the_verdict_open(pins):
    regulator = plug("U1", dict.fromkeys(pins, "N") | {"1": "V", "2": "G"}, lib_id="Own:U", names=pins)
    made = craft(pads("TP1", "V G", board="hub", signals="12V, GND"), regulator)
    assert check_craft(made).outcome is Outcome.NOT_DECIDED
