"""Leads that join what must not meet.  Common practice, no source, where none is named."""

from __future__ import annotations

import pytest

from crafts.craft_kit import captive, craft, pads, plug, power, splice, two_pin
from crafts.finding_kit import all_findings, at, findings_of, of_rule, rules
from tabside.model.craft import CraftSettings
from tabside.model.findings import Outcome, Severity
from tabside.model.roles import Volts
from tabside.rules import check_craft
from tabside.rules.role_clash import role_clash


def test_quiet_for_a_uart_with_its_supply_and_ground():
    assert not findings_of(
        role_clash,
        plug("J1", "+5V A B GND", board="pilot", signals="5V TX1 RX1 GND"),
        plug("J2", "+5V B A GND", board="gps", signals="VCC TX RX GND"),
        power("GND"),
        power("+5V"),
    )


def test_a_supply_on_a_signal_is_an_error_that_names_both_contacts_and_the_net():
    found = findings_of(
        role_clash,
        plug("J1", "A S G", board="pilot", signals="9V SDA GND"),
        plug("J2", "S C G", board="compass", signals="SDA SCL GND"),
        plug("J3", "A", board="lamp", signals="SCL"),
    )
    assert [each.severity for each in found] == [Severity.ERROR]
    (only,) = found
    assert only.rule == "role-clash"
    assert at(only) == {"J1:1", "J3:1"}
    assert "9 V supply" in only.message and "pilot/J1:1 (9V)" in only.message
    assert only.where[0].net == "A" and only.where[0].board in ("pilot", "lamp")
    assert only.fix


def test_battery_on_a_5v_camera_is_over_voltage_told_once():
    found = all_findings(
        captive("X1", "VBAT GND", board="pack", signals="VBAT GND", gives="VBAT 30A", family="amass_xt60"),
        pads("TP1", "VBAT GND", board="pilot", signals="VBAT GND"),
        plug("J2", "VBAT V GND", board="camera", signals="5V VIDEO GND", takes="5V 0.2A"),
        plug("J3", "V GND", board="pilot", signals="VIDEO_IN GND"),
        power("GND"),
        power("VBAT"),
    )
    errors = [each for each in found if each.severity is Severity.ERROR]
    assert rules(errors) == ["over-voltage"]
    assert "J2:1" in at(errors[0])


def test_a_camera_for_the_packs_range_is_quiet_when_the_pack_is_known():
    symbols = (
        captive("X1", "VBAT GND", board="pack", signals="VBAT GND", gives="VBAT 30A", family="amass_xt60"),
        plug("J2", "VBAT GND", board="camera", signals="VCC GND", takes="7-26V 0.2A"),
    )
    four_cells = CraftSettings(battery=Volts(12.0, 16.8))
    eight_cells = CraftSettings(battery=Volts(24.0, 33.6))
    assert not findings_of(role_clash, *symbols, settings=four_cells)
    assert rules(findings_of(role_clash, *symbols, settings=eight_cells)) == ["over-voltage"]


def test_cells_named_by_the_pack_itself_are_enough():
    def made(cells):
        return findings_of(
            role_clash,
            captive("X1", "VBAT GND", board="pack", signals="VBAT GND", gives=f"{cells} 30A", family="amass_xt60"),
            plug("J2", "VBAT GND", board="camera", signals="VCC GND", takes="7-26V 0.2A"),
        )

    assert not made("4S")
    assert rules(made("8S")) == ["over-voltage"]


def test_a_wrong_rail_is_found_between_contacts_that_no_lead_joins_directly():
    # VIN says nothing about its volts and agrees with both neighbours.
    found = findings_of(
        role_clash,
        captive("X1", "VBAT GND", board="pack", signals="VBAT GND"),
        pads("TP1", "VBAT GND", board="switchboard", signals="VIN GND"),
        pads("TP2", "VBAT GND", board="receiver", signals="5V GND"),
        power("GND"),
    )
    assert rules(found) == ["over-voltage"]
    assert at(found[0]) == {"X1:1", "TP2:1"}


def test_one_finding_for_the_contact_that_does_not_belong_on_a_large_net():
    boards = [pads(f"TP{n}", "GND", board=f"board {n}", signals="GND") for n in range(1, 8)]
    found = findings_of(role_clash, *boards, pads("TP9", "GND", board="odd", signals="SDA", leads_max=8), power("GND"))
    assert len(found) == 1
    assert "odd/TP9:1 (SDA) meets" in found[0].message


def test_role_and_volts_pass_through_a_fuse_and_a_splice():
    found = findings_of(
        role_clash,
        captive("X1", "A", board="pack", signals="VBAT"),
        two_pin("F1", "A", "B"),
        splice("J9", "B"),
        pads("TP1", "B", board="driver", signals="VBAT"),
        pads("TP2", "B", board="receiver", signals="5V"),
    )
    assert rules(found) == ["over-voltage"]
    assert "TP2:1" in at(found[0])


