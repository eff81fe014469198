"""Which contacts a lead may join.  Expectations without a source beside them are common practice, no source."""

from __future__ import annotations

import pytest

from crafts.contact_kit import contact, contacts, giving, labelled, met, named, taking
from tabside.analysis.meeting.agreement import Cause, Outcome, agree
from tabside.facts.labels.role_kinds import role_named
from tabside.model.roles import Direction, Role, RoleClass, Volts

AGREE, CLASH, WARN, NOT_JUDGED = Outcome.AGREE, Outcome.CLASH, Outcome.WARN, Outcome.NOT_JUDGED


@pytest.mark.parametrize(
    ("a", "b", "outcome"),
    [
        # Ground, supply, signal and phase against each other: logic, needs no source.
        ("GND", "GND", AGREE),
        ("GND", "0V", AGREE),
        ("GND", "AGND", AGREE),
        ("GND", "5V", CLASH),
        ("GND", "VBAT", CLASH),
        ("GND", "VCC", CLASH),
        ("GND", "TX1", CLASH),
        ("GND", "SDA", CLASH),
        ("GND", "PHASE_A", CLASH),
        ("5V", "TX1", CLASH),
        ("VBAT", "TLM", CLASH),
        ("VCC", "RX", CLASH),
        ("5V", "PHASE_A", CLASH),
        ("SDA", "PHASE_A", CLASH),
        ("PHASE_A", "PHASE_A", AGREE),
        ("PHASE_A", "PHASE_C", AGREE),
        ("SHIELD", "GND", AGREE),
        ("SHIELD", "SHLD", AGREE),
        ("SHIELD", "5V", CLASH),
    ],
)
def test_classes_of_roles(a, b, outcome):
    assert met(a, b).outcome is outcome


@pytest.mark.parametrize(
    ("a", "b", "outcome"),
    [
        ("FOO", "FOO", AGREE),
        ("foo", "FOO ", AGREE),
        ("FOO", "BAR", NOT_JUDGED),
        ("FOO", "GND", NOT_JUDGED),
        ("FOO", "VBAT", NOT_JUDGED),
        ("", "", NOT_JUDGED),
        ("", "5V", NOT_JUDGED),
    ],
)
def test_unknown_roles_agree_only_by_equal_text(a, b, outcome):
    assert met(a, b).outcome is outcome


UART = "makers' troubleshooting page: TX to RX and RX to TX; TX to TX or RX to RX does not work"
DS009 = "DS-009, TELEM: RTS and CTS cross on the peripheral's side"


