"""What a board's own copper joins to a place, as far as it is known.  Logic."""

import pytest

from crafts.craft_kit import craft, plug, two_pin
from tabside.analysis.lead_ends import how_leads_are_made
from tabside.prove.bench.world import Inside, Place, PlaceKind, World


def contact(termination, number):
    return Place(PlaceKind.CONTACT, termination, number)


@pytest.fixture(scope="module")
def world():
    made = craft(
        plug("J1", "V G H", board="hub", family="JST GH", signals="VBAT, GND, GND", gives="VBAT 9A"),
        two_pin("SW1", "V", "B"),
        two_pin("F1", "B", "C"),
        plug("J2", "C G H", board="lamp", family="JST GH", signals="VBAT, GND, GND", takes="VBAT 1A"),
    )
    return World(made, how_leads_are_made(made), None)


@pytest.mark.parametrize(
    ("at", "switches_off", "beyond"),
    [
        pytest.param("SW1", False, {contact("SW1", "2")}, id="a switch that is on"),
        pytest.param("SW1", True, set(), id="a switch that is off"),
        pytest.param("F1", True, {contact("F1", "2")}, id="a fuse, whatever the switches"),
    ],
)
def test_what_an_in_line_part_joins(world, at, switches_off, beyond):
    joined = world.by_board((Inside.JOINED,), switches_off)
    assert set(joined[contact(at, "1")]) == beyond


def test_grounds_of_a_board_are_joined_and_meet_its_known_ground(world):
    joined = world.by_board((Inside.JOINED,), False)
    assert set(joined[contact("J1", "2")]) == {contact("J1", "3"), Place(PlaceKind.GROUND, "hub")}


def test_a_place_that_the_board_does_not_have_is_joined_to_nothing(world):
    assert not world.by_board((Inside.JOINED,), False)[contact("J1", "9")]
