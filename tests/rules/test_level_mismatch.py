"""Logic levels against what inputs stand.  Logic; 10 % between two levels is common practice, no source."""

from __future__ import annotations

import pytest

from crafts.craft_kit import captive, pads, plug, splice, two_pin
from crafts.finding_kit import at, findings_of
from tabside.model.findings import Severity
from tabside.rules.level_mismatch import level_mismatch


def uart(signals=("TX, RX, GND", "RX, TX, GND"), first=None, second=None):
    return (
        plug("J1", "A B G", board="pilot", signals=signals[0], **(first or {})),
        plug("J2", "A B G", board="radio", signals=signals[1], **(second or {})),
    )


@pytest.mark.parametrize(
    ("first", "second", "severity"),
    [
        pytest.param({"level": "5V"}, {"level": "3.3V", "level_max": "3.6V"}, Severity.ERROR, id="5 V above a maximum"),
        pytest.param({"level": "5V"}, {"level_max": "5.5V"}, None, id="5 V tolerant"),
        pytest.param({"level": "5V"}, {"level": "3.3V"}, Severity.WARNING, id="5 V on 3.3 V logic"),
        pytest.param({"level": "3.3V", "level_max": "3.6V"}, {"level": "3.3V"}, None, id="equal"),
        pytest.param({"level": "3.3V", "level_max": "5.5V"}, {"level": "5V"}, None, id="3.3 V on 5 V logic"),
        pytest.param({"level": "3.3V"}, {"level": "3V"}, None, id="less than a tenth"),
        pytest.param({"level": "1.8-3.3V"}, {"level_max": "2V"}, Severity.WARNING, id="may be set too high"),
        pytest.param({"level": "5V"}, {}, None, id="not stated"),
    ],
)
def test_an_output_against_the_input_that_it_drives(first, second, severity):
    found = [each for each in findings_of(level_mismatch, *uart(first=first, second=second)) if "J1:1" in at(each)]
    assert [each.severity for each in found] == ([] if severity is None else [severity])


def test_a_link_is_told_once_with_all_of_its_lines():
    found = findings_of(
        level_mismatch,
        plug("J1", "A B G", board="pilot", signals="TX, RTS, GND", level="5V"),
        plug("J2", "A B G", board="radio", signals="RX, CTS, GND", level_max="3.6V"),
    )
    assert len(found) == 1
    assert at(found[0]) == {"J1:1", "J2:1", "J1:2", "J2:2"}


def test_an_open_drain_bus_is_quiet():
    bus = ("SDA, SCL, GND", "SDA, SCL, GND")
    assert not findings_of(level_mismatch, *uart(bus, {"level": "5V"}, {"level": "3.3V", "level_max": "3.6V"}))


def test_a_data_line_without_a_clock_is_no_bus_that_is_surely_open_drain():
    """One wire called SDA: a sensor of one wire, or a strip of lights, may drive it."""
    lone = ("SDA, nc, GND", "SDA, nc, GND")
    found = findings_of(level_mismatch, *uart(lone, {"level": "5V"}, {"level": "3.3V", "level_max": "3.6V"}))
    assert [each.severity for each in found] == [Severity.WARNING]


def test_a_resistor_in_series_takes_nothing_off_a_level_and_a_divider_does():
    def through(part):
        return findings_of(
            level_mismatch,
            plug("J1", "A G", board="pilot", signals="TX, GND", level="5V"),
            *part,
            plug("J2", "B G", board="radio", signals="RX, GND", level_max="3.6V"),
        )

    assert through([two_pin("R1", "A", "B", value="1k")])
    divider = [two_pin("R1", "A", "B", value="1k"), two_pin("R2", "B", "G", value="2k")]
    assert not through(divider)  # 3.33 V of 5 V arrive: Ohm's law
    assert not through([divider[0], two_pin("R2", "B", "G", value="?")])  # nobody knows what it leaves
    assert through([two_pin("R1", "A", "B", value="1k"), two_pin("R2", "B", "G", value="10k")])  # 4.55 V
    assert through([two_pin("JP1", "A", "B")])
    assert findings_of(
        level_mismatch,
        plug("J1", "A G", board="pilot", signals="TX, GND", level="5V"),
        splice("J9", "A"),
        plug("J2", "A G", board="radio", signals="RX, GND", level_max="3.6V"),
        plug("J3", "A G", board="logger", signals="RX, GND", level_max="5.5V"),
    )


