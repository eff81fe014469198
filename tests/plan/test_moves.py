"""Moving contacts: the steps lead to the drawn cable, with as few moves as any way can have.

Outside facts: a permutation needs as many moves as it has points that are not fixed, and one spare place for each ring
(from memory: textbooks on permutations; proven here by trying all ways up to six cavities).
"""

from __future__ import annotations

from collections import deque
from itertools import permutations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tabside.plan.moves import least_moves, plan_moves


def carried_out(start, steps):
    """A model of the bench: does what the steps say, and nothing that a person could not do."""
    housing, out = dict(start), []
    for step in steps:
        match step.action:
            case "take out":
                assert len(out) <= 1, "one contact is parked at most while another moves"
                assert housing[step.cavity] == step.wire
                out.append(housing.pop(step.cavity))
            case "put in":
                assert step.cavity not in housing, "a contact goes into an empty cavity only"
                out.remove(step.wire)
                housing[step.cavity] = step.wire
            case "leave out":
                out.remove(step.wire)
            case other:
                raise AssertionError(other)
        assert dict(step.housing) == housing
        if step.parked is not None:
            assert step.parked in out
    assert not out, "nothing is left lying about"
    return housing


@st.composite
def cables(draw):
    """A start and a goal at one end: any leads in any cavities, some of them not drawn."""
    ways = draw(st.integers(1, 15))
    cavities = list(range(1, ways + 1))
    filled = draw(st.integers(1, ways))
    start = dict(zip(draw(st.permutations(cavities))[:filled], (f"W{n}" for n in range(filled)), strict=True))
    used = draw(st.integers(0, filled))
    goal = dict(
        zip(draw(st.permutations(cavities))[:used], draw(st.permutations(sorted(start.values()))), strict=False)
    )
    return start, goal


@given(cables())
def test_the_steps_give_the_drawn_cable_with_the_fewest_moves(cable):
    start, goal = cable
    moves = plan_moves(start, goal)
    assert carried_out(start, moves.steps) == goal
    in_place = sum(1 for cavity, wire in goal.items() if start.get(cavity) == wire)
    assert moves.moved == len(goal) - in_place
    assert set(moves.left_out) == set(start.values()) - set(goal.values())


@given(st.permutations(range(1, 16)))
def test_a_full_housing_of_any_order_is_sorted_with_one_parked_contact_a_ring(order):
    start = {cavity: f"W{cavity}" for cavity in range(1, 16)}
    goal = dict(zip(start, (f"W{n}" for n in order), strict=True))
    moves = plan_moves(start, goal)
    assert carried_out(start, moves.steps) == goal
    fixed = sum(1 for cavity, n in enumerate(order, 1) if n == cavity)
    assert moves.moved == 15 - fixed
    takes = sum(1 for step in moves.steps if step.action == "take out")
    assert takes == moves.moved  # nothing is touched twice


def fewest_by_trying(ways):
    """How many contacts must be put in to reach each order of a full housing: all ways are walked through.

    Taking out is free and any number may wait outside, so that no cleverer hand exists.  From wire n in cavity n.
    """
    start = tuple(range(ways))  # place of each wire; `ways` means outside
    fewest, front = {start: 0}, deque([start])
    while front:
        places = front.popleft()
        for wire, place in enumerate(places):
            if place != ways:
                outside = (*places[:wire], ways, *places[wire + 1 :])
                if fewest.get(outside, 99) > fewest[places]:
                    fewest[outside] = fewest[places]
                    front.appendleft(outside)
                continue
            for cavity in set(range(ways)) - set(places):
                inside = (*places[:wire], cavity, *places[wire + 1 :])
                if fewest.get(inside, 99) > fewest[places] + 1:
                    fewest[inside] = fewest[places] + 1
                    front.append(inside)
    return fewest


@pytest.mark.parametrize("ways", range(1, 7))
def test_no_way_moves_fewer_contacts(ways):
    fewest = fewest_by_trying(ways)
    straight = {cavity: cavity for cavity in range(ways)}
    for order in permutations(range(ways)):
        drawn = dict(enumerate(order))
        moves = plan_moves(straight, {far: near for near, far in drawn.items()})
        assert moves.moved == fewest[order] == least_moves(straight, drawn), order


# T568A to T568B: pairs 2 and 3 change places.  Source: pin tables of TIA-568 as printed on cable pages (from memory).
def test_t568a_becomes_t568b_by_four_contacts():
    a = dict(enumerate(["wht-grn", "grn", "wht-org", "blu", "wht-blu", "org", "wht-brn", "brn"], start=1))
    b = dict(enumerate(["wht-org", "org", "wht-grn", "blu", "wht-blu", "grn", "wht-brn", "brn"], start=1))
    moves = plan_moves(a, b)
    assert moves.moved == 4
    assert carried_out(a, moves.steps) == b


# Null modem with three wires from a straight DE-9 set: 2-3, 3-2, 5-5.  Source: null-modem pages, grade C.
def test_a_null_modem_of_three_wires_moves_two_contacts_and_leaves_six_out():
    straight = {n: n for n in range(1, 10)}
    moves = plan_moves(straight, {3: 2, 2: 3, 5: 5})
    assert moves.moved == 2
    assert set(moves.left_out) == {1, 4, 6, 7, 8, 9}


@pytest.mark.parametrize(
    ("start", "goal"),
    [({1: "a"}, {1: "b"}), ({1: "a", 2: "a"}, {1: "a"}), ({1: "a", 2: "b"}, {1: "a", 2: "a"})],
)
def test_what_no_hand_can_do_is_refused(start, goal):
    with pytest.raises(ValueError, match=r"lead|wire"):
        plan_moves(start, goal)