@pytest.mark.parametrize(
    ("a", "b", "outcome", "cause"),
    [
        pytest.param("TX1", "RX", AGREE, Cause.NONE, id=UART),
        pytest.param("TX1", "RX7", AGREE, Cause.NONE, id="numbers do not matter"),
        pytest.param("TX", "TX", CLASH, Cause.CROSSING, id="TX on TX"),
        pytest.param("RX", "RX", CLASH, Cause.CROSSING, id="RX on RX"),
        pytest.param("TX1", "TX2", CLASH, Cause.CROSSING, id="TX1 on TX2"),
        pytest.param("RTS", "CTS", AGREE, Cause.NONE, id=DS009),
        pytest.param("RTS", "RTS", CLASH, Cause.CROSSING, id="RTS on RTS"),
        pytest.param("CTS", "CTS", CLASH, Cause.CROSSING, id="CTS on CTS"),
        pytest.param("TX", "CTS", CLASH, Cause.LINES, id="TX on CTS"),
        pytest.param("TX", "RTS", CLASH, Cause.LINES, id="TX on RTS"),
        pytest.param("SDA", "SDA2", AGREE, Cause.NONE, id="buses of other numbers"),
        pytest.param("SCL", "I2C1 SCL", AGREE, Cause.NONE, id="SCL on SCL"),
        pytest.param("SDA", "SCL", CLASH, Cause.LINES, id="role pairs: i2c_sda, i2c_scl"),
        pytest.param("CAN_H", "CANH", AGREE, Cause.NONE, id="DS-009: CAN straight"),
        pytest.param("CAN_H", "CAN_L", CLASH, Cause.LINES, id="role pairs: can_h, can_l"),
        pytest.param("MOSI", "MOSI", AGREE, Cause.NONE, id="role pairs: spi_mosi straight"),
        pytest.param("MOSI", "MISO", CLASH, Cause.LINES, id="role pairs: spi_miso, spi_mosi"),
        pytest.param("SCK", "MISO", CLASH, Cause.LINES, id="SCK on MISO"),
        pytest.param("SDO", "MISO", AGREE, Cause.NONE, id="SDO says not whose output it is"),
        pytest.param("SDI", "SCK", CLASH, Cause.LINES, id="SDI on SCK"),
        pytest.param("SDI", "NSS", CLASH, Cause.LINES, id="SDI on NSS"),
        pytest.param("M1", "M1", AGREE, Cause.NONE, id="motor 1 on motor 1"),
        pytest.param("M1", "S1", AGREE, Cause.NONE, id="other words for a motor"),
        pytest.param("M1", "M4", WARN, Cause.MOTOR, id="firmware can be told"),
        pytest.param("M1", "SIG", AGREE, Cause.NONE, id="a single ESC's signal"),
        pytest.param("TLM", "TLM", AGREE, Cause.NONE, id="telemetry"),
        pytest.param("TLM", "RX4", AGREE, Cause.NONE, id="role pairs: esc_telemetry, uart_rx"),
        pytest.param("TLM", "TX4", CLASH, Cause.LINES, id="role pairs: esc_telemetry, uart_tx"),
        pytest.param("CUR", "CURR", AGREE, Cause.NONE, id="current"),
        pytest.param("CUR", "VOLTAGE", CLASH, Cause.LINES, id="role pairs: current_sense, voltage_sense"),
        pytest.param("CUR", "TLM", CLASH, Cause.LINES, id="current on telemetry"),
        pytest.param("CUR", "M1", CLASH, Cause.LINES, id="current on a motor's signal"),
        pytest.param("SBUS", "RX2", AGREE, Cause.NONE, id="role pairs: sbus, uart_rx when the input inverts"),
        pytest.param("SBUS", "SBUS", AGREE, Cause.NONE, id="SBUS"),
        pytest.param("CRSF TX", "RX2", AGREE, Cause.NONE, id="role pairs: crsf_tx, uart_rx"),
        pytest.param("SA", "TX3", AGREE, Cause.NONE, id="half duplex on a TX"),
        pytest.param("IRC", "TX3", AGREE, Cause.NONE, id="half duplex under another name"),
        pytest.param("VO", "VI", AGREE, Cause.NONE, id="role pairs: video_out, video_in"),
        pytest.param("CAM", "VO", AGREE, Cause.NONE, id="a camera's video"),
        pytest.param("VO", "VO", CLASH, Cause.BOTH_DRIVE, id="two video outputs"),
        pytest.param("VI", "VI", CLASH, Cause.BOTH_LISTEN, id="two video inputs"),
        pytest.param("LED", "LED", AGREE, Cause.NONE, id="LED strip"),
        pytest.param("LED", "DIN", AGREE, Cause.NONE, id="a strip's DIN"),
        pytest.param("BZ-", "BUZZER", AGREE, Cause.NONE, id="buzzer"),
        pytest.param("BZ-", "-", AGREE, Cause.NONE, id="a buzzer's own minus"),
        pytest.param("BZ-", "GND", CLASH, Cause.CLASSES, id="the switched contact on the craft's ground"),
        pytest.param("DP", "D+", AGREE, Cause.NONE, id="USB straight"),
        pytest.param("DP", "DM", CLASH, Cause.LINES, id="USB lines exchanged"),
        pytest.param("SWDIO", "SWCLK", CLASH, Cause.LINES, id="debug lines exchanged"),
        pytest.param("PPM", "SDA", CLASH, Cause.LINES, id="other groups"),
    ],
)
def test_signals(a, b, outcome, cause):
    found = met(a, b)
    assert (found.outcome, found.cause) == (outcome, cause)


