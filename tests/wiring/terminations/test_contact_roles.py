"""Fields outrank pin types, which outrank labels."""

import pytest

from crafts.craft_kit import captive, contact, craft, plug
from tabside.model.roles import Direction, RoleClass, Volts


def role(signals, number, *, types=None, **fields):
    made = craft(plug("J1", ["-"] * len(signals.split()), signals=signals, types=types or {}, **fields))
    return contact(made, f"J1:{number}").role


@pytest.mark.parametrize(
    ("label", "pin_type", "cls", "name", "direction"),
    [
        # Passive says nothing: the label alone counts.
        ("TX", "passive", RoleClass.SIGNAL, "uart_tx", Direction.DRIVES),
        ("GND", "passive", RoleClass.GROUND, "ground", Direction.UNKNOWN),
        # Grounds are drawn as power inputs.
        ("GND", "power_in", RoleClass.GROUND, "ground", Direction.UNKNOWN),
        ("5V", "power_in", RoleClass.SUPPLY, "power_5v", Direction.LISTENS),
        ("5V", "power_out", RoleClass.SUPPLY, "power_5v", Direction.DRIVES),
        ("VCC", "power_out", RoleClass.SUPPLY, "ambiguous_power", Direction.DRIVES),
        # A pin type outranks a label: TX as an input is what the other board sends.
        ("TX", "input", RoleClass.SIGNAL, "uart_rx", Direction.LISTENS),
        ("RX", "output", RoleClass.SIGNAL, "uart_tx", Direction.DRIVES),
        ("RTS", "input", RoleClass.SIGNAL, "uart_cts", Direction.LISTENS),
        ("TX", "output", RoleClass.SIGNAL, "uart_tx", Direction.DRIVES),
        ("TX", "bidirectional", RoleClass.SIGNAL, "uart_tx", Direction.DRIVES),
        ("SDA", "input", RoleClass.SIGNAL, "i2c_sda", Direction.BOTH),
        ("M1", "output", RoleClass.SIGNAL, "motor_signal", Direction.DRIVES),
        ("M1", "input", RoleClass.SIGNAL, "motor_signal", Direction.LISTENS),
        ("TX", "power_in", RoleClass.SUPPLY, "power_in", Direction.LISTENS),
        # Of an unknown name only the direction is known: it may be anything.
        ("FROB", "output", RoleClass.UNKNOWN, "unknown", Direction.DRIVES),
        ("FROB", "power_out", RoleClass.SUPPLY, "power_out", Direction.DRIVES),
        ("FROB", "passive", RoleClass.UNKNOWN, "unknown", Direction.UNKNOWN),
    ],
)
def test_pin_type_and_label(label, pin_type, cls, name, direction):
    found = role(label, 1, types={1: pin_type})
    assert (found.cls, found.name, found.direction) == (cls, name, direction)


def test_an_unknown_power_input_may_be_ground_or_supply():
    found = role("FROB", 1, types={1: "power_in"})
    assert found.cls is RoleClass.AMBIGUOUS
    assert {each.cls for each in found.readings} == {RoleClass.GROUND, RoleClass.SUPPLY}


@pytest.mark.parametrize(
    ("signals", "fields", "number", "name", "volts", "direction"),
    [
        ("5V TX GND", {"gives": "5V 1A"}, 1, "power_5v", Volts(5, 5), Direction.DRIVES),
        ("5V TX GND", {"takes": "5V 1A"}, 1, "power_5v", Volts(5, 5), Direction.LISTENS),
        ("VCC TX GND", {"gives": "5V 1A"}, 1, "power_5v", Volts(5, 5), Direction.DRIVES),  # the only supply contact
        ("VCC TX GND", {"takes": "7-26V 0.6A"}, 1, "power_in", Volts(7, 26), Direction.LISTENS),
        ("12V TX GND", {"takes": "7-26V"}, 1, "power_9_12v", Volts(7, 26), Direction.LISTENS),  # within its range
        ("5V 9V GND", {"gives": "9V 2A; 5V 1A"}, 2, "power_9_12v", Volts(9, 9), Direction.DRIVES),
        ("a b c", {"gives": "2:5V 1A"}, 2, "power_5v", Volts(5, 5), Direction.DRIVES),  # by number
        ("VBAT GND", {"takes": "VBAT 30A"}, 1, "battery", None, Direction.LISTENS),
        ("VBAT GND", {"gives": "4S"}, 1, "battery", Volts(12, 16.8), Direction.DRIVES),
        ("5V GND", {"either": "5V"}, 1, "power_5v", Volts(5, 5), Direction.BOTH),
        ("VCC GND", {"takes": "2A"}, 1, "ambiguous_power", None, Direction.LISTENS),  # a current alone
        ("BZ+ BZ-", {"takes": "3-6V 0.03A"}, 1, "power_in", Volts(3, 6), Direction.LISTENS),  # the buzzer's supply
    ],
)
def test_rails_bind_to_contacts_and_outrank_their_names(signals, fields, number, name, volts, direction):
    found = role(signals, number, **fields)
    assert (found.cls, found.name, found.volts, found.direction) == (RoleClass.SUPPLY, name, volts, direction)
    assert found.said_by == "field"


