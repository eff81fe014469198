"""Places from the left with the release side facing you.  Expected by turning a plug in the hand; common practice."""

from __future__ import annotations

import pytest

from craft_kit import craft, plug
from tabside.plan.places import places_from_left, what_is_missing


def end(**fields: str):
    made = craft(plug("J1", "A B C", board="pilot", family="JST SH", signals="5V TX GND", **fields))
    return made.terminations["J1"]


@pytest.mark.parametrize(
    ("entry", "tabs", "contact_1", "places"),
    [
        ("side", "away", "left", (1, 2, 3)),
        ("side", "board", "left", (3, 2, 1)),
        ("side", "board", "right", (1, 2, 3)),
        ("top", "near", "left", (3, 2, 1)),
        ("top", "far", "left", (1, 2, 3)),
        ("top", "far", "right", (3, 2, 1)),
    ],
)
def test_a_known_plug_is_counted_from_the_left(entry, tabs, contact_1, places):
    known = end(entry=entry, tabs=tabs, contact_1=contact_1)
    assert places_from_left(known, 3) == places
    assert what_is_missing(known) == ""


@pytest.mark.parametrize("known", [{}, {"entry": "side", "tabs": "away"}, {"entry": "side", "contact_1": "left"}])
def test_what_is_not_known_is_not_guessed(known):
    assert places_from_left(end(**known), 3) is None
    assert what_is_missing(end(**known))
