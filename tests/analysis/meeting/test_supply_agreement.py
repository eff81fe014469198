"""What a contact says of its supply: volts that it gives, or a need.  Logic."""

from __future__ import annotations

import pytest

from crafts.craft_kit import contact, craft, plug
from tabside.analysis.meeting.supply_agreement import said_by


@pytest.mark.parametrize(
    ("label", "stated", "needs"),
    [
        pytest.param("5V", {}, False, id="a name alone: either way"),
        pytest.param("7-26V", {}, True, id="a range is what an input takes"),
        pytest.param("5V", {"takes": "0.5A"}, True, id="a current that it takes, its name the volts"),
        pytest.param("5V", {"gives": "2A"}, False, id="a current that it gives"),
        pytest.param("7-26V", {"gives": "2A"}, False, id="a range that it gives"),
    ],
)
def test_a_need_is_told_from_what_is_given(label, stated, needs):
    made = craft(plug("J1", "V G", board="pilot", signals=f"{label}, GND", **stated), plug("J2", "V G", board="lamp"))
    (said,) = said_by(contact(made, "J1:1"))
    assert said.volts is not None and said.need is needs
