"""What hands do wrong with whole wires and cables."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import combinations

from tabside.facts import mating
from tabside.model.craft import Kind, Termination
from tabside.model.roles import Volts
from tabside.prove.bench.mistakes import Change, Mistake, MistakeKind, made_wrong
from tabside.prove.bench.world import Place, PlaceKind, Plug, World

_Pinout = tuple[tuple[str, str, Volts | None], ...]  # contact, function, volts


def left_out(world: World) -> Iterator[Mistake]:
    for mark, made in world.made.items():
        if not world.own(mark):
            yield made_wrong(MistakeKind.LEFT_OUT, world, made.lead.ends, [mark], Change(gone=frozenset((mark,))))


def look_alikes(world: World) -> Iterator[Mistake]:
    """A cable's plug in another board connector of the craft that takes it and has other functions.

    Connectors of one pinout are one such mistake, named by the first of them.
    """
    connectors = [
        termination
        for termination in world.craft.terminations.values()
        if termination.kind is Kind.RECEPTACLE and termination.family
    ]
    for plug in world.plugs.values():
        own = world.craft.terminations[plug.reference]
        if own.kind is not Kind.RECEPTACLE or own.family is None:
            continue
        pinouts: set[_Pinout] = set()
        for other in connectors:
            if other.reference == own.reference or not _takes(own, other) or _same_turned_about(world, plug, other):
                continue
            if _differs(plug, own, other) and _pinout(other) not in pinouts:
                pinouts.add(_pinout(other))
                at = [(own.reference, ""), (other.reference, "")]
                change = Change(seated={plug.name: (other.reference, None)})
                yield made_wrong(MistakeKind.LOOK_ALIKE, world, at, list(plug.cavities.values()), change)


def _same_turned_about(world: World, plug: Plug, other: Termination) -> bool:
    """The cable joins these two alone, and the same contacts whichever end goes in where."""
    leads = [world.made[mark].lead for mark in plug.cavities.values()]
    if any(lead.link != leads[0].link for lead in leads) or other.reference not in leads[0].link:
        return False
    pairs = {lead.ends for lead in leads}
    return {((a, second), (b, first)) for (a, first), (b, second) in pairs} == pairs


def _takes(own: Termination, other: Termination) -> bool:
    if own.ways != other.ways or own.rows != other.rows or own.family is None or other.family is None:
        return False
    entering = mating.goes_into(own.family, other.family)
    return (entering is not None and entering.enters == "all") or mating.mate(own.family, other.family)


def _pinout(connector: Termination) -> _Pinout:
    return tuple((contact.number, contact.role.name, contact.role.volts) for contact in connector.contacts)


def _differs(plug: Plug, own: Termination, other: Termination) -> bool:
    there = {contact.number: contact for contact in other.contacts}
    for number in plug.cavities:
        role = own.contact(number).role
        if number not in there or (there[number].role.name, there[number].role.volts) != (role.name, role.volts):
            return True
    return False


def labels(world: World) -> Iterator[Mistake]:
    """Two cables with the same plugs and other wiring, each with the label of the other."""
    shapes: dict[tuple[tuple[str, int | None], ...], list[list[Plug]]] = {}
    for cable in world.craft.cables:
        plugs = [plug for plug in world.plugs.values() if set(plug.cavities.values()) <= set(cable.leads)]
        plugs.sort(key=lambda plug: (plug.family or "", plug.ways or 0))
        sites = sum(len(plug.cavities) for plug in plugs)
        if not plugs or any(plug.own or plug.family is None for plug in plugs) or sites != 2 * len(cable.leads):
            continue
        shape = tuple((plug.family or "", plug.ways) for plug in plugs)
        if len(set(shape)) == len(shape) or len(shape) == 2:
            shapes.setdefault(shape, []).append(plugs)
    for alike in shapes.values():
        for plugs, others in combinations(alike, 2):
            if _wiring(world, plugs) == _wiring(world, others):
                continue
            to = {a.reference: b.reference for a, b in zip((*plugs, *others), (*others, *plugs), strict=True)}
            leads = [lead for plug in (*plugs, *others) for lead in plug.cavities.values()]
            moved = {
                (lead, side): Place(PlaceKind.CAVITY, to[place.at], place.number)
                for lead in dict.fromkeys(leads)
                for side, place in enumerate(world.wires[lead])
            }
            at = [(plug.reference, "") for plug in (*plugs, *others)]
            yield made_wrong(MistakeKind.LABEL, world, at, list(dict.fromkeys(leads)), Change(moved=moved))


def _wiring(world: World, plugs: Sequence[Plug]) -> frozenset[frozenset[tuple[int, str]]]:
    """Which cavities of which of the cable's plugs its leads join."""
    position = {plug.reference: n for n, plug in enumerate(plugs)}
    marks = {mark for plug in plugs for mark in plug.cavities.values()}
    return frozenset(frozenset((position[place.at], place.number) for place in world.wires[mark]) for mark in marks)
