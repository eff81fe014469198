"""Which two-pin parts split a run, and what passes through them.  Circuits are common practice, no source."""

import pytest

from crafts.craft_kit import contact, craft, lead_ends, pads, plug, power, splice, two_pin
from tabside.model.craft import Kind
from tabside.model.roles import RoleClass, Volts


def pilot(nets, signals, **more):
    return plug("J1", nets, signals=signals, board="pilot", **more)


def other(nets, signals, **more):
    return plug("J2", nets, signals=signals, board="other", **more)


@pytest.mark.parametrize("letters", ["F", "FH", "PF", "CB", "SW", "S", "JP", "NT", "D", "R", "L", "FB"])
def test_a_part_in_a_supply_run_splits_it(letters):
    made = craft(pilot("VA GND", "5V GND"), other("VB GND", "5V GND"), two_pin(f"{letters}1", "VA", "VB"))
    part = f"{letters}1"
    assert made.terminations[part].kind is Kind.INLINE
    met = {(lead.net, *sorted(":".join(end) for end in lead.ends)) for lead in made.leads}
    assert met == {
        ("GND", "J1:2", "J2:2"),
        ("VA", *sorted(["J1:1", f"{part}:1"])),
        ("VB", *sorted(["J2:1", f"{part}:2"])),
    }


@pytest.mark.parametrize("reference", ["C1", "U1", "RV1", "TVS1", "Y1"])
def test_other_two_pin_parts_are_parts_on_the_net(reference):
    made = craft(pilot("V GND", "5V GND"), other("V GND", "5V GND"), two_pin(reference, "V", "GND"))
    assert reference not in made.terminations
    assert [part.nets for part in made.parts] == [("GND", "V")]
    assert lead_ends(made) == {"J1:1 - J2:1", "J1:2 - J2:2"}


@pytest.mark.parametrize("reference", ["D1", "R1", "L1", "FB1"])
def test_a_part_between_a_rail_and_ground_splits_nothing(reference):
    made = craft(pilot("V GND", "5V GND"), other("V GND", "5V GND"), two_pin(reference, "V", "GND"))
    assert reference not in made.terminations
    assert lead_ends(made) == {"J1:1 - J2:1", "J1:2 - J2:2"}


@pytest.mark.parametrize(
    "parts",
    [
        pytest.param([("R1", "V", "A"), ("D1", "A", "GND")], id="a resistor and its light"),
        pytest.param([("D1", "V", "A"), ("R1", "A", "GND")], id="a light and its resistor"),
        pytest.param([("R1", "V", "A"), ("D1", "A", "B"), ("D2", "B", "GND")], id="two lights in a row"),
    ],
)
def test_a_light_and_its_resistor_across_a_supply_pass_nothing_on(parts):
    made = craft(pads("J1", "V GND", signals="5V GND", board="pilot"), *(two_pin(*each) for each in parts))
    for reference, *_ in parts:
        assert made.terminations[reference].kind is Kind.INLINE  # wires lead to it
        assert {contact(made, f"{reference}:{n}").role.cls for n in "12"} == {RoleClass.UNKNOWN}


def test_a_switch_before_a_light_and_its_resistor_carries_the_supply():
    row = [two_pin("SW1", "V", "W"), two_pin("R1", "W", "A"), two_pin("D1", "A", "GND")]
    made = craft(pads("J1", "V GND", signals="5V GND", board="pilot"), *row)
    assert contact(made, "SW1:2").role.is_supply and not contact(made, "SW1:1").role.is_ground


@pytest.mark.parametrize(
    "row", [[("L1", "V", "A"), ("FB1", "A", "GND")], [("R1", "V", "A", "0R"), ("FB1", "A", "GND")]]
)
def test_without_a_resistor_a_row_of_parts_across_a_supply_passes_it_on_to_ground(row):
    parts = [two_pin(*each[:3], value="".join(each[3:])) for each in row]
    made = craft(pads("J1", "V GND", signals="5V GND", board="pilot"), *parts)
    assert contact(made, f"{row[0][0]}:1").role.is_ground


def test_a_rail_is_known_by_its_power_symbols_too():
    made = craft(plug("J1", "+5V GND"), plug("J2", "+5V GND"), two_pin("R1", "+5V", "GND"), power("+5V"), power("GND"))
    assert "R1" not in made.terminations


def test_a_pull_up_is_no_run():
    made = craft(pilot("3V3 SDA GND", "3V3 SDA GND"), other("3V3 SDA GND", "3V3 SDA GND"), two_pin("R1", "3V3", "SDA"))
    assert "R1" not in made.terminations and lead_ends(made, "SDA") == {"J1:2 - J2:2"}


