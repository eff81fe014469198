"""Contacts left open though the other end has their counterpart.  Common practice, no source."""

from __future__ import annotations

import pytest

from crafts.craft_kit import captive, pads, plug, power, splice
from crafts.finding_kit import at, findings_of
from tabside.rules.not_connected import not_connected


def said(*symbols):
    """(severity, contacts) of each finding."""
    return sorted((each.severity.value, tuple(sorted(at(each)))) for each in findings_of(not_connected, *symbols))


def radio(near, far, **more):
    return (
        plug("J1", near, board="pilot", family="JST GH", signals="5V, TX, RX, CTS, RTS, GND", **more),
        plug("J2", far, board="modem", family="JST GH", signals="5V, RX, TX, RTS, CTS, GND"),
    )


def test_quiet_when_everything_is_joined():
    assert not said(*radio("A B C D E F", "A B C D E F"))


@pytest.mark.parametrize(
    ("near", "far", "contacts"),
    [
        pytest.param("- B C D E F", "- B C D E F", ("J1:1", "J2:1"), id="supply"),
        pytest.param("A B C D E -", "A B C D E -", ("J1:6", "J2:6"), id="ground"),
        pytest.param("A - C D E F", "A - C D E F", ("J1:2", "J2:2"), id="TX"),
        pytest.param("A B C D - F", "A B C D - F", ("J1:5", "J2:5"), id="RTS while CTS is joined"),
    ],
)
def test_a_line_of_a_used_pair_left_open_is_a_warning(near, far, contacts):
    assert said(*radio(near, far)) == [("warning", contacts)]


def test_flow_control_left_out_as_a_whole_is_a_note():
    assert said(*radio("A B C - - F", "A B C - - F")) == [("note", ("J1:4", "J1:5", "J2:4", "J2:5"))]


def test_a_flag_quiets_a_signal_but_not_supply_or_ground():
    assert said(*radio("A - C D E F", "A - C D E F", flagged=["2"])) == [("note", ("J1:2", "J2:2"))]
    assert said(*radio("- B C D E F", "- B C D E F", flagged=["1"])) == [("warning", ("J1:1", "J2:1"))]
    assert said(*radio("A B C D E -", "A B C D E -", flagged=["6"])) == [("warning", ("J1:6", "J2:6"))]


def test_spare_parallel_contacts_are_a_note():
    found = said(
        plug("J1", "A - G -", board="pilot", family="JST SH", signals="VBAT, VBAT, GND, GND"),
        plug("J2", "A - G -", board="driver", family="JST SH", signals="VBAT, VBAT, GND, GND"),
    )
    assert [severity for severity, _ in found] == ["note"]


def test_one_motor_signal_of_four_left_open():
    motors = "GND, M1, M2, M3, M4"
    found = said(
        plug("J1", "G A B - D", board="pilot", signals=motors), plug("J2", "G A B - D", board="driver", signals=motors)
    )
    assert found == [("warning", ("J1:4", "J2:4"))]


def test_a_bus_that_is_not_used_at_all_is_a_note():
    found = said(
        plug("J1", "V A B - - G", board="pilot", signals="5V, TX, RX, SCL, SDA, GND"),
        plug("J2", "V A B - - G", board="gps", signals="5V, RX, TX, SCL, SDA, GND"),
    )
    assert [severity for severity, _ in found] == ["note"]


def test_a_bus_that_passes_one_board_by():
    def bus(last):
        return said(
            pads("TP1", "D C G", board="pilot", signals="SDA, SCL, GND"),
            pads("TP2", "D C G", board="compass", signals="SDA, SCL, GND"),
            pads("TP3", last, board="barometer", signals="SDA, SCL, GND"),
            power("G"),
        )

    assert not bus("D C G")
    found = bus("- C G")
    assert [severity for severity, _ in found] == ["warning"]
    assert "TP3:1" in found[0][1]


def test_an_input_whose_output_feeds_another_board_is_at_most_a_note():
    found = said(
        plug("J1", "V A B G", board="pilot", signals="5V, TX, RX, GND"),
        plug("J2", "V - B G", board="gps", signals="5V, RX, TX, GND"),
        pads("TP1", "A G", board="display", signals="RX, GND"),
        power("V"),
        power("G"),
    )
    assert found == [("note", ("J1:2", "J2:2"))]


def test_supply_pads_of_boards_that_are_fed_elsewhere_are_at_most_a_note():
    found = said(
        pads("TP1", "VBAT GND - - A - - -", board="pilot", signals="VBAT, GND, 5V, 5V, TX1, RX1, SDA, SCL"),
        pads("TP2", "VBAT GND - A", board="transmitter", signals="VBAT, GND, 5V, SA"),
        captive("X1", "VBAT GND", board="pack", signals="VBAT, GND"),
        power("VBAT"),
        power("GND"),
    )
    assert {severity for severity, _ in found} <= {"note"}


