"""Receptacles that take the same plug.

Pinouts typed from the connector standard DS-009 Rev 0.1.0: POWER, TELEM and GPS basic, all JST GH of 6 ways;
I2C and CAN, both of 4 ways.
"""

from __future__ import annotations

from crafts.craft_kit import captive, pads, plug
from crafts.finding_kit import at, findings_of
from tabside.model.findings import Severity
from tabside.rules.look_alike import look_alike

TELEM = "VCC, TX, RX, CTS, RTS, GND"
GPS = "VCC, TX, RX, SCL, SDA, GND"
POWER = "VCC, VCC, CURRENT, VOLTAGE, GND, GND"
RADIO = "VCC, RX, TX, RTS, CTS, GND"
GPS_BOARD = "VCC, RX, TX, SCL, SDA, GND"
CAN, I2C = "VCC, CAN_H, CAN_L, GND", "VCC, SCL, SDA, GND"


def port(number, signals, far_signals=None, family="JST GH", far=True):
    """A receptacle of the pilot, with the pads of a board at the other end of its cable (`far`)."""
    ways = len(signals.split(","))
    nets = [f"N{number}_{k}" for k in range(ways)]
    own = plug(f"J{number}", nets if far else ["-"] * ways, board="pilot", family=family, signals=signals)
    if not far:
        return [own]
    return [own, pads(f"TP{number}", nets, board=f"part {number}", signals=far_signals or signals)]


def test_power_telem_and_gps_are_one_group():
    found = findings_of(look_alike, *port(1, POWER), *port(2, TELEM, RADIO), *port(3, GPS, GPS_BOARD), *port(4, CAN))
    assert [each.severity for each in found] == [Severity.WARNING]
    assert "pilot/J1, pilot/J2 and pilot/J3" in found[0].message
    assert "identical connectors (JST GH, 6-way)" in found[0].message
    assert "supply" in found[0].message  # VCC of one on a signal of the other is the worst


def test_telem_and_gps_alone_put_an_output_on_a_bus_line():
    found = findings_of(look_alike, *port(2, TELEM, RADIO), *port(3, GPS, GPS_BOARD))
    assert [each.severity for each in found] == [Severity.NOTE]
    assert {"J2:4", "J2:5", "J3:4", "J3:5", "TP2:4", "TP3:4", "TP2:5", "TP3:5"} & at(found[0])


def test_i2c_and_can():
    """Two signal buses of the same volts disturb each other, and nothing burns: a note."""
    found = findings_of(look_alike, *port(1, CAN), *port(2, I2C))
    assert [each.severity for each in found] == [Severity.NOTE]


def test_equal_pinouts_are_quiet():
    assert not findings_of(look_alike, *port(1, TELEM, RADIO), *port(2, TELEM, RADIO))


def test_other_ways_and_other_families_are_quiet():
    assert not findings_of(look_alike, *port(1, POWER), *port(2, I2C))
    assert not findings_of(look_alike, *port(1, POWER), *port(2, TELEM, RADIO, family="JST SH"))


def test_a_receptacle_that_stays_empty_counts_as_a_place_and_not_as_a_plug():
    assert findings_of(look_alike, *port(1, POWER), *port(2, TELEM, far=False))
    assert not findings_of(look_alike, *port(1, POWER, far=False), *port(2, TELEM, far=False))


def test_the_other_end_of_the_same_cable_is_not_meant():
    assert not findings_of(
        look_alike,
        plug("J1", "A B C G", board="pilot", family="JST SH", signals="5V, TX, RX, GND"),
        plug("J2", "G C B A", board="radio", family="JST SH", signals="GND, TX, RX, 5V"),
    )


def test_a_battery_plug_and_a_bus_of_two_ways():
    found = findings_of(
        look_alike,
        plug("J1", "B G", board="driver", family="JST SH", signals="VBAT, GND"),
        pads("TP1", "B G", board="camera", signals="VBAT, GND"),
        plug("J2", "C D", board="pilot", family="JST SH", signals="SDA, SCL"),
        captive("J3", "C D", board="compass", family="JST SH", signals="SDA, SCL"),
    )
    assert len(found) == 1
    assert "battery" in found[0].message


def test_many_equal_ports_are_judged_as_few():
    ports = [symbol for n in range(1, 20) for symbol in port(n, TELEM, RADIO)]
    assert not findings_of(look_alike, *ports)


# What enters what: the table of look-alikes (public survey note and board records, grade B; see its rows).
BATTERY, DATA = "VBAT, GND, TX, RX", "TX, RX, 5V, GND"


def entering(plug_family, header_family, plug_signals=BATTERY, header_signals=DATA):
    """The plug of the first receptacle in the second: a finding whose first contact is the header's."""
    found = findings_of(
        look_alike,
        *port(1, plug_signals, family=plug_family),
        *port(2, header_signals, family=header_family),
    )
    return [each for each in found if "J2" in {where.termination for where in each.where[:1]}]


def test_a_picoblade_plug_goes_into_a_df13_header_and_not_the_other_way_round():
    (found,) = entering("Molex PicoBlade", "Hirose DF13")
    assert found.severity is Severity.WARNING
    assert "The plug of pilot/J1 in pilot/J2 would connect part 1/TP1:1 (VBAT) to pilot/J2:1 (TX)" in found.message
    assert "enters a DF13 header (not the other way round)" in found.message
    assert not entering("Hirose DF13", "Molex PicoBlade")


def test_of_a_loose_plug_only_contact_1_meets_its_pin_and_that_is_a_note():
    (found,) = entering("JST SH", "JST GH")
    assert found.severity is Severity.NOTE and "loosely" in found.message
    assert entering("JST ZH", "JST GH")
    assert not entering("JST SH", "JST GH", "GND, VBAT, TX, RX", "GND, TX, RX, 5V")
    assert not entering("JST SH", "JST GH", "TX, GND, VBAT, RX", "RX, GND, 5V, TX")
    assert not entering("JST GH", "JST SH")


def test_a_vh_plug_goes_into_a_narrower_open_header_shifted():
    """Unshifted it is sound: ground on ground, 12 V on 12 V.  By one contact, 24 V meet 12 V."""
    (found,) = entering("JST VH", "JST VH", "GND, 12V, 24V", "GND, 12V")
    assert found.severity is Severity.WARNING
    assert not entering("JST VH", "JST VH", "GND, 12V", "GND, 12V, 24V")


def test_three_ways_of_xh_can_be_forced_on_pins_and_six_cannot():
    assert entering("JST XH", "pinheader 254", "VBAT, GND, TX", "TX, 5V, GND")
    assert not entering("JST XH", "pinheader 254", "VBAT, GND, TX, RX, CTS, RTS", "TX, RX, CTS, RTS, 5V, GND")


def test_what_sellers_only_call_alike_is_quiet():
    assert not entering("JST GH", "Molex PicoBlade")
    assert not entering("JST XH", "JST EH")