def test_a_clash_is_told_as_such_alone():
    assert not findings_of(
        level_mismatch, *uart(("TX, RX, GND", "TX, RX, GND"), {"level": "5V"}, {"level_max": "3.6V"})
    )


def pot(high, level_max="3.6V", wiper="W", more=()):
    return (
        pads("TP1", "V G", board="bus", signals="12V, GND", gives="1:12V 1A"),
        pads("TP2", "L G", board="low", signals="3V3, GND", gives="1:3.3V 1A"),
        plug("RV1", [high, "W", "G"], lib_id="Device:R_Potentiometer", value="10k", names=["1", "2", "3"]),
        plug("J1", [wiper, "G"], board="pilot", signals="ADC1, GND", **({"level_max": level_max} if level_max else {})),
        *more,
    )


def test_a_wiper_reaches_the_rail_at_its_end():
    (found,) = findings_of(level_mismatch, *pot("V"))
    assert found.severity is Severity.ERROR and at(found) == {"RV1:2", "J1:1"} and "12 V" in found.message


def test_a_wiper_on_an_input_that_states_nothing():
    (found,) = findings_of(level_mismatch, *pot("V", ""))
    assert found.severity is Severity.WARNING


def test_the_wiper_of_a_part_with_its_own_leads():
    part = captive("X1", "V W G", board="stick", signals="VCC, WIPER, GND")
    (found,) = findings_of(level_mismatch, *(s for s in pot("V", more=(part,)) if s.reference != "RV1"))
    assert found.severity is Severity.ERROR and "X1:2" in at(found)


@pytest.mark.parametrize(
    "symbols",
    [
        pytest.param(pot("L"), id="on 3.3 V"),
        pytest.param(pot("V", "15V"), id="an input that stands it"),
        pytest.param(
            pot("V", wiper="D", more=(two_pin("R1", "W", "D"), two_pin("R2", "D", "G"))), id="a divider behind"
        ),
        pytest.param(pot("H", more=(two_pin("R1", "V", "H"),)), id="a resistor before it"),
    ],
)
def test_wipers_that_are_right(symbols):
    assert not findings_of(level_mismatch, *symbols)


def test_a_thermistor_lets_its_rail_through_when_it_is_hot():
    hot = two_pin("TH1", "V", "W", value="10k", lib_id="Device:Thermistor_NTC")
    symbols = [symbol for symbol in pot("V") if symbol.reference != "RV1"]
    (found,) = findings_of(level_mismatch, *symbols, hot)
    assert found.severity is Severity.ERROR and "TH1" in found.message


def test_an_output_by_its_pin_type_is_a_sure_driver():
    sensor = plug("J9", "A G", board="hall", signals="VIOUT, GND", types={1: "output"}, level="5V")
    pilot = plug("J1", "A G", board="pilot", signals="ADC, GND", level_max="3.3V")
    assert [each.severity for each in findings_of(level_mismatch, sensor, pilot)] == [Severity.ERROR]


@pytest.mark.parametrize(("value", "is_divider"), [("4.7m", False), ("0.5", False), ("1", True), ("2.2", True)])
def test_a_resistor_of_less_than_an_ohm_to_ground_clears_no_level(value, is_divider):
    """A value read too small (an M written as m) must not take a level away.  The bound: common practice, no source."""
    found = findings_of(
        level_mismatch,
        plug("J1", "A G", board="pilot", signals="TX, GND", level="5V"),
        two_pin("R1", "A", "B", value="1k"),
        two_pin("R2", "B", "G", value=value),
        plug("J2", "B G", board="radio", signals="RX, GND", level_max="3.6V"),
    )
    assert bool(found) is not is_divider
