"""Slips that no single link shows, because supply, ground and buses run over shared nets.  Logic, no source needed."""

from __future__ import annotations

from crafts.craft_kit import captive, pads, plug, power, two_pin
from crafts.finding_kit import all_findings, rules
from tabside.model.findings import Severity

HUB = pads("TP1", "5V GND C D", board="pilot", signals="5V, GND, SCL, SDA", gives="5V 2A", leads_max=12)
RAILS = (power("GND"), power("5V"))


def errors(*symbols):
    return [each for each in all_findings(*symbols) if each.severity is Severity.ERROR]


def test_exchanged_leads_of_an_end_whose_leads_go_to_several_boards():
    found = errors(
        HUB,
        pads("TP2", "5V GND C D", board="compass", signals="5V, GND, SCL, SDA"),
        plug("J1", "5V GND V", board="pilot", family="JST GH", signals="5V, VIDEO_IN, GND"),
        plug("J2", "5V V GND", board="camera", family="JST ZH", signals="5V, VIDEO_OUT, GND"),
        *RAILS,
    )
    assert rules(found) == ["swapped-pair"]
    assert "pilot/J1:2 (VIDEO_IN)" in found[0].message and "pilot/J1:3 (GND)" in found[0].message


def test_quiet_when_nothing_is_exchanged():
    assert not errors(
        HUB,
        pads("TP2", "5V GND C D", board="compass", signals="5V, GND, SCL, SDA"),
        plug("J1", "5V V GND", board="pilot", family="JST GH", signals="5V, VIDEO_IN, GND"),
        plug("J2", "5V V GND", board="camera", family="JST ZH", signals="5V, VIDEO_OUT, GND"),
        *RAILS,
    )


def test_the_blame_stays_with_the_end_that_disagrees_with_the_rest_of_its_nets():
    # The compass's pads are exchanged; the plug beside it, which only meets the compass, is sound.
    found = errors(
        HUB,
        pads("TP2", "GND 5V C D", board="compass", signals="5V, GND, SCL, SDA"),
        plug("J3", "5V GND C D", board="barometer", family="JST SH", signals="5V, GND, SCL, SDA"),
        *RAILS,
    )
    assert rules(found) == ["swapped-pair"]
    assert "compass/TP2:1 (5V)" in found[0].message


def test_listeners_deserted_by_the_driver_are_not_told_apart():
    found = errors(
        HUB,
        plug("J1", "5V GND R T", board="pilot", family="JST GH", signals="5V, TX, RX, GND"),
        plug("J2", "5V T R GND", board="radio", family="JST GH", signals="5V, RX, TX, GND"),
        pads("TP3", "5V T GND", board="display", signals="5V, RX, GND"),
        *RAILS,
    )
    assert rules(found) == ["swapped-pair"]


def test_a_regulator_the_wrong_way_round_behind_a_fuse_is_one_slip():
    # The fuse and the camera are two links; only the regulator's own pads show both exchanged wires.
    found = errors(
        captive("BT1", "P GND", board="pack", signals="BAT+, BAT-", gives="VBAT 30A"),
        two_pin("F1", "P", "Q", value="5A"),
        pads("P1", "Q GND V GND", board="buck", signals="OUT+, OUT-, IN+, IN-", gives="1:5V 3A", takes="3:7-26V 2A"),
        plug("J1", "V GND", board="camera", family="JST GH", signals="5V, GND"),
        power("GND"),
    )
    assert "swapped-pair" in rules(found)
    (swapped,) = [each for each in found if each.rule == "swapped-pair"]
    assert {(where.termination, where.contact) for where in swapped.where} >= {("P1", "1"), ("P1", "3")}