def test_rs232_never_meets_logic_but_runs_straight():
    # DE-9 pages (grade C): DTE to DCE is straight, and both ends carry the DTE's names; a null modem crosses 2 and 3.
    assert agree(named("rs232_tx"), labelled("RX1")).clashes
    assert agree(named("rs232_tx"), labelled("RX1")).harm > agree(labelled("TX"), labelled("TX")).harm
    assert agree(named("rs232_tx"), named("rs232_tx")).agrees
    assert agree(named("rs232_tx"), named("rs232_rx")).agrees
    assert agree(named("rs232_rts"), named("rs232_cts")).agrees
    assert agree(named("rs232_tx"), named("rs232_dtr")).clashes
    drives = named("rs232_tx", direction=Direction.DRIVES)
    assert agree(drives, drives).cause is Cause.BOTH_DRIVE


@pytest.mark.parametrize(
    ("a", "b", "outcome"),
    [
        ("5V", "5V", AGREE),
        ("5V", "5V0", AGREE),
        ("5V", "4V5", AGREE),  # 10 % apart, not more
        ("5V", "3V3", CLASH),
        ("9V", "5V", CLASH),
        ("9V", "12V", CLASH),
        ("9V", "10V", AGREE),
        ("10V", "12V", CLASH),
        ("5V", "VCC", AGREE),  # VCC says supply and nothing about its volts
        ("12V", "VIN", AGREE),
        ("VBAT", "VIN", AGREE),
        ("VBAT", "VBAT", AGREE),
        ("VBAT", "BAT+", AGREE),
        ("VBAT", "5V", CLASH),  # hazard row: battery, power_5v
        ("VBAT", "3V3", CLASH),
        ("VBAT", "12V", CLASH),
    ],
)
def test_named_supplies(a, b, outcome):
    assert met(a, b).outcome is outcome


# Pack volts: 3.0 to 4.2 V per cell, guides to lithium packs (grade C).
PACK_4S = Volts(12.0, 16.8)
PACK_8S = Volts(24.0, 33.6)
PACK_1S = Volts(3.0, 4.2)


@pytest.mark.parametrize(
    ("gives", "takes", "pack", "outcome", "cause"),
    [
        ("5", "5", None, AGREE, Cause.NONE),
        ("5.3", "5", None, AGREE, Cause.NONE),
        ("5", "4.9-5.5", None, AGREE, Cause.NONE),
        ("12", "7-26", None, AGREE, Cause.NONE),
        ("5", "7-26", None, CLASH, Cause.UNDER),
        ("12", "4.5-5.5", None, CLASH, Cause.OVER),
        ("5.6", "4.9-5.5", None, CLASH, Cause.OVER),
        ("3.3", "5", None, CLASH, Cause.UNDER),
        ("5", "3.3", None, CLASH, Cause.OVER),
        ("VBAT", "7-26", PACK_4S, AGREE, Cause.NONE),
        ("VBAT", "7-26", PACK_8S, CLASH, Cause.OVER),
        ("VBAT", "7-26", PACK_1S, CLASH, Cause.UNDER),
        ("VBAT", "7-26", None, NOT_JUDGED, Cause.PACK_UNKNOWN),
        ("VBAT", "VBAT", None, AGREE, Cause.NONE),
        ("VBAT", "5", None, CLASH, Cause.OVER),
        ("VBAT", "5", PACK_4S, CLASH, Cause.OVER),
        ("VBAT", "5", PACK_1S, CLASH, Cause.CLASSES),  # whatever the cell count
        ("VBAT", "4.5-5.5", None, CLASH, Cause.OVER),  # a regulated rail written as a range
    ],
)
def test_stated_supplies(gives, takes, pack, outcome, cause):
    found = agree(giving(gives), taking(takes), pack)
    assert (found.outcome, found.cause) == (outcome, cause)
    assert agree(taking(takes), giving(gives), pack) == found


def test_two_inputs_on_one_rail_clash_only_when_no_voltage_suits_both():
    assert agree(taking("5"), taking("4.5-17")).agrees
    assert agree(taking("5"), taking("7-26")).clashes


def test_a_named_rail_meets_what_the_other_end_states():
    assert agree(labelled("5V"), taking("7-26")).cause is Cause.UNDER
    assert agree(labelled("VBAT"), taking("7-26"), PACK_4S).agrees
    assert agree(labelled("12V"), taking("5")).cause is Cause.OVER


def test_the_reason_names_the_harm_first():
    assert met("TLM", "VBAT").reason == "battery on a telemetry input"
    assert met("GND", "VBAT").reason == "battery on ground"
    assert met("5V", "SDA").reason == "a 5 V supply on an I2C data line (SDA)"


