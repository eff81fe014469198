"""Signals and supplies without a ground beside them.

Each ESC signal needs its ground: autopilot wiki on ESCs and motors; the rest common practice, no source.
"""

from __future__ import annotations

from crafts.craft_kit import captive, pads, plug, power
from crafts.finding_kit import findings_of, rules
from tabside.model.findings import Severity
from tabside.rules.no_return import no_return


def graded(*symbols):
    return [each.severity.value for each in findings_of(no_return, *symbols)]


def test_no_ground_at_all_is_an_error():
    found = findings_of(
        no_return,
        plug("J1", "V A B -", board="pilot", signals="5V, TX, RX, GND"),
        plug("J2", "V B A -", board="gps", signals="5V, TX, RX, GND"),
    )
    assert rules(found) == ["no-return"]
    assert found[0].severity is Severity.ERROR
    assert "pilot/J1:4 (GND) to gps/J2:4 (GND)" in found[0].fix


def through_the_battery(near, far):
    return (
        plug("J1", "A", board="pilot", signals=near),
        plug("J2", "A", board="other", signals=far),
        pads("TP1", "GND", board="pilot", signals="GND"),
        pads("TP2", "GND", board="other", signals="GND"),
        captive("X1", "GND", board="pack", signals="GND", kind="captive"),
        power("GND"),
    )


def test_ground_only_through_other_cables():
    assert graded(*through_the_battery("VIDEO_IN", "VIDEO_OUT")) == ["warning"]
    assert graded(*through_the_battery("M1", "M1")) == ["warning"]
    assert graded(*through_the_battery("CUR", "CUR")) == ["warning"]
    assert graded(*through_the_battery("TX", "RX")) == ["note"]


def test_quiet_with_ground_in_the_same_cable():
    assert not graded(
        plug("J1", "V A B G", board="pilot", signals="5V, TX, RX, GND"),
        plug("J2", "V B A G", board="gps", signals="5V, TX, RX, GND"),
    )


def test_quiet_for_single_pads_with_a_ground_among_them():
    assert not graded(
        pads("TP1", "A", board="pilot", signals="M1"),
        pads("TP2", "G", board="pilot", signals="GND"),
        pads("TP3", "A", board="esc", signals="M1"),
        pads("TP4", "G", board="esc", signals="GND"),
    )


def test_quiet_for_motor_phases_and_unknown_names():
    assert not graded(
        pads("TP1", "A B C", board="esc", signals="A, B, C"), captive("X1", "A B C", board="motor", signals="A, B, C")
    )
    assert not graded(pads("TP1", "A", board="esc", signals="FOO"), captive("X1", "A", board="motor", signals="BAR"))


def test_a_lead_that_may_be_the_ground_makes_it_a_warning():
    assert graded(
        plug("J1", "A B", board="pilot", signals="TX, FOO"), plug("J2", "A B", board="gps", signals="RX, BAR")
    ) == ["warning"]


def test_a_ground_that_meets_an_unnamed_contact_counts():
    assert not graded(
        plug("J1", "A B", board="pilot", signals="TX, GND"), plug("J2", "A B", board="gps", signals="RX, BAR")
    )


def test_a_buzzer_between_supply_and_its_switch_is_a_note():
    assert graded(
        plug("J4", "A B", board="pilot", signals="5V, BZ-"), captive("P1", "A B", board="buzzer", signals="+, -")
    ) in (["note"], [])
    assert graded(
        plug("J4", "A B", board="pilot", signals="5V, BZ-"), captive("P1", "A B", board="buzzer", signals="BZ+, BZ-")
    ) == ["note"]


def test_grounds_of_one_board_are_joined_inside_whatever_their_nets():
    assert graded(
        plug("J1", "A", board="pilot", signals="TX"),
        plug("J2", "A", board="gps", signals="RX"),
        plug("J3", "G1 P", board="pilot", signals="GND, 5V"),
        plug("J4", "G1 P", board="hub", signals="GND, 5V"),
        plug("J5", "G2 Q", board="hub", signals="GND, 5V"),
        plug("J6", "G2 Q", board="gps", signals="GND, 5V"),
    ) == ["note"]


def test_two_boards_without_ground_are_told_once():
    found = findings_of(
        no_return,
        pads("TP1", "A", board="pilot", signals="TX"),
        pads("TP2", "B", board="pilot", signals="RX"),
        pads("TP3", "A", board="gps", signals="RX"),
        pads("TP4", "B", board="gps", signals="TX"),
    )
    assert rules(found) == ["no-return"]


def test_a_missing_ground_is_told_beside_a_clash_on_another_link():
    found = findings_of(
        no_return,
        plug("J1", "+5V B GND", board="pilot", signals="5V, TX, GND"),
        plug("J2", "GND B +5V", board="gps", signals="5V, RX, GND"),
        plug("J3", "+5V V -", board="pilot", signals="5V, VIDEO_IN, GND"),
        plug("J4", "+5V V -", board="camera", signals="5V, VIDEO_OUT, GND"),
        power("GND"),
        power("+5V"),
    )
    assert [each.link for each in found] == [("J3", "J4")]
