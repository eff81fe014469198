"""Parts that stand the wrong way round, or short a supply.

Pins A and K of diodes, pin 1 as plus of polarised capacitors: KiCad's library.  The rest is logic.
"""

from __future__ import annotations

import pytest

from crafts.craft_kit import captive, pads, plug, power, two_pin
from crafts.finding_kit import all_findings, findings_of, of_rule
from tabside.model.craft import CraftSettings
from tabside.model.findings import Severity
from tabside.model.roles import Volts
from tabside.rules.part_reversed import part_reversed

FOUR_CELLS = CraftSettings(battery=Volts(12.0, 16.8))
GND = power("GND")


def diode(reference, anode, cathode, value="SS34", lib_id="Device:D_Schottky"):
    """Pin 1 is K, pin 2 is A."""
    return plug(reference, [cathode, anode], value=value, lib_id=lib_id, names=["K", "A"])


def part(reference, net_1, net_2, value, lib_id="", names=("~", "~"), **more):
    return plug(reference, [net_1, net_2], value=value, lib_id=lib_id, names=list(names), **more)


def pack(*nets):
    return captive("X1", list(nets), board="pack", signals="BAT+, BAT-", gives="4S 40A")


def drive(*nets, reference="TP1"):
    return pads(reference, list(nets), board="drive", signals="VBAT, GND", takes="7-26V 10A")


def bec(reference, *nets, gives="5V 3A"):
    return pads(reference, list(nets), board=f"regulator {reference}", signals="5V, GND", gives=gives)


def load(reference, *nets):
    return pads(reference, list(nets), board=f"board {reference}", signals="5V, GND", takes="5V 0.5A")


CAP = "Device:C_Polarized"

HARMFUL = {
    "diode in the battery's plus, cathode to the pack": [pack("A", "GND"), diode("D1", "B", "A"), drive("B", "GND")],
    "diode before a pack of which only its names are stated": [
        captive("X1", ["A", "GND"], board="pack", signals="BAT+, BAT-"),
        diode("D1", "B", "A"),
        drive("B", "GND"),
    ],
    "diode in the battery's minus, cathode to the load": [pack("V", "A"), diode("D1", "A", "B"), drive("V", "B")],
    "OR-ing diodes both turned": [
        bec("TP1", "A", "GND"),
        bec("TP2", "B", "GND"),
        load("TP3", "V", "GND"),
        diode("D1", "V", "A"),
        diode("D2", "V", "B"),
        GND,
    ],
    "one of two OR-ing diodes turned: the rail feeds back into it": [
        bec("TP1", "A", "GND"),
        bec("TP2", "B", "GND"),
        load("TP3", "V", "GND"),
        diode("D1", "A", "V"),
        diode("D2", "V", "B"),
        GND,
    ],
    "a second regulator's diode turned": [
        bec("TP1", "V", "GND"),
        load("TP3", "V", "GND"),
        bec("TP2", "B", "GND"),
        diode("D7", "V", "B"),
        GND,
    ],
    "solar panel's diode turned: the pack feeds the panel": [
        pads("TP1", "S GND", board="panel", signals="18V, GND", gives="18V 3A"),
        diode("D1", "V", "S"),
        pack("V", "GND"),
        drive("V", "GND", reference="TP5"),
        GND,
    ],
    "suppressor turned across the battery": [
        pack("V", "GND"),
        drive("V", "GND"),
        diode("D1", "V", "GND", "SMBJ18A"),
        GND,
    ],
    "flyback diode turned across 5 V": [bec("TP1", "V", "GND"), load("TP2", "V", "GND"), diode("D3", "V", "GND"), GND],
    "inductor across the battery": [pack("V", "GND"), drive("V", "GND"), part("L1", "V", "GND", "10uH"), GND],
    "ferrite bead across 5 V": [bec("TP1", "V", "GND"), load("TP2", "V", "GND"), part("FB2", "V", "GND", "600R"), GND],
    "0 ohm across 5 V": [bec("TP1", "V", "GND"), load("TP2", "V", "GND"), part("R9", "V", "GND", "0R"), GND],
    "polarised capacitor turned": [pack("V", "GND"), drive("V", "GND"), part("C1", "GND", "V", "1000u 35V", CAP), GND],
    "polarised capacitor turned, told by its footprint": [
        pack("V", "GND"),
        drive("V", "GND"),
        part("C1", "GND", "V", "1000u", "mine:C", footprint="Capacitor_THT:CP_Radial_D10.0mm_P5.00mm"),
        GND,
    ],
    "capacitor with - alone turned": [
        pack("V", "GND"),
        drive("V", "GND"),
        part("C1", "V", "GND", "1000u 35V", "mine:C", names=("-", "~")),
        GND,
    ],
    "capacitor with + and - turned": [
        pack("V", "GND"),
        drive("V", "GND"),
        part("C2", "GND", "V", "470u", "mine:CAP", names=("+", "-")),
        GND,
    ],
    "capacitor of 16 V on four cells": [
        pack("V", "GND"),
        drive("V", "GND"),
        part("C1", "V", "GND", "470u 16V", CAP),
        GND,
    ],
    "capacitor of 10 V by its Rating on 12 V": [
        pads("TP1", "V GND", board="psu", signals="12V, GND", gives="12V 3A"),
        pads("TP2", "V GND", board="fan", signals="12V, GND", takes="12V 1A"),
        part("C1", "V", "GND", "220u", CAP, rating="10V"),
        GND,
    ],
    "capacitor of 4 V on a rail that only a power symbol names": [
        part("C1", "+5V", "GND", "220u 4V", CAP),
        power("+5V"),
        GND,
        bec("TP1", "A", "GND"),
        load("TP2", "A", "GND"),
    ],
}