def test_harm_ranks_a_short_of_the_pack_above_a_burnt_input_above_a_dead_link():
    ranks = [
        met(*pair).harm for pair in (("VBAT", "GND"), ("VBAT", "TLM"), ("5V", "SDA"), ("GND", "SDA"), ("RX", "RX"))
    ]
    assert ranks == sorted(ranks, reverse=True)
    assert len(set(ranks)) == len(ranks)


def unclear(*readings: str, label: str = "C") -> Role:
    return Role(
        RoleClass.AMBIGUOUS, "ambiguous_signal", label=label, readings=tuple(role_named(each) for each in readings)
    )


def test_an_unclear_name_is_at_most_a_warning_that_names_both_readings():
    found = agree(contact(unclear("current_sense", "phase")), labelled("VBAT"))
    assert found.outcome is WARN
    assert "current" in found.reason and "phase" in found.reason


def test_an_unclear_name_is_not_judged_when_a_reading_agrees():
    assert agree(contact(unclear("current_sense", "phase")), labelled("CUR")).outcome is NOT_JUDGED
    assert agree(contact(unclear("current_sense", "phase")), labelled("FOO")).outcome is NOT_JUDGED


def test_equal_unclear_names_agree():
    assert agree(contact(unclear("current_sense", "phase")), contact(unclear("current_sense", "phase"))).agrees


def test_rx_beside_motor_signals_is_telemetry_and_takes_the_escs_output():
    controller = contacts("VBAT GND CUR RX M1 M2 M3 M4")
    driver = contacts("VBAT GND CUR TLM M1 M2 M3 M4", "J2")
    assert all(agree(a, b).agrees for a, b in zip(controller, driver, strict=True))


@pytest.mark.parametrize(
    ("low", "high", "outcome"), [("5V", "5.5V", AGREE), ("5V", "5.6V", CLASH), ("11V", "12.3V", CLASH)]
)
def test_named_rails_clash_beyond_a_tenth_of_the_higher(low, high, outcome):
    """10 % between two named rails is common practice, no source: 5.6 V is 10.7 % above 5 V, seen from 5.6 V."""
    assert met(low, high).outcome is outcome


def test_a_battery_on_a_rail_is_too_many_volts_unless_its_cells_stay_below():
    pack = Volts(12.0, 16.8)
    assert agree(named("battery"), labelled("5V"), pack).cause is Cause.OVER
    assert agree(named("battery"), labelled("24V"), pack).cause is Cause.CLASSES


def test_a_battery_that_goes_by_its_volts_fits_a_rail_of_them():
    lead = Volts(10.5, 14.4, named=12)
    assert agree(named("battery"), labelled("12V"), lead).agrees
    assert agree(named("battery"), labelled("9V"), lead).clashes


@pytest.mark.parametrize(("a", "b", "outcome"), [("2S", "2S", AGREE), ("2S", "3S", CLASH), ("CELL0", "GND", AGREE)])
def test_balance_taps_meet_their_own_number(a, b, outcome):
    assert met(a, b).outcome is outcome


@pytest.mark.parametrize(
    ("a", "b", "outcome", "said"),
    [
        ("CELL1", "CELL1", AGREE, "the same balance tap"),
        ("CELL3", "CELL1", CLASH, "balance tap 1 on balance tap 3"),
        ("CELL0", "CELL2", CLASH, "balance tap 0 on balance tap 2"),
    ],
)
def test_balance_taps_meet_the_tap_of_their_own_number(a, b, outcome, said):
    found = met(a, b)
    assert found.outcome is outcome and said in found.reason


@pytest.mark.parametrize(
    ("a", "b", "outcome"),
    [
        ("V+", "RX+", Outcome.NOT_JUDGED),  # a supply on a line of a pair
        ("V+", "DATA+", Outcome.CLASH),
        ("TX+", "RX+", Outcome.AGREE),
        ("V+", "LAMP+", Outcome.AGREE),
        ("R+", "+", Outcome.AGREE),  # a loudspeaker
    ],
)
def test_plus_meets_plus_but_not_a_line_of_data(a, b, outcome):
    assert agree(labelled(a), labelled(b)).outcome is outcome