def test_a_terminator_is_no_run():
    made = craft(pilot("H L", "CAN_H CAN_L"), other("H L", "CAN_H CAN_L"), two_pin("R1", "H", "L"))
    assert "R1" not in made.terminations


def test_a_terminator_in_a_plug_of_its_own_is_no_run():
    made = craft(pilot("H L", "CAN_H CAN_L"), two_pin("R1", "H", "L"))
    assert "R1" not in made.terminations


def test_a_resistor_in_a_signal_line_is_a_run():
    made = craft(pilot("A GND", "TX GND"), other("B GND", "RX GND"), two_pin("R1", "A", "B"))
    assert contact(made, "R1:1").role.name == "uart_rx"  # as seen from the pilot: what lies behind
    assert contact(made, "R1:2").role.name == "uart_tx"


def test_role_and_voltage_pass_through_a_chain():
    made = craft(
        pilot("A GND", "VBAT GND", gives="4S"),
        other("D GND", "5V GND"),
        two_pin("F1", "A", "B"),
        two_pin("SW1", "B", "C"),
        two_pin("FB1", "C", "D"),
    )
    for far in ("F1:1", "SW1:1", "FB1:1"):
        assert contact(made, far).role.volts == Volts(5, 5)
    for far in ("F1:2", "SW1:2", "FB1:2"):
        assert contact(made, far).role.battery
    assert {contact(made, f"F1:{n}").role.said_by for n in "12"} == {"in-line part"}


def test_names_of_the_parts_own_pins_say_nothing():
    made = craft(pilot("A GND", "5V GND"), plug("J2", "B GND"), plug("D1", "A B", names=["K", "A"]))
    assert contact(made, "D1:1").label == ""
    assert contact(made, "D1:1").role.cls is RoleClass.UNKNOWN
    assert contact(made, "D1:2").role.name == "power_5v"


def test_a_button_to_ground_passes_nothing():
    made = craft(pilot("SIG GND", "TX GND"), other("X GND", "RX GND"), two_pin("SW1", "SIG", "GND"))
    assert {contact(made, f"SW1:{n}").role.cls for n in "12"} == {RoleClass.UNKNOWN}


def test_a_lamp_with_its_resistor_is_a_run_and_passes_nothing():
    made = craft(pilot("LED GND", "LED GND"), two_pin("R1", "LED", "MID"), two_pin("D1", "MID", "GND"))
    assert {contact(made, f"R1:{n}").role.cls for n in "12"} == {RoleClass.UNKNOWN}
    assert lead_ends(made) >= {"J1:1 - R1:1", "D1:1 - R1:2"}


def test_the_battery_on_a_signal_passes_through_a_switch_and_a_fuse():
    for reference in ("SW1", "F1"):
        made = craft(pilot("A GND", "VBAT GND"), other("B GND", "RX GND"), two_pin(reference, "A", "B"))
        assert contact(made, f"{reference}:2").role.battery
        assert contact(made, f"{reference}:1").role.name == "uart_rx"


def test_kind_makes_a_resistor_a_termination_of_its_own():
    made = craft(
        pilot("A GND", "5V GND"), other("B GND", "5V GND"), two_pin("R1", "A", "B", kind="pad", board="heater")
    )
    assert made.terminations["R1"].kind is Kind.PAD


def test_a_board_field_gives_any_two_pin_part_leads():
    made = craft(pilot("A GND", "5V GND"), two_pin("C1", "A", "GND", board="lamp"))
    assert lead_ends(made, "A") == {"C1:1 - J1:1"}


def test_ground_runs_beside_a_supply_that_a_fuse_splits():
    made = craft(
        plug("J1", "- GND", signals="X GND", board="a", kind="pad"),
        pads("J8", "V1 GND", signals="VBAT GND", board="pack"),
        pads("J9", "V2 GND", signals="VBAT GND", board="power"),
        two_pin("F1", "V1", "V2"),
    )
    assert "J8:2 - J9:2" in lead_ends(made, "GND")


def test_a_splice_carries_the_role_of_its_net():
    made = craft(
        pilot("V GND", "5V GND"), other("V GND", "5V GND"), plug("J3", "V -", signals="5V GND"), splice("X1", "V")
    )
    assert contact(made, "X1:1").role.name == "power_5v"


def test_a_splice_of_crossing_lines_has_no_role():
    made = craft(pilot("T", "TX"), other("T", "RX"), plug("J3", "T", signals="RX"), splice("X1", "T"))
    assert contact(made, "X1:1").role.cls is RoleClass.UNKNOWN


def switched(reference, nets, numbers, lib_id):
    named = dict(zip(numbers.split(), nets.split(), strict=True))
    return plug(reference, named, lib_id=lib_id, names=dict.fromkeys(named, "~"))


