"""Outputs that one wire makes one.  Common practice, no source."""

from __future__ import annotations

import pytest

from crafts.craft_kit import craft, pads
from tabside.analysis.causes.tied_outputs import tied_outputs
from tabside.analysis.judgement import Judgement

DRIVER = pads("TP9", "S G", board="driver", signals="PWM, GND")
BUS = "SCK, MISO, MOSI, GND"


def tied(*symbols):
    """The contacts of each tie, as "TP1:1"."""
    return [{":".join(contact.key) for contact in tie.contacts} for tie in tied_outputs(Judgement(craft(*symbols)))]


@pytest.mark.parametrize(
    ("outputs", "expected"),
    [
        pytest.param([pads("TP1", "S S G", board="pilot", signals="M1, M2, GND")], {"TP1:1", "TP1:2"}, id="two of one"),
        pytest.param(
            [pads(f"TP{n}", "S G", board=f"pilot {n}", signals="M1, GND") for n in (1, 2)],
            {"TP1:1", "TP2:1"},
            id="one each of two boards",
        ),
    ],
)
def test_two_motor_outputs_on_one_driver(outputs, expected):
    assert tied(*outputs, DRIVER) == [expected]


def test_one_motor_output_at_two_places_of_its_board_is_quiet():
    assert not tied(pads("TP1", "S S G", board="pilot", signals="M1, M1, GND"), DRIVER)
    assert not tied(pads("TP1", "S - G", board="pilot", signals="M1, M2, GND"), DRIVER)


def test_two_chip_selects_of_one_board():
    def found(second):
        return tied(
            pads("TP1", "A A C D M G", board="pilot", signals=f"CS1, {second}, {BUS}"),
            pads("TP2", "A C D M G", board="gyro", signals=f"CS, {BUS}"),
        )

    assert found("CS2") == [{"TP1:1", "TP1:2"}]
    assert not found("CS1")