def test_a_rail_stays_off_the_other_contacts():
    made = craft(plug("J1", "- - -", signals="5V 9V GND", gives="9V 2A"))
    assert [len(each.gives) for each in made.terminations["J1"].contacts] == [0, 1, 0]
    assert contact(made, "J1:1").role.said_by == "label"


def test_doubled_supply_contacts_share_a_rail():
    made = craft(plug("J1", "- - - -", signals="VCC VCC GND GND", gives="5.3V 2.5A"))
    assert [each.role.volts for each in made.terminations["J1"].contacts[:2]] == [Volts(5.3, 5.3)] * 2
    assert not made.oddities


def test_a_rail_that_fits_several_contacts_is_told_and_bound_to_none():
    made = craft(plug("J1", "- - -", signals="VCC VDD GND", gives="5V 1A"))
    assert all(not each.gives for each in made.terminations["J1"].contacts)
    assert made.terminations["J1"].gives and "1:5V 1A" in made.oddities[0].message


@pytest.mark.parametrize("gives", ["3:5V 1A", "2:5V", "1:9V"])
def test_a_rail_on_a_ground_a_signal_or_another_voltage_is_told(gives):
    made = craft(plug("J1", "- - -", signals="5V TX GND", gives=gives))
    assert len(made.oddities) == 1


def test_a_rail_close_to_the_name_is_quiet():
    # Power modules give 5.3 V on contacts called 5V.  Source: DS-009, POWER (5.3 V default, 5 V accepted).
    made = craft(plug("J1", "- -", signals="5V GND", gives="5.3V 2A"))
    assert not made.oddities and contact(made, "J1:1").role.volts == Volts(5.3, 5.3)


def test_either_marks_the_contact():
    made = craft(plug("J1", "- -", signals="5V GND", either="5V"))
    assert [each.either for each in made.terminations["J1"].contacts] == [True, False]


def test_levels_stand_at_the_contacts():
    made = craft(plug("J1", "- -", signals="TX GND", level="3.3V", level_max="5.5V"))
    assert (contact(made, "J1:1").level, contact(made, "J1:1").level_max_v) == (Volts(3.3, 3.3), 5.5)


def test_neighbours_tell_telemetry_from_a_receiver():
    # Source: facts on labels: RX beside CUR or motor signals in one plug is telemetry of the speed controller.
    assert role("RX GND M1 M2 M3 M4 CUR VBAT", 1).name == "esc_telemetry"
    assert role("RX TX GND 5V", 1).name == "uart_rx"


@pytest.mark.parametrize(("gives", "battery"), [("1:5V 3A", False), ("1:3.3V 1A", False), ("1:14.8V", True)])
def test_red_and_black_leads_are_a_pack_only_with_volts_that_a_pack_has(gives, battery):
    made = craft(captive("X1", "A G", board="source", signals="RED, BLACK", gives=gives))
    assert contact(made, "X1:1").role.battery is battery


def test_two_voltages_of_one_contact_are_told():
    for field in ("gives", "takes"):
        (oddity,) = craft(plug("J1", "a b", signals="VCC, GND", **{field: "1:5V 0.1A; 1:3.3V 0.2A"})).oddities
        assert 'says "1:5V 0.1A" and "1:3.3V 0.2A" of contact 1' in oddity.message


@pytest.mark.parametrize(
    ("gives", "contact_volts"), [("OUT+:5V 3A", (5, 5)), ("out+: 5V", (5, 5)), ("1:5V", (5, 5)), ("VIN:5V", None)]
)
def test_a_rail_is_bound_by_the_name_of_a_contact_too(gives, contact_volts):
    made = craft(plug("J1", "A B C D", signals="OUT+, OUT-, AUX+, AUX-", gives=gives))
    rails = contact(made, "J1:1").gives
    assert [rail.volts for rail in rails] == ([Volts(*contact_volts)] if contact_volts else [])
    assert bool(made.oddities) is (contact_volts is None)


def test_the_minus_beside_a_plus_with_rails_is_its_ground():
    made = craft(plug("J1", "A B C", signals="VT+, VT-, Q-", gives="1:48V 3A"))
    assert contact(made, "J1:2").role.is_ground
    assert contact(made, "J1:3").role.cls is RoleClass.UNKNOWN


@pytest.mark.parametrize(
    ("lib_id", "direction"), [("Connector:USB_A", Direction.UNKNOWN), ("Own:USB", Direction.LISTENS)]
)
def test_power_pins_of_the_connectors_of_the_library_say_nothing(lib_id, direction):
    """VBUS of KiCad's USB_A is a power input, and a host has this socket: it gives there [K]."""
    made = craft(plug("J1", "A G", lib_id=lib_id, names=["VBUS", "GND"], types={1: "power_in", 2: "power_in"}))
    assert contact(made, "J1:1").role.direction is direction