@pytest.mark.parametrize(
    ("part", "passes"),
    [
        (switched("SW1", "A B C", "1 2 3", "Switch:SW_SPDT"), (("2", "1"), ("2", "3"))),
        (switched("SW1", "A B -", "1 2 3", "Switch:SW_SPDT"), (("2", "1"),)),
        (switched("JP1", "A B C", "1 2 3", "Jumper:Jumper_3_Open"), (("2", "1"), ("2", "3"))),
        (switched("K1", "D E A B C", "A1 A2 12 11 14", "Relay:Relay_SPDT"), (("11", "12"), ("11", "14"))),
        (switched("K1", "D E B C", "A1 A2 13 14", "Relay:Relay_SPST-NO"), (("13", "14"),)),
        (switched("CB1", "A B D E", "1 2 3 4", "Device:CircuitBreaker_2P"), (("1", "2"), ("3", "4"))),
        (switched("NT1", "A B C", "1 2 3", "Device:NetTie_3"), (("1", "2"), ("1", "3"), ("2", "3"))),
    ],
)
def test_parts_of_more_pins_join_what_their_numbers_say(part, passes):
    ends = [plug(f"J{n}", [net], signals="VBAT", board=net) for n, net in enumerate("ABCDE", 1)]
    made = craft(*ends, part)
    found = made.terminations[part.reference]
    assert found.kind is Kind.INLINE and found.passes == passes and not found.unread
    wired = {number for number, net in part.nets if net}
    assert {contact.number for contact in found.contacts} == wired


@pytest.mark.parametrize(
    ("numbers", "names"),
    [
        ("COM NO A1 A2", "~ ~ ~ ~"),
        ("11 14 A1 A2", "~ ~ ~ ~"),
        ("COM NO COIL1 COIL2", "~ ~ ~ ~"),
        ("1 2 3 4", "COM NO A1 A2"),
        ("1 2 3 4", "com no COIL1 COIL2"),
        ("1 2 3 4", "11 14 A1 A2"),
        ("1 2 3 4", "COM1 NO1 COIL+ COIL-"),
        ("1 2 3 4", "COM NC A1 A2"),
    ],
)
@pytest.mark.parametrize("lib_id", ["Relay:Own", "my_parts:K", "K_Generic"])
def test_a_relays_contacts_are_read_by_name_or_number(numbers, names, lib_id):
    """Names are common practice, no source."""
    part = plug("K1", dict(zip(numbers.split(), "ABDE", strict=True)), lib_id=lib_id, names=names.split())
    ends = [plug(f"J{n}", [net], signals="VBAT", board=net) for n, net in enumerate("ABDE", 1)]
    found = craft(*ends, part).terminations["K1"]
    assert found.kind is Kind.INLINE and not found.unread
    assert found.passes == (tuple(numbers.split()[:2]),)


def test_a_relays_poles_stay_apart():
    names = ["COM1", "NO1", "NC1", "COM2", "NO2", "NC2", "A1", "A2"]
    part = plug("K1", dict(zip("12345678", "ABCDEFGH", strict=True)), lib_id="Relay:Own", names=names)
    ends = [plug(f"J{n}", [net], signals="VBAT", board=net) for n, net in enumerate("ABCDEFGH", 1)]
    found = craft(*ends, part).terminations["K1"]
    assert set(map(frozenset, found.passes)) == {frozenset(pair) for pair in ("12", "13", "45", "46")}


def test_voltage_passes_a_relays_contacts_and_not_its_coil():
    made = craft(
        plug("J1", "A GND", signals="VBAT GND", board="pack"),
        plug("J2", "B D GND", signals="VIN PWM GND", board="x"),
        switched("K1", "D GND A B", "A1 A2 11 14", "Relay:Relay_SPST-NO"),
    )
    assert contact(made, "K1:14").role.battery and contact(made, "K1:11").role.is_supply
    assert contact(made, "K1:A1").role.cls is RoleClass.UNKNOWN
    assert {"J2:2 - K1:A1", "J1:1 - K1:11"} <= lead_ends(made)


def test_a_splice_with_a_pin_for_each_wire_joins_their_nets():
    made = craft(
        plug("J1", "A", signals="VBAT", board="pack"),
        plug("J2", "B", signals="VIN", board="b"),
        plug("J3", "C", signals="VIN", board="c"),
        plug("X1", "A B C", kind="splice"),
    )
    assert lead_ends(made) == {"J1:1 - X1:1", "J2:1 - X1:2", "J3:1 - X1:3"}
    assert contact(made, "X1:2").role.is_supply
