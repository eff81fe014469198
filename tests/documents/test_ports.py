"""The port list: words and grouping.  The words are common practice, no source."""

import pytest

from crafts.craft_kit import captive, craft, plug, two_pin
from tabside.documents.ports import ports


def words(*symbols, board="pilot", **more):
    return [port.words for port in ports(craft(*symbols, **more)) if port.board == board]


def pair(own, far):
    """A plug on the pilot and one on the receiver, contact to contact; "nc" has no lead."""
    nets = ["-" if name == "nc" else f"N{n}" for n, name in enumerate(own.split(", "))]
    return (
        plug("J1", nets, board="pilot", family="JST GH", signals=own),
        plug("J2", nets, board="receiver", family="JST GH", signals=far),
    )


@pytest.mark.parametrize(
    ("own", "far", "said"),
    [
        pytest.param("5V, TX2, RX2, GND", "5V, RX, TX, GND", ["serial 2: receiver"], id="both directions"),
        pytest.param("5V, nc, RX2, GND", "5V, nc, TX, GND", ["serial 2: receiver, receives only"], id="receives"),
        pytest.param("5V, TX2, nc, GND", "5V, RX, nc, GND", ["serial 2: receiver, sends only"], id="sends"),
        pytest.param("5V, TX2, nc, GND", "5V, SA, nc, GND", ["serial 2: receiver, half duplex"], id="half duplex"),
        pytest.param("5V, nc, RX2, GND", "5V, nc, SBUS, GND", ["serial 2: receiver, SBUS, receives only"], id="SBUS"),
        pytest.param("5V, SDA1, SCL1, GND", "5V, SDA, SCL, GND", ["I2C 1: receiver"], id="I2C"),
        pytest.param("5V, SDA, SCL, GND", "5V, SDA, SCL, GND", ["I2C of J1: receiver"], id="no number drawn"),
        pytest.param("5V, CAN1_H, CAN1_L, GND", "5V, CAN_H, CAN_L, GND", ["CAN 1: receiver"], id="CAN"),
        pytest.param(
            "nc, CURRENT, VOLTAGE, GND",
            "nc, CURRENT, VOLTAGE, GND",
            ["current sense (ADC): receiver", "voltage sense (ADC): receiver"],
            id="sensing",
        ),
        pytest.param("5V, LED, nc, GND", "5V, LED, nc, GND", ["LED strip data: receiver"], id="strip"),
        pytest.param(
            "5V, PPM, RSSI, GND",
            "5V, PPM, RSSI, GND",
            ["receiver port, PPM: receiver", "signal strength (ADC): receiver"],
            id="receiver",
        ),
    ],
)
def test_a_port_is_said_as_firmware_calls_it(own, far, said):
    assert words(*pair(own, far)) == said


def test_flow_control_is_said_when_both_lines_are_there():
    own, far = "TX1, RX1, CTS, RTS", "RX, TX, RTS, CTS"
    assert words(*pair(own, far)) == ["serial 1: receiver, flow control"]


def test_ground_and_supply_are_no_ports():
    assert words(*pair("5V, 5V, GND, GND", "5V, 5V, GND, GND")) == []


def test_each_side_of_a_motor_signal():
    """The board that drives phases takes the signal; a servo on an output of the pilot is no motor."""
    symbols = (
        plug("J1", "M1 M3 GND", board="pilot", family="JST GH", signals="M1, M3, GND"),
        plug("J2", ["M1", "GND"], board="drive", family="JST GH", signals="PWM, GND"),
        plug("J3", "A B C", board="drive", signals="PHASE_A, PHASE_B, PHASE_C"),
        captive("J4", "A B C", board="motor", signals="PHASE_A, PHASE_B, PHASE_C"),
        captive("J5", ["M3", "GND"], board="rudder", signals="PWM, GND"),
    )
    assert words(*symbols) == ["motor output 1: drive", "output 3: rudder"]
    assert words(*symbols, board="drive") == ["motor input of J2: pilot", "motor phases: motor, any order"]
    assert words(*symbols, board="motor") == []


def test_motors_numbered_otherwise_at_the_other_end_are_told():
    made = craft(
        plug("J1", "A B", board="pilot", family="JST GH", signals="M1, M2"),
        plug("J2", "B A", board="drive", family="JST GH", signals="M1, M2"),
        plug("J3", "P Q R", board="drive", signals="PHASE_A, PHASE_B, PHASE_C"),
        captive("J4", "P Q R", board="motor", signals="PHASE_A, PHASE_B, PHASE_C"),
    )
    first = ports(made)[-2]
    assert first.words == "motor output 1: drive"
    assert first.notes == (
        "numbered 2 at the other end: set the motor order in the firmware; check direction and order with "
        "propellers off",
    )


def test_half_a_bus_is_told():
    made = craft(*pair("5V, SDA1, nc, GND", "5V, SDA, nc, GND"))
    assert [port.notes for port in ports(made) if port.board == "pilot"] == [("SCL is not connected",)]


def test_sbus_is_told_to_be_inverted():
    """Source: design guidelines of a maker of flight control firmware, through the table of role pairs, grade A."""
    made = craft(*pair("5V, nc, RX2, GND", "5V, nc, SBUS, GND"))
    (port,) = (port for port in ports(made) if port.board == "pilot")
    assert port.notes == ("SBUS is inverted: the port must invert its input",)


def test_a_name_that_says_nothing_is_told_and_not_guessed():
    made = craft(*pair("5V, FOO, nc, GND", "5V, BAR, nc, GND"))
    (port,) = (port for port in ports(made) if port.board == "pilot")
    assert (port.words, port.notes) == ("signal FOO: receiver", ("function not recognised from its name",))


def test_two_devices_on_one_bus_are_one_port():
    made = craft(
        plug("J1", "SDA SCL", board="pilot", family="JST GH", signals="SDA1, SCL1"),
        plug("X1", ["SDA"], kind="splice"),
        plug("X2", ["SCL"], kind="splice"),
        plug("J2", "SDA SCL", board="compass", family="JST GH", signals="SDA, SCL"),
        plug("J3", "SDA SCL", board="lidar", family="JST GH", signals="SDA, SCL"),
    )
    (port,) = (port for port in ports(made) if port.board == "pilot")
    assert port.words == "I2C 1: compass, lidar"
    assert port.signals == ("SDA1 (1)", "SCL1 (2)")
    assert sorted(port.there) == [
        "J2:1 (SDA) through X1",
        "J2:2 (SCL) through X2",
        "J3:1 (SDA) through X1",
        "J3:2 (SCL) through X2",
    ]


def test_what_lies_between_is_said():
    made = craft(
        plug("J1", "A GND", board="pilot", family="JST GH", signals="TX1, GND"),
        two_pin("R1", "A", "B", value="100R"),
        plug("J2", "B GND", board="radio", family="JST GH", signals="RX, GND"),
    )
    (port,) = (port for port in ports(made) if port.board == "pilot")
    assert port.there == ("J2:1 (RX) through R1",)


def test_ports_stand_in_natural_order():
    made = craft(
        *(plug(f"J{n}", [f"N{n}", "GND"], board="pilot", family="JST GH", signals=f"TX{n}, GND") for n in (10, 9, 2)),
        *(plug(f"J{n + 20}", [f"N{n}", "GND"], board=f"b{n}", family="JST GH", signals="RX, GND") for n in (2, 9, 10)),
    )
    found = [port.words for port in ports(made) if port.board == "pilot"]
    assert found == [f"serial {n}: b{n}, sends only" for n in (2, 9, 10)]
    assert not any(port.lacks_number for port in ports(made) if port.board == "pilot")
