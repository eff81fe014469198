"""Motors on two of three phases.  Common practice, no source."""

from __future__ import annotations

import pytest

from crafts.craft_kit import captive, pads
from crafts.finding_kit import at, findings_of
from tabside.rules.phase_open import phase_open


@pytest.mark.parametrize(("motor", "driver"), [("P Q -", "P Q -"), ("P Q -", "P Q R"), ("- Q -", "- Q -")])
def test_an_open_phase_is_told_once(motor, driver):
    found = findings_of(
        phase_open,
        captive("X1", motor, board="motor", signals="A, B, C"),
        pads("TP1", driver, board="driver", signals="A, B, C"),
    )
    assert len(found) == 1 and at(found[0]) & {"X1:3", "TP1:3"}


@pytest.mark.parametrize("names", ["L1, L2, L3", "M1, M2, M3", "MOTOR1, MOTOR2, MOTOR3"])
def test_numbered_phases_are_of_one_motor(names):
    found = findings_of(
        phase_open,
        captive("X1", "P Q -", board="motor", signals=names),
        pads("TP1", "P Q -", board="driver", signals="A, B, C"),
    )
    assert len(found) == 1


def test_quiet_for_a_driver_whose_other_output_drives_nothing():
    assert not findings_of(
        phase_open,
        captive("X1", "P Q R", board="motor", signals="A, B, C"),
        pads("TP1", "P Q R - - -", board="driver", signals="A1, B1, C1, A2, B2, C2"),
    )
