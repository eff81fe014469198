"""Converters, charge controllers and protections that stand the wrong way round.  Common practice, no source."""

from __future__ import annotations

import pytest

from crafts.craft_kit import captive, craft, pads, plug, two_pin
from crafts.finding_kit import findings_of
from tabside.model.findings import Outcome, Severity
from tabside.rules import check_craft
from tabside.rules.output_fed import output_fed

PACK = captive("X1", "P G", board="pack", signals="BAT+, BAT-", gives="4S 20A")
CAMERA = plug("J1", "V G", board="cam", family="JST GH", signals="5V, GND")


def converter(nets, signals="IN+, IN-, OUT+, OUT-", board="buck", **more):
    return pads("TP1", nets, board=board, signals=signals, **more)


@pytest.mark.parametrize(
    ("board", "beside"),
    [
        pytest.param(converter("V G P G"), CAMERA, id="a converter"),
        pytest.param(converter("V G P G", "VIN, GND, VOUT, GND"), CAMERA, id="a converter by other names"),
        pytest.param(converter("- - S G P G", "BAT+, BAT-, PV+, PV-, LOAD+, LOAD-"), CAMERA, id="load of a controller"),
        pytest.param(
            converter("L M P G", "B+, B-, P+, P-"),
            pads("TP2", "L M", board="esc", signals="VBAT, GND"),
            id="a protection",
        ),
    ],
)
def test_what_feeds_an_output_is_told(board, beside):
    (found,) = findings_of(output_fed, PACK, board, beside)
    assert (found.rule, found.severity) == ("two-sources", Severity.WARNING)
    assert "output by its name" in found.message and "pack/X1" in found.message


def test_what_gives_though_it_is_no_pack_feeds_an_output_as_well():
    regulator = pads("TP9", "P G", board="bec", signals="12V, GND", gives="12V 3A")
    (found,) = findings_of(output_fed, regulator, converter("V G P G"), CAMERA)
    assert "bec/TP9" in found.message and "output by its name" in found.message


def test_a_pack_of_which_nothing_is_stated_feeds_an_output_as_well():
    pack = captive("X1", "P G", board="pack", signals="BAT+, BAT-")
    camera = plug("J1", "V G", board="cam", family="JST GH", signals="5V, GND", takes="5V 1A")
    (found,) = findings_of(output_fed, pack, converter("V G P G"), camera)
    assert "pack/X1" in found.message


def test_over_a_fuse_too():
    assert findings_of(output_fed, PACK, two_pin("F1", "P", "Q"), converter("V G Q G"), CAMERA)


@pytest.mark.parametrize(
    ("board", "beside"),
    [
        pytest.param(converter("P G V G"), CAMERA, id="the right way round"),
        pytest.param(
            converter("S G P G", board="charger"),
            captive("X2", "S G", board="sun", signals="PV+, PV-"),
            id="a charger on a panel of which nothing is stated",
        ),
        pytest.param(
            converter("S G P G", board="charger"),
            pads("TP2", "S G", board="psu", signals="19V, GND"),
            id="a charger on a rail above the pack",
        ),
        pytest.param(converter("V G P G", takes="3:7-26V 2A", gives="1:5V 3A"), CAMERA, id="what it gives is stated"),
        pytest.param(
            converter("P G S G L G", "BAT+, BAT-, PV+, PV-, LOAD+, LOAD-"),
            pads("TP2", "L G", board="radio", signals="12V, GND"),
            id="a controller as it should be",
        ),
        pytest.param(
            converter("P G L M", "B+, B-, P+, P-"),
            pads("TP2", "L M", board="esc", signals="VBAT, GND"),
            id="a protection as it should be",
        ),
    ],
)
def test_quiet(board, beside):
    assert not findings_of(output_fed, PACK, board, beside)


def test_then_the_verdict_is_not_decided():
    verdict = check_craft(craft(PACK, converter("V G P G"), CAMERA))
    assert verdict.outcome is Outcome.NOT_DECIDED and not verdict.count(Severity.ERROR)


def bec(nets):
    return captive("X2", nets, board="bec", signals="IN+, IN-, OUT+, OUT-")


def test_a_converter_with_leads_of_its_own():
    (found,) = findings_of(output_fed, PACK, bec("V G P G"), CAMERA)
    assert "bec/X2" in found.message
    assert not findings_of(output_fed, PACK, bec("P G V G"), CAMERA)


MPPT = "PV+, PV-, BAT+, BAT-, LOAD+, LOAD-"
SUNNY = captive("X5", "S T", board="solar panel", signals="+, -", gives="1:18V 5A")
SUN = captive("X5", "S T", board="sun", signals="PV+, PV-", gives="1:22V 5A")


@pytest.mark.parametrize("nets", ["P T S G - -", "P T S G L M"])
def test_a_pack_on_the_panel_s_side_of_a_controller(nets):
    found = findings_of(output_fed, PACK, SUN, converter(nets, MPPT, board="mppt"))
    assert ["PV+" in each.message and "no pack is on" in each.message for each in found] == [True]


def test_a_pack_on_the_input_of_a_charger_whose_source_is_on_its_output():
    charger = pads("TP3", "P G S T", board="charger", signals="IN+, IN-, BAT+, BAT-")
    (found,) = findings_of(output_fed, PACK, SUN, charger)
    assert "IN+" in found.message
    right = pads("TP3", "S T P G", board="charger", signals="IN+, IN-, BAT+, BAT-")
    assert not findings_of(output_fed, PACK, SUN, right)


def test_a_pack_on_the_motor_s_side_of_a_bridge():
    motor = captive("X6", "A B", board="motor", signals="+, -")
    turned = pads("TP4", "A G P B", board="drive", signals="B+, B-, M+, M-")
    (found,) = findings_of(output_fed, PACK, turned, motor)
    assert "M+" in found.message
    assert not findings_of(output_fed, PACK, pads("TP4", "P G A B", board="drive", signals="B+, B-, M+, M-"), motor)


def test_a_regulator_of_the_library_turned():
    def regulator(nets):
        return plug("U1", nets, board="reg", names=["VI", "GND", "VO"], types={1: "power_in", 3: "power_out"})

    (found,) = findings_of(output_fed, PACK, regulator("V G P"), CAMERA)
    assert "VO" in found.message
    assert not findings_of(output_fed, PACK, regulator("P G V"), CAMERA)


@pytest.mark.parametrize("fields", [{}, {"takes": "1:9-25V 4A"}])
def test_what_a_controller_takes_from_its_panel_hides_no_pack_there(fields):
    load = pads("TP8", "L M", board="radio", signals="12V, GND")
    assert findings_of(output_fed, PACK, SUNNY, load, converter("S T L M P G", MPPT, board="mppt", **fields))
    assert not findings_of(output_fed, PACK, SUNNY, load, converter("S T P G L M", MPPT, board="mppt", **fields))


def test_a_panel_by_the_name_of_its_board():
    (found,) = findings_of(output_fed, PACK, SUNNY, converter("P G S T - -", MPPT, board="mppt"))
    assert "PV+" in found.message
