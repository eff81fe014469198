"""Which contacts move.  A model cable carries the moves out; the fewest are counted by hand or by search."""

import itertools
from collections import deque

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tabside.make.options.repin import Hand, plan_repin


def straight(ways):
    return [(n, n) for n in range(1, ways + 1)]


def reversed_cable(ways):
    return [(n, ways + 1 - n) for n in range(1, ways + 1)]


def carried_out(there, plan):
    """What the cable joins after the moves; fails on a full cavity, a wrong contact, or two contacts parked."""
    plugs = [{pair[plug]: n for n, pair in enumerate(there)} for plug in (0, 1)]
    out = []
    for move in plan.moves:
        row = plugs[move.plug]
        if move.hand is Hand.PUT_IN:
            assert move.cavity not in row, "into a full cavity"
            out.remove((move.plug, move.lead))
            row[move.cavity] = move.lead
        else:
            assert row.pop(move.cavity) == move.lead
            if move.hand is Hand.TAKE_OUT:
                out.append((move.plug, move.lead))
        assert len(out) <= 2, "more than one parked while another moves"
    assert not out
    ends = [{lead: cavity for cavity, lead in row.items()} for row in plugs]
    assert set(ends[0]) == set(ends[1])
    return sorted((ends[0][lead], ends[1][lead]) for lead in ends[0])


@st.composite
def partial_cables(draw, ways=15):
    """Two cables of up to 15 ways, each with any cavities joined in any order, the second with no more leads."""
    size = draw(st.integers(1, ways))
    sides = [draw(st.permutations(range(1, size + 1))) for _ in range(4)]
    leads = draw(st.integers(1, size))
    drawn = draw(st.integers(1, leads))
    return (
        list(zip(sides[0][:leads], sides[1][:leads], strict=True)),
        list(zip(sides[2][:drawn], sides[3][:drawn], strict=True)),
    )


@given(st.integers(1, 15).flatmap(lambda n: st.permutations(range(1, n + 1))))
def test_a_straight_cable_becomes_any_order_with_one_move_for_each_point_not_fixed(order):
    """Permutation fact: a permutation moves exactly the points that it does not fix."""
    there, drawn = straight(len(order)), list(enumerate(order, 1))
    for at in (0, 1):
        plan = plan_repin(there, drawn, at)
        assert carried_out(there, plan) == sorted(drawn)
        assert plan.moved == sum(n != goes for n, goes in drawn)
        assert set(plan.plugs) <= {at}


@given(partial_cables())
def test_any_cable_with_leads_enough_becomes_any_drawn_one(cables):
    there, drawn = cables
    plan = plan_repin(there, drawn)
    assert carried_out(there, plan) == sorted(drawn)
    assert len(plan.unused) == len(there) - len(drawn)


@given(partial_cables())
def test_work_at_one_plug_alone_leaves_the_other_plug_alone(cables):
    there, drawn = cables
    for at in (0, 1):
        plan = plan_repin(there, drawn, at)
        if {pair[1 - at] for pair in drawn} <= {pair[1 - at] for pair in there}:
            assert carried_out(there, plan) == sorted(drawn)
            assert set(plan.plugs) <= {at}
        else:
            assert plan is None


def fewest_by_matching(there, drawn):
    """Every way to give the drawn pairs leads, tried out."""
    return min(
        sum((a != c) + (b != d) for (a, b), (c, d) in zip(leads, drawn, strict=True))
        for leads in itertools.permutations(there, len(drawn))
    )


@given(partial_cables(ways=6))
def test_no_other_choice_of_leads_needs_fewer_moves_up_to_six_ways(cables):
    there, drawn = cables
    assert plan_repin(there, drawn).moved == fewest_by_matching(there, drawn)


def fewest_by_search(order):
    """Fewest put-ins that turn 1, 2, ... into `order`, by search over all states with at most two contacts out."""
    ways, goal = len(order), tuple(order)
    start = (tuple(range(1, ways + 1)), frozenset())
    seen, todo = {start: 0}, deque([start])
    while todo:
        state = row, out = todo.popleft()
        if row == goal:
            return seen[state]
        steps = []
        for place, lead in enumerate(row):
            if lead and len(out) < 2:
                steps.append((0, ((*row[:place], 0, *row[place + 1 :]), out | {lead})))
            if not lead:
                steps += [(1, ((*row[:place], each, *row[place + 1 :]), out - {each})) for each in out]
        for cost, there in steps:
            if seen[state] + cost < seen.get(there, 99):
                seen[there] = seen[state] + cost
                (todo.append if cost else todo.appendleft)(there)
    raise AssertionError


