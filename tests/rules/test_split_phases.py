"""Motors whose phases are mixed up.  Common practice, no source; their order only sets the direction."""

from __future__ import annotations

from crafts.craft_kit import captive, pads
from crafts.finding_kit import alarms, all_findings, at, findings_of, rules
from tabside.model.findings import Severity
from tabside.rules.split_phases import split_phases


def two_motors(first, second):
    return (
        pads("TP1", "A B C", board="driver", signals="A, B, C"),
        pads("TP2", "D E F", board="driver", signals="A, B, C"),
        captive("X1", first, board="left motor", signals="U, V, W"),
        captive("X2", second, board="right motor", signals="U, V, W"),
    )


def test_one_phase_exchanged_between_two_motors_is_one_error():
    found = findings_of(split_phases, *two_motors("D B C", "A E F"))
    assert rules(found) == ["role-clash"]
    assert found[0].severity is Severity.ERROR
    assert {"TP2:1", "X1:1"} <= at(found[0])
    assert "left motor/X1" in found[0].message


def test_quiet_for_phases_in_any_order():
    assert not alarms(all_findings(*two_motors("C A B", "E D F")))


def test_quiet_for_pads_drawn_one_by_one():
    single = [pads(f"TP{n}", net, board="driver", signals="M1A" if n == 1 else "A") for n, net in enumerate("ABC", 1)]
    assert not findings_of(split_phases, *single, captive("X1", "A B C", board="motor", signals="A, B, C"))


def test_quiet_for_a_motor_left_half_open():
    assert not findings_of(split_phases, *two_motors("A B -", "D E F"))


def test_quiet_for_the_phases_of_two_motors_in_one_row():
    assert not findings_of(
        split_phases,
        pads("TP1", "A B C D E F", board="driver", signals="A, B, C, A, B, C"),
        captive("X1", "A B C", board="left motor", signals="U, V, W"),
        captive("X2", "D E F", board="right motor", signals="U, V, W"),
    )


def test_two_phases_of_a_motor_on_one_wire_are_told_once():
    (found,) = findings_of(
        split_phases,
        pads("TP1", "A - C", board="driver", signals="A, B, C"),
        captive("X1", "A A C", board="motor", signals="U, V, W"),
    )
    assert (found.rule, found.severity) == ("role-clash", Severity.ERROR) and "two phases of a motor" in found.message