def test_two_regulators_left_apart_are_a_note():
    found = said(
        plug("J1", "- G A", board="pilot", signals="5V, GND, M1", gives="5V 1A"),
        plug("J2", "- G A", board="esc", signals="5V, GND, M1", gives="5V 3A"),
    )
    assert [severity for severity, _ in found] == ["note"]


def test_a_board_that_nothing_feeds():
    found = said(
        pads("TP1", "A G", board="pilot", signals="VIDEO_IN, GND"),
        pads("TP2", "A G -", board="camera", signals="VIDEO_OUT, GND, 12V"),
        pads("TP3", "B G", board="bec", signals="12V, GND", gives="12V 2A"),
        power("G"),
    )
    assert [severity for severity, contacts in found if "TP2:3" in contacts] == ["warning"]


def test_the_only_signal_of_a_servo_left_open():
    found = said(
        plug("J1", "GND +5V -", board="pilot", signals="GND, 5V, S5"),
        captive("X2", "GND +5V -", board="servo", family="pinheader_254", signals="GND, V+, SIG"),
    )
    assert found == [("warning", ("J1:3", "X2:3"))]


def test_quiet_for_the_open_end_of_a_strip():
    assert not said(
        pads("TP1", "+5V GND L - -", board="pilot", signals="5V, GND, LED, TX3, RX3"),
        pads("TP2", "+5V GND L -", board="strip", signals="5V, GND, DIN, DOUT"),
    )


def test_servos_on_a_supply_of_their_own():
    """The receiver's 5V is flagged at its servo rail; the servos hang on a supply of their own (common practice)."""

    def build(flagged=True, pilot_is_fed=True, gives="6V 5A"):
        return said(
            plug("J1", "S - G", board="pilot", signals="S1, 5V, GND", flagged="2" if flagged else ()),
            plug("J2", "A G" if pilot_is_fed else "- G", board="pilot", signals="5V, GND"),
            pads("TP1", "A G", board="power", signals="5V, GND", gives="5V 3A"),
            captive("X1", "S B G", board="servo", signals="SIG, V+, GND", takes="2:4.8-7.4V 1A"),
            pads("TP2", "B G", board="bec", signals="6V, GND", gives=gives),
        )

    assert ("note", ("J1:2", "X1:2")) in build()
    for otherwise in ({"flagged": False}, {"pilot_is_fed": False}, {"gives": ""}):
        assert ("warning", ("J1:2", "X1:2")) in build(**otherwise), otherwise


def test_the_supplies_of_two_controllers_that_are_cut_off_on_purpose():
    """Two speed controllers on one pack, the 5 V lead of each taken out of its plug (common practice)."""

    def build(flagged):
        return said(
            *(
                symbol
                for n in (1, 2)
                for symbol in (
                    captive(f"X{n}", "B GND", board=f"drive {n}", signals="+, -", takes="1:7-26V 9A"),
                    captive(
                        f"J{n}",
                        f"S{n} - G",
                        board=f"drive {n}",
                        signals="SIG, 5V, GND",
                        family="servo 254",
                        flagged="2" if flagged else (),
                    ),
                )
            ),
            captive("X9", "B GND", board="pack", signals="BAT+, BAT-", gives="4S 40A"),
            plug("P1", "S1 S2 G", board="pilot", signals="S1, S2, GND"),
            splice("K1", "G"),
        )

    assert build(flagged=True) == [("note", ("J1:2", "J2:2"))]


def test_an_open_contact_is_told_once_at_the_link_of_most_wires():
    hub = plug("J1", "A B C - D E", board="hub", signals="5V, TX, RX, GND, SCL, SDA")
    modem = plug("J2", "A C B -", board="modem", signals="5V, RX, TX, GND")
    sensor = plug("J3", "D E -", board="sensor", signals="SCL, SDA, GND")
    assert said(hub, modem, sensor) == [("warning", ("J1:4", "J2:4"))]


@pytest.mark.parametrize("feeds", ["near", "far"])
def test_a_supply_left_open_that_one_end_alone_feeds_is_a_warning(feeds):
    def gives(end):
        return {"gives": "5V 3A"} if end == feeds else {"takes": "5V 0.5A"}

    found = said(
        plug("J1", "- G A", board="pilot", signals="5V, GND, M1", **gives("near")),
        plug("J2", "- G A", board="esc", signals="5V, GND, M1", **gives("far")),
    )
    assert [severity for severity, _ in found] == ["warning"]