@pytest.mark.parametrize("order", list(itertools.permutations(range(1, 5))))
def test_no_order_of_hands_needs_fewer_moves_up_to_four_ways(order):
    places = {lead: place for place, lead in enumerate(order, 1)}
    plan = plan_repin(straight(4), [(lead, places[lead]) for lead in places], 1)
    assert plan.moved == fewest_by_search(order)


@pytest.mark.parametrize(
    "order", [(2, 1, 3, 5, 4, 6), (6, 5, 4, 3, 2, 1), (2, 3, 4, 5, 6, 1), (1, 2, 3, 4, 5, 6), (3, 1, 2, 5, 6, 4)]
)
def test_no_order_of_hands_needs_fewer_moves_with_six_ways(order):
    places = {lead: place for place, lead in enumerate(order, 1)}
    plan = plan_repin(straight(6), [(lead, places[lead]) for lead in places], 1)
    assert plan.moved == fewest_by_search(order)


# Orders of facts on published boards (eight-way motor driver plugs), worked out by hand: which signal of the first
# plug sits where in the second, and how many of the eight stay where a straight (n to n) or a reversed (n to 9-n)
# cable has them.  Sources of the orders: Connector Standard v2.1 and board pages of a public wiki
# and a page about a motor driver on another one.
STANDARD = ["VBAT", "GND", "CUR", "TLM", "M1", "M2", "M3", "M4"]
BOARD_B = ["GND", "VBAT", "CUR", "TLM", "M1", "M2", "M3", "M4"]
BOARD_I = ["GND", "VBAT", "M1", "M2", "M3", "M4", "CUR", "TLM"]
BOARD_F = ["TLM", "CUR", "M4", "M3", "M2", "M1", "VBAT", "GND"]
BOARD_J = ["VBAT", "CUR", "TLM", "M1", "M2", "M3", "M4", "GND"]


@pytest.mark.parametrize(
    ("a", "b", "from_straight", "from_reversed"),
    [
        pytest.param(STANDARD, STANDARD, 0, 8, id="one order: as it is; reversed, every contact moves"),
        pytest.param(STANDARD, BOARD_B, 2, 8, id="VBAT and GND change places"),
        pytest.param(
            STANDARD, BOARD_I, 8, 8, id="two and a ring of six; M1 5-3, M2 6-4, M3 7-5, M4 8-6, none n to 9-n"
        ),
        pytest.param(STANDARD, BOARD_F, 8, 8, id="1-7 2-8 3-2 4-1 5-6 6-5 7-4 8-3: none n to n, none n to 9-n"),
        pytest.param(STANDARD, BOARD_J, 7, 7, id="1-1 2-8 3-2 4-3 5-4 6-5 7-6 8-7: VBAT is n to n, M1 is n to 9-n"),
        pytest.param(BOARD_B, BOARD_I, 6, 8, id="GND and VBAT stay"),
        pytest.param(BOARD_I, BOARD_F, 8, 0, id="exactly reversed"),
        pytest.param(BOARD_J, BOARD_I, 8, 5, id="1-2 2-7 3-8 4-3 5-4 6-5 7-6 8-1: CUR, M2 and GND are n to 9-n"),
    ],
)
def test_known_pairs_of_orders_need_the_moves_counted_by_hand(a, b, from_straight, from_reversed):
    drawn = [(a.index(signal) + 1, b.index(signal) + 1) for signal in a]
    assert plan_repin(straight(8), drawn, 1).moved == from_straight
    assert plan_repin(reversed_cable(8), drawn, 1).moved == from_reversed


def test_t568a_becomes_t568b_by_four_contacts():
    """TIA-568 orders as public pages give them: the green and the orange pair change places, 1-3 and 2-6."""
    there = straight(8)
    drawn = [(1, 3), (2, 6), (3, 1), (4, 4), (5, 5), (6, 2), (7, 7), (8, 8)]
    assert plan_repin(there, drawn, 1).moved == 4


def test_a_null_modem_of_three_wires_is_made_from_a_straight_nine_way_set():
    """Map of public DE-9 pages: 2-3, 3-2, 5-5.  Two contacts move, six leads are not used."""
    plan = plan_repin(straight(9), [(2, 3), (3, 2), (5, 5)], 1)
    assert (plan.moved, len(plan.unused)) == (2, 6)


def test_a_run_that_ends_in_an_empty_cavity_parks_nothing():
    plan = plan_repin([(1, 1), (2, 2)], [(1, 2), (2, 3)], 1)
    assert [(move.hand, move.cavity) for move in plan.moves] == [
        (Hand.TAKE_OUT, 2),
        (Hand.PUT_IN, 3),
        (Hand.TAKE_OUT, 1),
        (Hand.PUT_IN, 2),
    ]


def test_too_few_leads_make_no_plan():
    assert plan_repin(straight(2), [(1, 1), (2, 2), (3, 3)]) is None