SOUND = {
    "diode in the battery's plus": [pack("A", "GND"), diode("D1", "A", "B"), drive("B", "GND")],
    "diode in the battery's minus": [pack("V", "A"), diode("D1", "B", "A"), drive("V", "B")],
    "diode between the grounds of two supplies": [
        bec("TP1", "V", "A"),
        diode("D1", "A", "B"),
        bec("TP2", "W", "B"),
        load("TP3", "W", "B"),
    ],
    "buzzer of its own behind a diode": [
        bec("TP1", "A", "GND"),
        load("TP2", "A", "GND"),
        diode("D1", "A", "V"),
        captive("X5", "V GND", board="buzzer", signals="5V, GND"),
        GND,
    ],
    "OR-ing diodes": [
        bec("TP1", "A", "GND"),
        bec("TP2", "B", "GND"),
        load("TP3", "V", "GND"),
        diode("D1", "A", "V"),
        diode("D2", "B", "V"),
        GND,
    ],
    "a second regulator behind a diode": [
        bec("TP1", "V", "GND"),
        load("TP3", "V", "GND"),
        bec("TP2", "B", "GND"),
        diode("D7", "B", "V"),
        GND,
    ],
    "solar panel behind its diode": [
        pads("TP1", "S GND", board="panel", signals="18V, GND", gives="18V 3A"),
        diode("D1", "S", "V"),
        pack("V", "GND"),
        drive("V", "GND", reference="TP5"),
        GND,
    ],
    "diode whose pins have no names": [pack("A", "GND"), two_pin("D1", "B", "A"), drive("B", "GND")],
    "suppressor with its cathode on plus": [
        pack("V", "GND"),
        drive("V", "GND"),
        diode("D1", "GND", "V", "SMBJ18A"),
        GND,
    ],
    "suppressor for both ways": [
        pack("V", "GND"),
        drive("V", "GND"),
        part("D1", "V", "GND", "P6KE", names=("A1", "A2")),
        GND,
    ],
    "lamp made for 5 V": [
        bec("TP1", "V", "GND"),
        load("TP2", "V", "GND"),
        diode("D5", "V", "GND", "LED 5V", "Device:LED"),
        GND,
    ],
    "LED with its resistor": [
        bec("TP1", "V", "GND"),
        load("TP2", "V", "GND"),
        part("R1", "V", "N", "330"),
        diode("D5", "N", "GND", "red", "Device:LED"),
        GND,
    ],
    "inductor in the run": [bec("TP1", "A", "GND"), part("L1", "A", "V", "10uH"), load("TP2", "V", "GND"), GND],
    "bleed resistor": [pack("V", "GND"), drive("V", "GND"), part("R1", "V", "GND", "10k"), GND],
    "capacitor with - alone": [
        pack("V", "GND"),
        drive("V", "GND"),
        part("C1", "V", "GND", "1000u 35V", "mine:C", names=("~", "-")),
        GND,
    ],
    "polarised capacitor": [pack("V", "GND"), drive("V", "GND"), part("C1", "V", "GND", "1000u 35V", CAP), GND],
    "ceramic capacitor either way": [
        pack("V", "GND"),
        drive("V", "GND"),
        part("C1", "GND", "V", "10u 25V", "Device:C"),
        GND,
    ],
    "capacitor that says no volts": [
        pack("V", "GND"),
        drive("V", "GND"),
        part("C1", "V", "GND", "100n", "Device:C"),
        GND,
    ],
    "capacitor at its volts": [
        pads("TP1", "V GND", board="psu", signals="12V, GND", gives="12V 3A"),
        pads("TP2", "V GND", board="fan", signals="12V, GND", takes="12V 1A"),
        part("C1", "V", "GND", "220u 12V", CAP),
        GND,
    ],
    "turned and not fitted": [
        pack("V", "GND"),
        drive("V", "GND"),
        part("C1", "GND", "V", "1000u 35V", CAP, dnp=True),
        GND,
    ],
    "net tie between grounds": [
        bec("TP1", "V", "GND"),
        pads("TP2", "V AG", board="board", signals="5V, AGND", takes="5V 0.5A"),
        part("NT1", "GND", "AG", "tie"),
    ],
}


@pytest.mark.parametrize("symbols", HARMFUL.values(), ids=HARMFUL)
def test_a_part_that_stands_wrong_is_an_error(symbols):
    found = findings_of(part_reversed, *symbols, settings=FOUR_CELLS)
    assert Severity.ERROR in {each.severity for each in found}, found


