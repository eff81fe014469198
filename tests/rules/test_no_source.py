"""Loads that nothing is stated to feed.  Logic, no source needed."""

from __future__ import annotations

from crafts.craft_kit import captive, pads, plug, two_pin
from crafts.finding_kit import at, findings_of, rules
from tabside.model.findings import Severity
from tabside.rules.no_source import no_source

LOAD = pads("TP9", "B GND", board="camera", signals="12V, GND", takes="12V 0.3A")


def test_a_load_that_no_board_is_stated_to_feed():
    found = findings_of(no_source, LOAD, pads("TP1", "B GND", board="pilot", signals="12V, GND"))
    assert rules(found) == ["no-source"]
    assert found[0].severity is Severity.WARNING
    assert at(found[0]) == {"TP9:1"}


def test_quiet_with_a_source_on_the_net_or_behind_a_fuse_and_a_switch():
    assert not findings_of(no_source, LOAD, pads("TP1", "B GND", board="bec", signals="12V, GND", gives="12V 2A"))
    assert not findings_of(
        no_source,
        LOAD,
        pads("TP1", "A GND", board="bec", signals="12V, GND", gives="12V 2A"),
        two_pin("F1", "A", "M"),
        two_pin("SW1", "M", "B"),
    )


def test_quiet_without_a_stated_load():
    assert not findings_of(
        no_source,
        pads("TP1", "B GND", board="pilot", signals="5V, GND"),
        pads("TP2", "B GND", board="gps", signals="5V, GND"),
    )


def test_quiet_when_a_supply_may_be_either():
    assert not findings_of(no_source, LOAD, pads("TP1", "B GND", board="pilot", signals="12V, GND", either="12V"))


def test_a_board_passes_its_battery_on():
    assert not findings_of(
        no_source,
        captive("X1", "A GND", board="pack", signals="VBAT, GND", gives="VBAT 30A"),
        pads("TP1", "A GND", board="pilot", signals="VBAT, GND", takes="VBAT 1A"),
        plug("J2", "C GND", board="pilot", signals="VBAT, GND"),
        plug("J3", "C GND", board="camera", signals="VBAT, GND", takes="VBAT 0.3A"),
    )


def test_a_net_that_clashes_is_told_as_that():
    assert not findings_of(no_source, LOAD, pads("TP1", "B GND", board="pilot", signals="TX, GND"))


def test_loads_of_one_finding_are_told_with_their_verb_and_three_of_them_by_name():
    def message(*names):
        loads = [
            pads(f"TP{n}", "B GND", board=name, signals="12V, GND", takes="12V 1A") for n, name in enumerate(names)
        ]
        return findings_of(no_source, *loads, pads("TP9", "B GND", board="pilot", signals="12V, GND"))[0].message

    assert message("camera").startswith("camera/TP0:1 (12V) draws power from the net ")
    assert message("camera", "lamp").startswith("camera/TP0:1 (12V) and lamp/TP1:1 (12V) draw power from the net ")
    said = message("camera", "lamp", "horn", "fan", "pump")
    assert "horn" in said and "fan" not in said and "2 more" in said
