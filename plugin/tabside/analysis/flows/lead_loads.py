"""What is known of the current of each lead: what it is counted with, and where that stays open, its bounds.

Where one way leads to a load, a lead's current is decided.  In loops, and between two sources, it is not: then what is
certain is told apart from what it could reach.  Source: Kirchhoff's current law.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator

from msgspec import Struct

from tabside.analysis.flows.circuits import Circuit, Circuits, Ends, Node
from tabside.analysis.flows.flow import Amps, Flow, Flows, neighbours
from tabside.analysis.joined.rails import is_usb
from tabside.model.craft import Lead


class Carrying(Struct, frozen=True):
    """A lead with the current that is counted for it."""

    lead: Lead
    amps: float
    whole: Amps  # of its bundle
    beside: int  # leads of the bundle


class Reach(Struct, frozen=True):
    """Leads between two nodes whose current is open: at least so much over all of them, and what one could carry."""

    leads: tuple[Lead, ...]
    least: float
    most: float


class Together(Struct, frozen=True):
    """Leads that bring a board all that it takes, whatever each of them carries."""

    leads: tuple[Lead, ...]
    amps: float
    board: str


def carryings(flows: Flows) -> list[Carrying]:
    """Each lead whose current is decided, on the supplies and on the grounds."""
    return [*_carrying(flows, flows.supplies, flows.in_supplies), *_carrying(flows, flows.grounds, flows.in_grounds)]


def _carrying(flows: Flows, circuits: Circuits, found: dict[Ends, Flow]) -> Iterator[Carrying]:
    for circuit in circuits.circuits:
        for ends, leads in circuit.bundles.items():
            flow = found.get(ends)
            parts = flows.wires.shares(leads) if flow is not None else None
            if flow is not None and parts is not None and flow.amps.most > 0:
                for lead, part in zip(leads, parts, strict=True):
                    yield Carrying(lead, part * flow.amps.most, flow.amps, len(leads))


def open_leads(flows: Flows) -> list[Lead]:
    """Leads of loaded circuits whose current nobody can tell, in loops or side by side in several cables."""
    unequal = [
        lead
        for circuits in (flows.supplies, flows.grounds)
        for circuit in circuits.circuits
        for leads in circuit.bundles.values()
        if not circuit.clashes and flows.wires.shares(leads) is None
        for lead in leads
    ]
    return list(dict.fromkeys([*flows.undecided(flows.supplies), *flows.undecided(flows.grounds), *unequal]))


def reaches(flows: Flows) -> Iterator[Reach]:
    """The bounds of all supply leads whose current is open, where a source is stated.

    Of grounds only what several leads bring together is told: every craft's grounds run in loops.
    """
    for circuit in flows.supplies.circuits:
        sources = [] if circuit.clashes else flows.sources_of(circuit)
        if not sources:
            continue
        loads = {number: flows.load_of(number, sources) for number in circuit.nodes}
        for ends, leads in circuit.bundles.items():
            flow = flows.in_supplies.get(ends)
            if flow is None:
                yield _reach(flows, circuit, ends, loads, sources)
            elif flows.wires.shares(leads) is None:
                yield Reach(tuple(leads), flow.amps.most, flow.amps.most)


def _reach(flows: Flows, circuit: Circuit, ends: Ends, loads: dict[int, Amps], sources: list[int]) -> Reach:
    leads = circuit.bundles[ends]
    least = most = 0.0
    for start, end in (ends, ends[::-1]):
        if not _may_flow(flows, leads, start, end):
            continue
        reached = _beyond(flows, circuit, end, without=ends, any_way=False)
        most = max(most, min(sum(loads[number].most for number in reached), _given(flows, leads, start)))
        side = _beyond(flows, circuit, end, without=ends, any_way=True)
        if start not in side:  # the only way: what the sources beyond cannot give comes over it
            given = [_strength(flows.supplies.nodes[number]) for number in sources if number in side]
            known = [amps for amps in given if amps is not None]
            if len(known) == len(given):
                least = max(least, sum(loads[number].most for number in side) - sum(known))
    return Reach(tuple(leads), max(least, 0.0), max(least, most))


def _may_flow(flows: Flows, leads: Iterable[Lead], start: int, end: int) -> bool:
    """Not against what both ends state: one that only gives, one that only takes."""
    node_of = flows.supplies.node_of
    for lead in leads:
        contacts = {node_of[key]: flows.craft.contact(key) for key in lead.ends}
        here, there = contacts[start], contacts[end]
        if here.either or there.either:
            return True
        only_taken = not here.gives and (bool(here.takes) or is_usb(here))  # a device's comes from the host
        if not (there.gives and not there.takes and only_taken):
            return True
    return False


def _given(flows: Flows, leads: Iterable[Lead], start: int) -> float:
    """What one end of these leads states to give there; without a statement, any amount."""
    node_of = flows.supplies.node_of
    ends = [flows.craft.contact(key) for lead in leads for key in lead.ends if node_of[key] == start]
    stated = [rail.max_a for contact in ends for rail in contact.gives if rail.max_a is not None]
    return max(stated) if stated and all(contact.gives for contact in ends) else math.inf


def _beyond(flows: Flows, circuit: Circuit, start: int, *, without: Ends, any_way: bool) -> set[int]:
    """Nodes beyond one end of a bundle when it is taken out: all, or those that current may reach from there."""
    beside = neighbours(ends for ends in circuit.bundles if ends != without)
    seen, front = {start}, [start]
    while front:
        number = front.pop()
        for other in beside.get(number, ()):
            leads = circuit.bundles[min(number, other), max(number, other)]
            if other not in seen and (any_way or _may_flow(flows, leads, number, other)):
                seen.add(other)
                front.append(other)
    return seen


def _strength(node: Node) -> float | None:
    """What a source gives at most; None when it does not say."""
    stated = [rail.max_a if rail.max_a is not None else rail.typical_a for _, rail in node.gives]
    known = [amps for amps in stated if amps is not None]
    return max(known) if known else None


def together(flows: Flows) -> Iterator[Together]:
    """All leads that bring a board its current, or take it back, where single ones are open."""
    for circuits in (flows.supplies, flows.grounds):
        returned = flows.returned if circuits is flows.grounds else {}
        for circuit in circuits.circuits:
            if circuit.clashes:
                continue
            sources = flows.sources_of(circuit) if circuits is flows.supplies else []
            bundles_at: dict[int, list[tuple[int, int]]] = {}
            for ends in circuit.bundles:
                for number in dict.fromkeys(ends):
                    bundles_at.setdefault(number, []).append(ends)
            decided = set(flows.in_supplies if circuits is flows.supplies else flows.in_grounds)
            for number in circuit.nodes:
                board = circuits.nodes[number].board
                bundles = bundles_at.get(number, [])
                if board is None or set(bundles) <= decided:
                    continue
                if circuits is flows.supplies:
                    amps = flows.load_of(number, sources).most if sources else 0.0
                else:
                    back = returned.get(board)
                    amps = abs(back.most) if back is not None else 0.0
                if amps > 0:
                    yield Together(tuple(lead for ends in bundles for lead in circuit.bundles[ends]), amps, board)


def loaded_contacts(carrying: Iterable[Carrying], open_ones: Iterable[Lead]) -> dict[str, int]:
    """Termination -> how many of its contacts carry a supply's or a ground's current."""
    found: dict[str, set[str]] = {}
    for lead in [*(wire.lead for wire in carrying), *open_ones]:
        for reference, contact in lead.ends:
            found.setdefault(reference, set()).add(contact)
    return {reference: len(contacts) for reference, contacts in found.items()}
