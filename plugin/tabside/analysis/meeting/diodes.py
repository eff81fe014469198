"""Diodes in the lines: which pin is which pole, and from where to where they let current pass."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from itertools import permutations

from tabside.analysis.joined.joints import letters_of
from tabside.model.craft import Craft, Kind, Termination

ANODE, CATHODE = "A", "K"
_PIN_NAMES = {"A": ANODE, "ANODE": ANODE, "K": CATHODE, "CATHODE": CATHODE, "KATHODE": CATHODE}

Ways = dict[int, set[int]]  # run -> the runs into which diodes let current from it


def pole_of(pin_name: str) -> str:
    """A or K of a diode's pin, "" of another one."""
    return _PIN_NAMES.get(pin_name.strip().upper(), "")


def diodes_in_line(craft: Craft) -> list[Termination]:
    return [
        part for part in craft.terminations.values() if part.kind is Kind.INLINE and letters_of(part.reference) == "D"
    ]


def has_poles(diode: Termination) -> bool:
    """Whether each pin says which pole it is."""
    return {pole_of(contact.pin_name) for contact in diode.contacts} == {ANODE, CATHODE}


def ways_through(diodes: Iterable[Termination], runs: Mapping[int, int]) -> Ways:
    """Where the diodes let current pass; one whose poles nobody names is taken for a way in both directions."""
    ways: Ways = {}
    for diode in diodes:
        net = {pole_of(contact.pin_name): contact.net_id for contact in diode.contacts}
        sides = [contact.net_id for contact in diode.contacts]
        known = {ANODE, CATHODE} <= net.keys()
        for start, end in [(net[ANODE], net[CATHODE])] if known else permutations(sides, 2):
            ways.setdefault(runs[start], set()).add(runs[end])
    return ways


def turned_round(ways: Ways) -> Ways:
    """Run -> the runs from which diodes let current into it."""
    back: Ways = {}
    for start, ends in ways.items():
        for end in ends:
            back.setdefault(end, set()).add(start)
    return back


def reached(ways: Ways, start: int) -> list[int]:
    """All runs that are reached from one, which comes first."""
    found = [start]
    for run in found:
        found += sorted(ways.get(run, set()) - set(found))
    return found