def test_a_button_between_a_signal_and_ground_is_quiet():
    assert not findings_of(
        role_clash,
        pads("TP1", "A GND", board="pilot", signals="PPM GND"),
        two_pin("SW1", "A", "GND"),
        pads("TP2", "GND", board="frame", signals="GND"),
        power("GND"),
    )


def test_a_fuse_between_battery_and_a_signal_is_an_error():
    found = findings_of(
        role_clash,
        captive("X1", "A", board="pack", signals="VBAT"),
        two_pin("F1", "A", "B"),
        plug("J2", "B", board="pilot", signals="SDA"),
    )
    assert [each.severity for each in found] == [Severity.ERROR]


def test_motors_of_other_numbers_are_one_warning_per_link():
    found = findings_of(
        role_clash,
        plug("J1", "G A B C D", board="pilot", signals="GND M1 M2 M3 M4"),
        plug("J2", "G B A D C", board="driver", signals="GND M1 M2 M3 M4"),
    )
    assert [(each.rule, each.severity) for each in found] == [("role-clash", Severity.WARNING)]
    assert "motor 1 on motor 2" in found[0].message


def test_unknown_names_say_nothing():
    assert not findings_of(
        role_clash,
        plug("J1", "A B", board="pilot", signals="FOO BAR"),
        plug("J2", "A B", board="thing", signals="BAZ GND"),
    )


def test_under_voltage_when_a_source_stays_below_what_a_board_takes():
    found = findings_of(
        role_clash,
        plug("J1", "A G", board="pilot", signals="5V GND", gives="5V 1A"),
        plug("J2", "A G", board="camera", signals="VIN GND", takes="7-26V"),
    )
    assert rules(found) == ["under-voltage"]


def test_bus_lines_of_three_boards_are_quiet_and_one_wrong_line_is_told_once():
    def bus(last):
        return findings_of(
            role_clash,
            plug("J1", "D C G", board="pilot", signals="SDA SCL GND"),
            pads("TP1", "D C G", board="hub", signals="SDA SCL GND"),
            plug("J2", "D C G", board="compass", signals="SDA SCL GND"),
            plug("J3", last, board="barometer", signals="SDA SCL GND"),
            power("G"),
        )

    assert not bus("D C G")
    found = bus("C D2 G")
    assert len(of_rule("role-clash", found)) == 1


def test_names_that_look_crossed_leave_wires_of_power_undecided_and_an_order_of_motors_does_not():
    (feeds,) = findings_of(
        role_clash,
        plug("J1", "A B C", board="loom", signals="V_A V_B X"),
        plug("J2", "B A C", board="lamp", signals="V_A V_B X"),
    )
    (motors,) = findings_of(
        role_clash,
        plug("J1", "A B G", board="pilot", signals="M1 M2 GND"),
        plug("J2", "B A G", board="drive", signals="M1 M2 GND"),
    )
    assert (feeds.undecided, motors.undecided) == (2, 0)


@pytest.mark.parametrize(
    ("far", "told"),
    [("RXP, RXN, TXP, TXN", False), ("RXN, RXP, TXN, TXP", True), ("RX+, RX-, TX+, TX-", False)],
)
def test_sending_pairs_cross_to_receiving_ones_plus_to_plus(far, told):
    plus = "+" in far
    found = all_findings(
        plug("J1", "A B C D", board="one", signals="TX+, TX-, RX+, RX-" if plus else "TXP, TXN, RXP, RXN"),
        plug("J2", "A B C D", board="two", signals=far),
    )
    assert bool(of_rule("role-clash", found)) is told


@pytest.mark.parametrize("reference", ["JP1", "SW1"])
@pytest.mark.parametrize(("signal", "is_data"), [("TX", True), ("SDA", True), ("nCS", False), ("PWM1", False)])
def test_a_data_line_joined_to_a_supply_by_a_jumper_is_an_error_and_a_strap_is_not(reference, signal, is_data):
    """Nothing limits the current there; a chip select and a plain signal are strapped on purpose."""
    found = findings_of(
        role_clash,
        plug("J1", "V G", board="pilot", signals="3V3, GND", gives="3V3 1A"),
        two_pin(reference, "V", "A"),
        plug("J2", "A G", board="radio", signals=f"{signal}, GND"),
    )
    assert [each.severity for each in found if each.severity is Severity.ERROR] == [Severity.ERROR] * is_data


def test_a_supply_on_a_name_of_several_readings_leaves_the_verdict_open():
    made = craft(
        pads("TP1", "V G", board="hub", signals="12V, GND"),
        captive("X1", "V K", board="strip", signals="B, 12V"),
        pads("TP2", "K G", board="low", signals="OUT, GND"),
    )
    assert check_craft(made).outcome is not Outcome.CLEAR
