"""What a net's name says of a rail: a level in the name of a line is none, and a name without volts says nothing."""

from __future__ import annotations

import pytest

from crafts.craft_kit import craft, plug
from tabside.analysis.meeting.rail_names import rail_names_of


@pytest.mark.parametrize(
    ("name", "volts"),
    [
        ("+5V", 5.0),
        ("3V3_GPS", 3.3),
        ("VDD_3V3", 3.3),
        ("PWR 12V", 12.0),
        ("+12V_FUSED", 12.0),
        ("LED_5V", None),
        ("PWM_3V3", None),
        ("VIN1", None),
        ("VCC1", None),
    ],
)
def test_rails_by_name(name, volts):
    made = craft(plug("J1", "N", board="pilot"), plug("J2", "N", board="lamp"), labels={"N": [name]})
    found = [rail.role.volts.high for rails in rail_names_of(made).values() for rail in rails]
    assert found == ([] if volts is None else [volts])
