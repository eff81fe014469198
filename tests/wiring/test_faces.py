"""The faces of a plug; the reason of each case stands beside it.  Common practice, no source."""

from __future__ import annotations

import pytest

from tabside.wiring.faces import RELEASE_SIDE, mating_reversed, tabs_reversed


@pytest.mark.parametrize(
    ("entry", "tabs", "turned"),
    [
        pytest.param("side", "away", False, id="from above it is on view and the leads already point down"),
        pytest.param("side", "board", True, id="the plug is turned over about its leads"),
        pytest.param("top", "near", True, id="letting the leads hang turns the plug by half a turn"),
        pytest.param("top", "far", False, id="both turns cancel"),
    ],
)
def test_the_row_on_face_tabs_against_face_printed(entry, tabs, turned):
    assert tabs_reversed(entry, tabs) is turned


@pytest.mark.parametrize(("entry", "tabs"), list(RELEASE_SIDE))
def test_the_mating_face_is_always_the_reverse_of_tabs(entry, tabs):
    assert mating_reversed(entry, tabs) is not tabs_reversed(entry, tabs)
