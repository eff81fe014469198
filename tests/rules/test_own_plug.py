"""A part's own plug goes in contact for contact.  Expectations follow from that alone; common practice, no source."""

from __future__ import annotations

import pytest

from crafts.craft_kit import captive, plug
from crafts.finding_kit import all_findings, findings_of
from tabside.rules.own_plug import own_plug


def pack(there_nets: str, there_signals: str, family: str = "XT60"):
    return (
        captive("J1", "A B", board="pack", family=family, signals="BAT+, BAT-", gives="VBAT 10A"),
        plug("J2", there_nets, board="power", family=family, signals=there_signals),
    )


@pytest.mark.parametrize("family", ["XT60", "JST XH"])
def test_a_pack_drawn_crosswise_fails_though_every_lead_agrees(family):
    (found,) = findings_of(own_plug, *pack("B A", "BAT-, BAT+", family))
    assert (found.rule, found.severity.value) == ("role-clash", "error")
    assert "ground" in found.message and "Do not plug it in" in found.fix
    assert {at.termination for at in found.where} == {"J1", "J2"}


@pytest.mark.parametrize("family", ["XT60", "JST XH"])
def test_a_pack_drawn_contact_for_contact_is_quiet(family):
    assert not findings_of(own_plug, *pack("A B", "BAT+, BAT-", family))


def test_a_plug_that_fits_nowhere_there_is_quiet():
    symbols = pack("B A", "BAT-, BAT+")
    assert not findings_of(own_plug, symbols[0], plug("J2", "B A", board="p", family="XT30", signals="BAT-, BAT+"))


def test_what_the_leads_tell_already_is_not_told_again():
    drawn_wrong = pack("A B", "BAT-, BAT+")
    assert not findings_of(own_plug, *drawn_wrong)
    assert any(f.severity.value == "error" for f in all_findings(*drawn_wrong))


def test_motor_phases_in_any_order_are_quiet():
    assert not findings_of(
        own_plug,
        captive("J1", "A B C", board="motor", family="amass_mr30", signals="PHASE_A, PHASE_B, PHASE_C"),
        plug("J2", "C A B", board="drive", family="amass_mr30", signals="PHASE_C, PHASE_A, PHASE_B"),
    )


def test_a_sensor_whose_contacts_can_be_moved_is_a_note():
    (found,) = findings_of(
        own_plug,
        captive("J1", "V G D", board="sensor", family="JST GH", signals="5V, GND, SDA", takes="5V 0.1A"),
        plug("J2", "G V D", board="pilot", family="JST GH", signals="GND, 5V, SDA", gives="5V 1A"),
    )
    assert (found.rule, found.severity.value) == ("straight-hazard", "note")
    assert "Re-pin" in found.fix


def test_a_lead_that_names_cells_is_never_a_note_to_re_pin():
    (found,) = findings_of(
        own_plug,
        captive("J1", "G V W", board="cells", family="JST XH", signals="GND, 1S, 2S", gives="2:5V 0.1A"),
        plug("J2", "V G W", board="charger", family="JST XH", signals="5V, GND, 2S", takes="5V 0.1A"),
    )
    assert (found.rule, found.severity.value) == ("role-clash", "error")
    assert "Never re-pin a live plug" in found.fix


def undrawn(captive_signals, there_signals, *, board="cam", family="JST GH", gives="VBAT 5A; 5V 0.5A", **more):
    return findings_of(
        own_plug,
        captive("J1", "G V -", board=board, family=family, signals=captive_signals, **more),
        plug("J2", "G V -", board="pilot", family=family, signals=there_signals, gives=gives),
    )


@pytest.mark.parametrize(
    ("part", "there"),
    [
        pytest.param("GND, 5V, GND", "GND, 5V, VBAT", id="battery on ground"),
        pytest.param("GND, 5V, TX", "GND, 5V, VBAT", id="battery on an output"),
        pytest.param("GND, 5V, 5V", "GND, 5V, 3V3", id="two rails"),
    ],
)
def test_contacts_that_are_not_drawn_are_joined_by_the_plug_all_the_same(part, there):
    (found,) = undrawn(part, there, takes="5V 0.1A")
    assert (found.rule, found.severity.value) == ("role-clash", "error")
    assert "The drawing connects nothing there, the plug does" in found.message
    assert "write nc" in found.fix


@pytest.mark.parametrize(
    ("part", "there"),
    [
        pytest.param("GND, 5V, nc", "GND, 5V, VBAT", id="taken out of the part's plug"),
        pytest.param("GND, 5V, RX", "GND, 5V, TX", id="they agree"),
        pytest.param("GND, 5V, FOO", "GND, 5V, BAR", id="nobody knows"),
        pytest.param("GND, 5V, RX", "GND, 5V, RX", id="two inputs: a link that nobody wants"),
        pytest.param("GND, 5V, SDA", "GND, 5V, SCL", id="lines that nobody uses"),
        pytest.param("GND, 5V, GND", "GND, 5V, GND", id="a second ground"),
    ],
)
def test_contacts_that_are_not_drawn_and_may_meet_are_quiet(part, there):
    assert not undrawn(part, there, takes="5V 0.1A")


def test_two_outputs_that_meet_undrawn_are_a_warning():
    (found,) = undrawn("GND, 5V, TX", "GND, 5V, TX", takes="5V 0.1A")
    assert (found.rule, found.severity.value) == ("role-clash", "warning")


def test_a_pack_whose_third_contact_would_meet_ground_is_not_plugged_in():
    (found,) = findings_of(
        own_plug,
        captive("J1", "G V -", board="pack", family="JST XH", signals="GND, VBAT, BAT+", gives="VBAT 10A"),
        plug("J2", "G V -", board="driver", family="JST XH", signals="GND, VBAT, GND", takes="7-17V 5A"),
    )
    assert found.severity.value == "error" and "Do not plug it in" in found.fix


def test_two_supplies_that_meet_undrawn_are_an_error():
    """The red lead left out of the drawing, but not out of the plug."""
    (found,) = findings_of(
        own_plug,
        captive("J1", "G - S", board="esc", family="servo_254", signals="GND, 5V, PWM", gives="5V 2A"),
        plug("J2", "G - S", board="pilot", family="servo_254", signals="GND, 5V, PWM", gives="5V 2A"),
    )
    assert (found.rule, found.severity.value) == ("role-clash", "error") and "two supplies" in found.message


def test_an_undrawn_short_is_told_whatever_else_is_wrong_there():
    told = findings_of(
        own_plug,
        captive("J1", "A B C -", board="cam", family="JST GH", signals="GND, TX, RX, GND"),
        plug("J2", "A C B -", board="pilot", family="JST GH", signals="GND, TX, TX, VBAT", gives="VBAT 5A"),
    )
    assert any(f.severity.value == "error" and "battery on ground" in f.message for f in told)


@pytest.mark.parametrize(("flagged", "severity"), [((), "error"), ((2,), "note")])
def test_a_second_regulator_is_taken_out_of_the_plug_where_it_is_flagged(flagged, severity):
    (found,) = findings_of(
        own_plug,
        captive("J1", "S - G", board="esc", family="JST XH", signals="S, 5V, GND", gives="5V 3A", flagged=flagged),
        plug("J2", "S - G", board="pilot", family="JST XH", signals="S1, 5V, GND", gives="5V 2A", flagged=flagged),
        plug("J3", "A B", board="esc", kind="pad", signals="BAT+, GND", takes="7-17V 10A"),
    )
    assert found.severity.value == severity and "Take that contact out" in found.fix
