"""Moving contacts in a housing: the fewest moves from the cable at hand to the cable as drawn, in an order that works.

Pure: cavities are numbers, leads are names.  One end of the cable stays as it is, at the other contacts are moved.  A
lead is in place when the start joins the same two cavities as the drawing; every other drawn lead needs one move at
least, and needs no more, so that the fewest moves are the drawn leads that are not in place, at either end.
"""

from __future__ import annotations

from collections.abc import Hashable, Iterator, Mapping
from typing import NamedTuple

Cavity = int
Wire = Hashable


class Step(NamedTuple):
    """One thing that the hand does, and how the housing looks afterwards."""

    action: str  # "take out", "put in", "leave out"
    cavity: Cavity  # taken out of, put into, or left out of
    wire: Wire
    housing: Mapping[Cavity, Wire]  # after the step; empty cavities are missing
    parked: Wire | None  # the contact that waits outside, after the step


class Moves(NamedTuple):
    """How one end of a cable becomes what is drawn."""

    steps: tuple[Step, ...]
    moved: int  # contacts put into another cavity
    left_out: tuple[Wire, ...]  # leads that the drawing does not use


def plan_moves(start: Mapping[Cavity, Wire], goal: Mapping[Cavity, Wire]) -> Moves:
    """The steps from `start` to `goal`, both cavity -> wire at the end that is worked on.

    Wires of `start` that `goal` does not have are taken out and left out.  At most one contact is parked while another
    moves, and a contact is only put into an empty cavity.

    Raises: ValueError when the goal has a wire that the start has not, or one wire twice.
    """
    wanted = {wire: cavity for cavity, wire in goal.items()}
    if len(wanted) != len(goal) or len(set(start.values())) != len(start):
        raise ValueError("a wire stands in two cavities")
    if not set(wanted) <= set(start.values()):
        raise ValueError("the drawing has a lead that the cable has not")
    hand = _Hand(dict(start))
    unused = tuple(start[cavity] for cavity in sorted(start) if start[cavity] not in wanted)
    for wire in unused:
        hand.take_out(wire)
        hand.leave_out(wire)
    moved = 0
    while (wire := hand.next_to_move(wanted)) is not None:
        for each in _chain(hand, wanted, wire):
            hand.move(each, wanted[each])
            moved += 1
    return Moves(tuple(hand.steps), moved, unused)


def least_moves(start: Mapping[Cavity, Cavity], drawn: Mapping[Cavity, Cavity]) -> int:
    """Drawn pairs that the start does not join: each of them needs one move, at whichever end.

    Both are cavity of one end -> cavity of the other.
    """
    return sum(1 for near, far in drawn.items() if start.get(near) != far)


def _chain(hand: _Hand, wanted: Mapping[Wire, Cavity], first: Wire) -> Iterator[Wire]:
    """The wires that follow one another into place; a closed ring begins with its first wire parked."""
    if wanted[first] in hand.housing:  # nothing is free in this ring: make room
        hand.take_out(first)
        hole = hand.emptied
        while (filler := _wire_for(wanted, hole)) != first:
            yield filler
            hole = hand.emptied
        yield first
        return
    wire: Wire | None = first
    while wire is not None:
        yield wire
        wire = _wire_for(wanted, hand.emptied)
        if wire is not None and hand.place_of(wire) is None:
            wire = None


def _wire_for(wanted: Mapping[Wire, Cavity], cavity: Cavity) -> Wire | None:
    return next((wire for wire, place in wanted.items() if place == cavity), None)


class _Hand:
    """The housing while it is worked on."""

    def __init__(self, housing: dict[Cavity, Wire]) -> None:
        self.housing = housing
        self.parked: Wire | None = None
        self.emptied: Cavity = 0  # the cavity that a contact left last
        self.steps: list[Step] = []

    def place_of(self, wire: Wire) -> Cavity | None:
        return next((cavity for cavity, there in self.housing.items() if there == wire), None)

    def next_to_move(self, wanted: Mapping[Wire, Cavity]) -> Wire | None:
        """A wire whose place is free before one of a ring; the lowest cavity first."""
        waiting = [self.housing[c] for c in sorted(self.housing) if wanted.get(self.housing[c], c) != c]
        free = [wire for wire in waiting if wanted[wire] not in self.housing]
        return next(iter([*free, *waiting]), None)

    def take_out(self, wire: Wire) -> None:
        cavity = self.place_of(wire)
        assert cavity is not None and self.parked is None
        del self.housing[cavity]
        self.parked, self.emptied = wire, cavity
        self._note("take out", cavity, wire)

    def leave_out(self, wire: Wire) -> None:
        self.parked = None
        self._note("leave out", self.emptied, wire)

    def move(self, wire: Wire, to: Cavity) -> None:
        """Take a wire out, unless it is the parked one, and put it into an empty cavity."""
        assert to not in self.housing
        if wire == self.parked:
            self.parked = None
            self.housing[to] = wire
            self._note("put in", to, wire)
            return
        came_from = self.place_of(wire)
        assert came_from is not None
        del self.housing[came_from]
        # While this one is in the hand another may lie parked; the boxes show the parked one.
        self._note("take out", came_from, wire)
        self.housing[to] = wire
        self.emptied = came_from
        self._note("put in", to, wire)

    def _note(self, action: str, cavity: Cavity, wire: Wire) -> None:
        self.steps.append(Step(action, cavity, wire, dict(self.housing), self.parked))
