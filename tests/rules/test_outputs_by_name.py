"""Outputs by their names on one rail.  Common practice, no source."""

from __future__ import annotations

import pytest

from crafts.craft_kit import captive, plug, two_pin
from crafts.finding_kit import at, findings_of
from tabside.model.findings import Severity
from tabside.rules.outputs_by_name import outputs_by_name


def out(reference, nets="V G", board="", signals="5V OUT, GND", **more):
    return plug(reference, nets, board=board or reference, signals=signals, **more)


def bec(reference, board):
    return captive(reference, "M V G", board=board, family="pinheader_254", signals="SIG, BEC 5V, GND")


RAIL = plug("J9", "M V G", board="pilot", family="pinheader_254", signals="S1, 5V, GND")


@pytest.mark.parametrize(
    "symbols",
    [
        pytest.param((out("J1"), out("J2")), id="5V OUT"),
        pytest.param((out("J1", signals="3V3_OUT, GND"), out("J2", signals="3V3_OUT, GND")), id="3V3_OUT"),
        pytest.param((out("J1"), out("J2", signals="5V, GND", gives="1:5V 1A")), id="one of them states it"),
        pytest.param((bec("X1", "left"), bec("X2", "right"), RAIL), id="two speed controllers"),
    ],
)
def test_two_outputs_by_name_are_told(symbols):
    (found,) = findings_of(outputs_by_name, *symbols)
    assert (found.rule, found.severity) == ("two-sources", Severity.WARNING) and len(at(found)) == 2


@pytest.mark.parametrize(
    "symbols",
    [
        pytest.param((out("J1"), out("J2", signals="5V, GND")), id="an output on a supply"),
        pytest.param((out("J1"), out("J2", takes="1:5V 1A")), id="it takes"),
        pytest.param((out("J1"), out("J2", either="1:5V")), id="either"),
        pytest.param((out("J1", board="a"), out("J2", board="a"), out("J3", signals="5V, GND")), id="one board"),
        pytest.param((out("J1", gives="1:5V 1A"), out("J2", gives="1:5V 1A")), id="told as stated sources"),
        pytest.param((bec("X1", "left"), RAIL), id="one speed controller"),
        pytest.param((out("J1", board="ideal diode 1"), out("J2", board="ideal diode 2")), id="OR-ing modules"),
        pytest.param(
            (out("J1"), out("J2", board="hull"), out("J3", "W G", board="hull"), out("J4", "W G", signals="5V, GND")),
            id="a bulkhead by the names of what it passes",
        ),
    ],
)
def test_quiet(symbols):
    assert not findings_of(outputs_by_name, *symbols)


def test_a_diode_parts_them():
    assert not findings_of(outputs_by_name, out("J1"), two_pin("D1", "V", "W", lib_id="Device:D"), out("J2", "W G"))


def test_then_the_verdict_is_not_decided():
    (found,) = findings_of(outputs_by_name, out("J1"), out("J2"))
    assert found.undecided == 1
