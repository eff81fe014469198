"""Roles read from labels.  Where no other source is named: the label table's own rules, and common practice."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tabside.facts.labels.reading import level_in_name, names_volts
from tabside.facts.labels.role_kinds import is_field_only, role_named
from tabside.facts.labels.roles import read_label
from tabside.model.roles import Direction, RoleClass, Volts

DRIVES, LISTENS, BOTH, OPEN = Direction.DRIVES, Direction.LISTENS, Direction.BOTH, Direction.UNKNOWN


@pytest.mark.parametrize(
    ("label", "name", "index"),
    [
        ("TX", "uart_tx", None),
        ("tx3", "uart_tx", 3),
        ("T1", "uart_tx", 1),
        ("R2", "uart_rx", 2),
        ("UART1_TX", "uart_tx", 1),
        ("uart 4 rx", "uart_rx", 4),
        ("SERIAL2_RX", "uart_rx", 2),
        ("USART6_TX_OUTPUT_EXT", "uart_tx", 6),
        ("GPS TX", "uart_tx", None),
        ("TELEM1_RTS", "uart_rts", 1),
        ("TX (OUT)", "uart_tx", None),
        ("RTS (or DTR)", "uart_rts", None),
        ("SDA2", "i2c_sda", 2),
        ("I2C1_SDA_GPS1_EXT", "i2c_sda", 1),
        ("I2C_SCL", "i2c_scl", None),
        ("CAN1_H", "can_h", 1),
        ("CANL", "can_l", None),
        ("CAN-L", "can_l", None),
        ("CAN2_P", "can_h", 2),
        ("M5", "motor_signal", 5),
        ("Motor 3", "motor_signal", 3),
        ("Signal 4", "motor_signal", 4),
        ("S2", "motor_signal", 2),
        ("PWM9", "motor_signal", 9),
        ("FMU_CH7_EXT", "motor_signal", 7),
        ("SBUS (R2)", "sbus", None),
        ("R5 (TEL)", "esc_telemetry", 5),
        ("SWDIO/TMS", "swdio", None),
        ("LED_STRIP", "led", None),
        ("BUZZER -", "buzzer_minus", None),
        ("BZ+", "buzzer_plus", None),
        ("D-", "usb_dm", None),
        ("USB_D+", "usb_dp", None),
        ("VBAT_SENSE", "voltage_sense", None),
        ("BATT_CURRENT", "current_sense", None),
        ("SDA/A4", "i2c_sda", None),
        ("RSSI 0-3.3V", "rssi", None),
        ("SmartAudio", "vtx_control", None),
        ("nCS", "spi_cs", None),
        ("~{SS1}", "spi_cs", 1),
    ],
)
def test_a_signal_is_read_with_its_index(label, name, index):
    role = read_label(label)
    assert (role.cls, role.name, role.index, role.label) == (RoleClass.SIGNAL, name, index, label)


@pytest.mark.parametrize(
    ("label", "name", "low", "high"),
    [
        ("5V", "power_5v", 5.0, 5.0),
        ("+5V", "power_5v", 5.0, 5.0),
        ("5 V", "power_5v", 5.0, 5.0),
        ("5V0", "power_5v", 5.0, 5.0),
        ("VCC_5V", "power_5v", 5.0, 5.0),
        ("VBAT5V", "power_5v", 5.0, 5.0),
        ("V+ (5V)", "power_5v", 5.0, 5.0),
        ("VCC/5V", "power_5v", 5.0, 5.0),
        ("5V/3A", "power_5v", 5.0, 5.0),
        ("5V_GPS", "power_5v", 5.0, 5.0),
        ("VDD_5V_SBUS_RC", "power_5v", 5.0, 5.0),
        ("5V_LED", "power_5v", 5.0, 5.0),
        ("12V IN+", "power_9_12v", 12.0, 12.0),
        ("3.3-5V", "power", 3.3, 5.0),
        ("4V5", "power_4v5", 4.5, 4.5),
        ("3V3", "power_3v3", 3.3, 3.3),
        ("+3.3V", "power_3v3", 3.3, 3.3),
        ("3V3_OUT", "power_3v3", 3.3, 3.3),
        ("VDD_3V3_SPEKTRUM", "power_3v3", 3.3, 3.3),
        ("1V8", "power", 1.8, 1.8),
        ("7.4V", "power", 7.4, 7.4),
        ("9V", "power_9_12v", 9.0, 9.0),
        ("9V / VTX", "power_9_12v", 9.0, 9.0),
        ("+10V", "power_9_12v", 10.0, 10.0),
        ("12V0", "power_9_12v", 12.0, 12.0),
        ("+24V", "power", 24.0, 24.0),
        ("BEC_6V", "power", 6.0, 6.0),
        ("-5V", "power", -5.0, -5.0),
        ("VIN 7-26V", "power", 7.0, 26.0),
        ("8..12V", "power", 8.0, 12.0),
    ],
)
def test_a_voltage_in_a_label_is_the_supplys(label, name, low, high):
    role = read_label(label)
    assert (role.cls, role.name, role.volts, role.index) == (RoleClass.SUPPLY, name, Volts(low, high), None)


@pytest.mark.parametrize("label", ["VCC", "VIN", "VDD", "V+", "PWR", "VS", "HV", "+", "vcc2", "VTref", "VIN+"])
def test_a_supply_of_unknown_voltage_claims_none(label):
    role = read_label(label)
    assert (role.cls, role.name, role.volts, role.battery) == (RoleClass.SUPPLY, "ambiguous_power", None, False)


@pytest.mark.parametrize(
    "label", ["VBAT", "VBAT+", "+BAT", "B+", "VBAT IN", "V+ (VBAT)", "batt", "BAT / VB", "VBAT 2-6S"]
)
def test_a_battery_is_a_supply_without_a_number(label):
    role = read_label(label)
    assert (role.cls, role.name, role.battery, role.volts) == (RoleClass.SUPPLY, "battery", True, None)


@pytest.mark.parametrize(
    "label",
    [
        "GND",
        "gnd2",
        "G",
        "-",
        "0V",
        "BAT-",
        "VIN-",
        "GND_RC",
        "BAT_GND",
        "B0 (pack -)",
        "AGND",
        "PWR_RTN",
        "VTX-",
        "GNDPWR",
        "-BATT",
    ],
)
def test_a_ground_is_read(label):
    assert read_label(label).cls is RoleClass.GROUND


@pytest.mark.parametrize(
    "label",
    [
        "",
        "~",
        "3",
        "Pin_3",
        "pin 12",
        "STATUS",
        "RESET",
        "GNDX",
        "SIGNALS",
        "TXT",
        "5V_EN",
        "VTX_SEL",
        "TX_DISABLE",
        "SAFETY LED",
        "SAFETY SWITCH IN",
        "RS485",
        "CC1",
        "DAT0",
        "NC/TDI",
        "B1",
        "BOARD",
        "CANOPY",
        "230VAC",
        "MOTOR",
        "VBATMON",
        "GND_DETECT",
        "1RX1TX1",
        "🙂",
        "(",
        "a" * 5000,
        "1" * 5000 + "V",
        "/",
        "+-",
        "~{}",
        "{slash}",
    ],
)
def test_other_text_stays_unknown_and_keeps_its_label(label):
    role = read_label(label)
    assert (role.cls, role.name, role.label) == (RoleClass.UNKNOWN, "unknown", label)


@pytest.mark.parametrize("label", ["nc", "NC", "N/C", "N/A", "n.c.", "DNC", "not connected"])
def test_a_contact_that_is_not_used_says_so(label):
    assert read_label(label).name == "nc"


@pytest.mark.parametrize(
    ("label", "active_low"),
    [("~{RTS}", True), ("!CTS", True), ("/SS", True), ("nRTS", True), ("RTS#", True), ("RTS", False), ("TX/RX", False)],
)
def test_marks_of_active_low_are_taken_off(label, active_low):
    role = read_label(label)
    assert role.cls is RoleClass.SIGNAL
    assert role.active_low is active_low


def test_markup_is_taken_off():
    assert read_label("TX_{3}").name == "uart_tx"
    assert read_label("N{slash}A").name == "nc"


@pytest.mark.parametrize(
    ("label", "group", "line", "direction"),
    [
        ("TX", "uart", "tx", DRIVES),
        ("RX", "uart", "rx", LISTENS),
        ("CTS", "uart", "cts", LISTENS),
        ("RTS", "uart", "rts", DRIVES),
        ("SDA", "i2c", "sda", BOTH),
        ("SCL", "i2c", "scl", BOTH),
        ("CAN_H", "can", "h", BOTH),
        ("CAN_L", "can", "l", BOTH),
        ("MISO", "spi", "miso", OPEN),
        ("M1", "motor", "signal", OPEN),
        ("TLM", "esc_telemetry", "telemetry", OPEN),
        ("Video In", "video", "video", LISTENS),
        ("VIDEO_OUT", "video", "video", DRIVES),
        ("VIDEO", "video", "video", OPEN),
        ("SBUS", "sbus", "sbus", OPEN),
        ("SBUS_OUT", "sbus", "sbus", DRIVES),
        ("SBUS IN", "sbus", "sbus", LISTENS),
        ("TRAMP", "vtx_control", "control", BOTH),
        ("SIG", "any", "", OPEN),
    ],
)
def test_a_signal_has_its_group_line_and_direction(label, group, line, direction):
    role = read_label(label)
    assert (role.group, role.line, role.direction) == (group, line, direction)


@pytest.mark.parametrize(
    ("label", "neighbours", "name"),
    [
        # "RX beside CUR or motor signals in one plug is ESC telemetry, else uart_rx": rule of the label table.
        ("RX7", ["VBATT", "GND", "CUR", "RX7", "M1", "M2", "M3", "M4"], "esc_telemetry"),
        ("RX", ["5V", "GND", "TX"], "uart_rx"),
        ("RX", ["5V", "GND", "M1", "TX", "RX"], "uart_rx"),
        ("RX4", ["TLM", "M1", "M2"], "uart_rx"),
        ("UART4_RX_EXT", ["CURR_IN_EXT", "FMU_CH1_EXT"], "esc_telemetry"),
        ("UART4_RX_EXT", ["5V", "GND"], "uart_rx"),
        # Orders of board pages, in which C is current and T telemetry.
        ("C", ["V", "G", "C", "T", "M1", "M2", "M3", "M4"], "current_sense"),
        ("T", ["V", "G", "C", "T", "M1", "M2", "M3", "M4"], "esc_telemetry"),
        ("V", ["V", "G", "C", "T", "M1", "M2", "M3", "M4"], "ambiguous_power"),
        ("V", ["U", "W"], "phase"),
        ("C", ["A", "B"], "phase"),
        ("A", ["A", "B", "C"], "phase"),
        ("M1_A", ["M1_A", "M1_B", "M1_C", "M2_A"], "phase"),
        ("A", ["A", "B", "C", "VBAT", "GND", "5V"], "phase"),
        ("CLK", ["SDA", "GND"], "i2c_scl"),
        ("CLK", ["SWDIO", "GND"], "swclk"),
        ("CLK", ["MISO", "MOSI"], "spi_sck"),
        ("CK", ["3V3", "IO", "GND"], "swclk"),
        ("IO", ["3V3", "CK", "GND"], "swdio"),
        ("CS", ["SCK", "MISO", "MOSI"], "spi_cs"),
        ("VTX", ["5V", "GND"], "video"),
        ("OUT", ["VCC", "GND", "OUT"], "signal_any"),
    ],
)
def test_the_plug_decides_between_meanings(label, neighbours, name):
    assert read_label(label, neighbours).name == name


@pytest.mark.parametrize(
    ("label", "neighbours", "readings"),
    [
        ("C", [], {"phase", "current_sense"}),
        ("T", [], {"esc_telemetry", "uart_tx"}),
        ("CLK", [], {"i2c_scl", "spi_sck", "swclk"}),
        ("V", [], {"ambiguous_power", "phase"}),
        ("A", ["B"], {"phase"}),  # may be RS-485
        ("A", ["A", "B", "C", "5V", "GND"], {"phase", "signal_any"}),  # may be position sensors
        ("VTX", [], {"video", "ambiguous_power"}),  # a supply on one board, the picture on another
        ("V", ["5V", "G"], {"ambiguous_power", "video"}),  # a camera's picture, beside its supply
        ("VOUT", ["GND", "5V"], {"ambiguous_power", "video_out"}),
        ("OUT", ["IN", "GND"], {"signal_any", "ambiguous_power"}),  # may be a regulator
        ("OUT", ["VIN", "GND"], {"signal_any", "ambiguous_power"}),
        ("COM", [], {"ground"}),
        ("EARTH", [], {"ground", "shield"}),
        ("5V/GND", [], {"power_5v", "ground"}),
        ("5V_TX", [], {"power_5v", "uart_tx"}),
        ("VBAT_12V", [], {"battery", "power_9_12v"}),
    ],
)
def test_what_the_plug_does_not_settle_stays_ambiguous(label, neighbours, readings):
    role = read_label(label, neighbours)
    assert role.cls is RoleClass.AMBIGUOUS
    assert {reading.name for reading in role.readings} == readings


@pytest.mark.parametrize(("label", "direction"), [("DIN", LISTENS), ("DOUT", DRIVES), ("TX/RX", OPEN)])
def test_several_meanings_that_are_all_signals_are_a_signal_of_any_group(label, direction):
    role = read_label(label)
    assert (role.cls, role.group, role.direction) == (RoleClass.SIGNAL, "any", direction)


def test_the_trio_of_another_motor_makes_no_phase():
    assert read_label("U1", ["V1", "W1"]).cls is RoleClass.PHASE
    assert read_label("U1", ["V2", "W1"]).cls is RoleClass.UNKNOWN


@pytest.mark.parametrize("name", ["power_in", "esc_signal", "rs232_tx", "crsf_tx"])
def test_a_role_of_fields_is_had_by_its_name_and_by_that_label_only(name):
    assert is_field_only(name)
    assert role_named(name).name == name
    assert read_label(name.upper()).name == name


def test_a_bare_sign_keeps_which_pole_it_is():
    assert (read_label("+").line, read_label("-").line) == ("plus", "minus")
    assert (read_label("BZ+").line, read_label("BZ-").line) == ("plus", "minus")


@given(st.text(max_size=40), st.lists(st.text(max_size=12), max_size=4))
def test_no_text_is_too_odd_to_read(text, neighbours):
    assert read_label(text, neighbours).label == text


_PIECES = st.sampled_from(
    ["TX", "GND", "5V", "VBAT", "_", "-", "+", "/", "(", ")", "1", "12", "V", "A", "~{", "}", " ", ".", "!"]
)


@given(st.lists(_PIECES, max_size=8).map("".join))
def test_no_mixture_of_known_words_is_too_odd_to_read(text):
    role = read_label(text)
    assert role.label == text
    assert (role.cls is RoleClass.AMBIGUOUS) <= bool(role.readings)


@pytest.mark.parametrize(
    ("label", "volts"),
    [
        ("VCC5", 5),
        ("VCC 5", 5),
        ("VCC12", 12),
        ("VDD33", 3.3),
        ("VDD_33", 3.3),
        ("VDD50", 5),
        ("VDD3P3", 3.3),
        ("V5", 5),
        ("V3.3", 3.3),
        ("V12", 12),
        ("V+12", 12),
        ("+V12", 12),
        ("V5_OUT", 5),
        ("VIN 12", 12),
        ("5 VDC", 5),
        ("24 VDC", 24),
        ("12 Volt", 12),
        ("12 volts", 12),
        ("12VOLT", 12),
        ("VCC=5V", 5),
        ("5,0V", 5),
        ("12,6V", 12.6),
        ("3,3 V", 3.3),
    ],
)
def test_rails_as_people_write_their_volts(label, volts):
    role = read_label(label)
    assert role.is_supply and role.volts == Volts(volts, volts)


@pytest.mark.parametrize(
    ("label", "beside"), [("V5", ("V4", "V6")), ("VCC5", ("VCC1", "VCC2")), ("VCC2", ()), ("V1", ())]
)
def test_a_number_that_counts_is_no_voltage(label, beside):
    assert read_label(label, (label, *beside)).volts is None


@pytest.mark.parametrize("label", ["TX_RS232", "RS-232 TXD", "TX (RS-232)", "SONAR_RS232_TX", "COM1 RS232 TX"])
def test_rs_232_wherever_its_name_stands(label):
    assert read_label(label).name == "rs232_tx"


@pytest.mark.parametrize(
    ("label", "beside", "name"),
    [
        ("TX_5V", ("VCC", "RX_5V"), "uart_tx"),
        ("RX 3V3", ("TX 3V3", "GND"), "uart_rx"),
        ("SDA_5V", ("SCL_5V", "GND"), "i2c_sda"),
        ("TX_5V", ("GND",), "ambiguous_signal"),  # it may feed a transmitter
        ("RX_5V", ("RX", "TX", "GND"), "ambiguous_signal"),  # beside a plain RX it feeds the receiver
        ("5V_TX", ("VCC", "5V_RX"), "ambiguous_signal"),
        ("SBUS_5V", ("VCC", "GND"), "power_5v"),
        ("CC1", ("D+", "D-", "VBUS"), "usb_cc"),
        ("CC", ("USB_DP", "USB_DM"), "usb_cc"),
        ("CC", ("GND",), "camera_control"),
        ("CC1", ("GND",), "unknown"),
        ("TCK", (), "jtag_tck"),
        ("JTAG_TDO", (), "jtag_tdo"),
        ("TDO/SWO", (), "swo"),
        ("NC/TDI", (), "unknown"),
        ("AUDIO", (), "audio"),
        ("VTX AUDIO", (), "audio"),
        ("MIC", (), "audio"),
        ("WIPER", ("12V", "GND"), "wiper"),
        ("NET-S", ("NET-C", "NET-H", "NET-L"), "ambiguous_power"),
        ("NET-C", ("NET-S", "NET-H", "NET-L"), "ground"),
        ("NET-H", ("NET-S", "NET-C", "NET-L"), "can_h"),
        ("SCL", ("CS", "SDO", "SDI"), "signal_any"),  # of a sensor that speaks I2C and SPI
        ("CS", ("SCL", "SDO", "SDI"), "spi_cs"),
    ],
)
def test_names_that_their_plug_decides(label, beside, name):
    assert read_label(label, (label, *beside)).name == name


@pytest.mark.parametrize(
    ("label", "volts"), [("TX_5V", 5), ("TX (3.3V)", 3.3), ("SDA 3V3", 3.3), ("TX", None), ("5V", None), ("M_5V", None)]
)
def test_the_level_that_a_name_says(label, volts):
    assert level_in_name(label) == (None if volts is None else Volts(volts, volts))


@pytest.mark.parametrize(
    ("label", "volts"),
    [
        ("12V_SW", 12),
        ("+5V_SW", 5),
        ("12VSW", 12),
        ("5VBEC", 5),
        ("LED12V", 12),
        ("GPS3V3", 3.3),
        ("CAM+5V", 5),
        ("AUX_12V_FUSED", 12),
        ("SENSOR_5V", 5),
    ],
)
def test_switched_fused_and_glued_rails(label, volts):
    role = read_label(label)
    assert role.is_supply and role.volts == Volts(volts, volts)


@pytest.mark.parametrize(
    ("label", "cls", "name"),
    [
        ("VBAT_SW", RoleClass.SUPPLY, "battery"),
        ("VBATT_FUSED", RoleClass.SUPPLY, "battery"),
        ("KL15", RoleClass.SUPPLY, "battery"),  # switched plus; KL31 alone is ground
        ("KL50", RoleClass.UNKNOWN, "unknown"),
        ("5V_EN", RoleClass.UNKNOWN, "unknown"),
        ("VTX_SW", RoleClass.UNKNOWN, "unknown"),
        ("U2RX", RoleClass.SIGNAL, "uart_rx"),
        ("U4_TX", RoleClass.SIGNAL, "uart_tx"),
        ("1PPS", RoleClass.SIGNAL, "pps"),
        ("PICO", RoleClass.SIGNAL, "spi_mosi"),
    ],
)
def test_names_of_late_readings(label, cls, name):
    role = read_label(label)
    assert (role.cls, role.name) == (cls, name) and role.volts is None


@pytest.mark.parametrize(
    ("label", "says"), [("5V#2", True), ("12V*", True), ("5V_EN", False), ("TX2", False), ("V5", False)]
)
def test_names_that_hold_a_voltage(label, says):
    assert names_volts(label) is says