@pytest.mark.parametrize("symbols", HARMFUL.values(), ids=HARMFUL)
def test_and_the_whole_check_says_it_too(symbols):
    assert of_rule("part-reversed", all_findings(*symbols, settings=FOUR_CELLS))


@pytest.mark.parametrize("symbols", SOUND.values(), ids=SOUND)
def test_a_part_that_stands_right_is_quiet(symbols):
    assert not findings_of(part_reversed, *symbols, settings=FOUR_CELLS)


def test_the_message_says_which_way_round():
    (found,) = findings_of(part_reversed, *HARMFUL["diode in the battery's plus, cathode to the pack"])
    assert "its cathode points to pack/X1:1 (BAT+), so no current reaches drive/TP1:1 (VBAT)" in found.message
    (found,) = findings_of(part_reversed, *HARMFUL["capacitor of 16 V on four cells"], settings=FOUR_CELLS)
    assert "made for 16 V" in found.message and "reaches 16.8 V" in found.message
    (found,) = findings_of(part_reversed, *HARMFUL["inductor across the battery"], settings=FOUR_CELLS)
    assert "L1 (10uH) shorts the battery at" in found.message


def test_a_diode_before_contacts_of_which_nobody_says_what_they_do_is_a_warning():
    unsaid = pads("TP2", "V GND", board="board", signals="5V, GND")
    (found,) = findings_of(part_reversed, bec("TP1", "B", "GND"), diode("D1", "V", "B"), unsaid)
    assert found.severity is Severity.WARNING


def test_packs_in_series_reach_the_volts_of_both():
    def found(volts):
        return findings_of(
            part_reversed,
            captive("X1", ["M", "GND"], board="lower", signals="BAT+, BAT-", gives="4S 40A"),
            captive("X2", ["V", "M"], board="upper", signals="BAT+, BAT-", gives="4S 40A"),
            pads("TP1", "V GND", board="drive", signals="VBAT, GND", takes="10-60V 10A"),
            part("C1", "V", "GND", f"470u {volts}V", CAP),
            GND,
        )

    assert not found(35)
    (low,) = found(25)
    assert "reaches 33.6 V" in low.message


@pytest.mark.parametrize("resistor", [True, False])
@pytest.mark.parametrize("turned", [True, False])
def test_an_led_with_its_anode_on_ground_stays_dark(turned, resistor):
    """Reverse voltages of LEDs lie near 5 V (common practice, no source)."""
    hot = "N" if resistor else "V"
    found = findings_of(
        part_reversed,
        bec("TP1", "V", "GND"),
        drive("V", "GND"),
        *([part("R1", "V", "N", "330")] if resistor else []),
        diode("D5", *(("GND", hot) if turned else (hot, "GND")), value="red LED", lib_id="Device:LED"),
        GND,
    )
    told = [(each.severity, "stays dark" in each.message) for each in found]
    assert told == ([(Severity.ERROR, True)] if turned else [])


def variable(nets, value="1k"):
    """KiCad's potentiometer: pin 2 is the wiper."""
    return plug("RV1", nets, lib_id="Device:R_Potentiometer", value=value, names=["1", "2", "3"])


@pytest.mark.parametrize("nets", ["A G X", "A G G", "G A X", "X A G"])
def test_a_potentiometer_that_shorts_its_rail_at_an_end(nets):
    rail = pads("TP1", "A G", board="bus", signals="12V, GND", gives="1:12V 1A")
    found = findings_of(part_reversed, rail, variable(nets), plug("J1", "X G", board="pilot", signals="ADC, GND"))
    assert [each.severity for each in found] == [Severity.ERROR] and "short" in found[0].message


@pytest.mark.parametrize("nets", ["A W G", "A L L", "A A L"])
def test_a_potentiometer_as_it_should_be(nets):
    rail = pads("TP1", "A G", board="bus", signals="12V, GND", gives="1:12V 1A")
    lamp = captive("X1", "L G", board="lamp", signals="+, -")
    pilot = plug("J1", "W G", board="pilot", signals="ADC, GND")
    assert not findings_of(part_reversed, rail, variable(nets), lamp, pilot)


@pytest.mark.parametrize(
    ("signals", "coil"),
    [
        pytest.param("5V, OUT1, GND", "V D", id="switched to ground"),
        pytest.param("5V, OUT1, GND", "D GND", id="switched to the supply, which is not on the coil"),
    ],
)
def test_a_diode_beside_a_coil_conducts_only_when_the_coil_is_switched_off(signals, coil):
    """A coil's plus is its supply's side, or the one that is not on ground; the cathode belongs there.  Logic."""
    pilot = pads("TP1", ["V", "D", "GND"], board="pilot", signals=signals, gives="5V 1A")
    plus, minus = coil.split()
    relay = captive("X5", [plus, minus], board="relay")
    sound = diode("D1", anode=minus, cathode=plus, value="1N4007")
    turned = diode("D1", anode=plus, cathode=minus, value="1N4007")
    assert not findings_of(part_reversed, pilot, relay, sound)
    assert [each.severity for each in findings_of(part_reversed, pilot, relay, turned)] == [Severity.ERROR]
