"""What a board's own copper joins to a place, as far as it is known.  Logic."""

import pytest

from crafts.craft_kit import captive, craft, pads, plug, two_pin
from tabside.analysis.joined.lead_ends import how_leads_are_made
from tabside.prove.bench.switching import feeds_boards, switches_of
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
    ("at", "off", "beyond"),
    [
        pytest.param("SW1", frozenset(), {contact("SW1", "2")}, id="a switch that is on"),
        pytest.param("SW1", frozenset({"SW1"}), set(), id="a switch that is off"),
        pytest.param("F1", frozenset({"SW1"}), {contact("F1", "2")}, id="a fuse, whatever the switches"),
    ],
)
def test_what_an_in_line_part_joins(world, at, off, beyond):
    joined = world.by_board((Inside.JOINED,), off)
    assert set(joined[contact(at, "1")]) == beyond


def test_grounds_of_a_board_are_joined_and_meet_its_known_ground(world):
    joined = world.by_board((Inside.JOINED,), frozenset())
    assert set(joined[contact("J1", "2")]) == {contact("J1", "3"), Place(PlaceKind.GROUND, "hub")}


def test_a_place_that_the_board_does_not_have_is_joined_to_nothing(world):
    assert not world.by_board((Inside.JOINED,), frozenset())[contact("J1", "9")]


def test_a_switch_feeds_boards_when_something_else_than_a_lamp_hangs_on_it(world):
    (lamp,) = switches_of(world)
    assert not feeds_boards(world, lamp)
    made = craft(
        captive("X1", "PACK GND", board="pack", family="XT60", signals="BAT+, BAT-", gives="VBAT 30A"),
        two_pin("F1", "PACK", "FUSED"),
        two_pin("SW1", "FUSED", "V"),
        pads("J1", "V GND", board="hub", signals="BAT+, BAT-", takes="9-26V 9A"),
        plug("J2", "T GND", board="hub", family="JST GH", signals="TX, GND"),
        plug("J3", "T GND", board="radio", family="JST GH", signals="RX, GND"),
    )
    (main,) = switches_of(other := World(made, how_leads_are_made(made), None))
    assert feeds_boards(other, main)
