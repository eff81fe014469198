"""The mistakes that hands make while a craft is wired: one at a time, each as a change of what was made.

What is in the model is what this product says it looks for (the kinds below).  Outside it, and named on the sheet: cold
joints, weak crimps, contacts that are not locked, a wrong gauge, a drawing that is wrong.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from enum import StrEnum
from itertools import combinations, pairwise

from msgspec import Struct, field
from msgspec.structs import replace

from tabside.analysis.lead_ends import EndKind
from tabside.facts import mating
from tabside.model.craft import ContactKey, Kind, Termination
from tabside.model.roles import Volts
from tabside.prove.bench.world import BARE, Place, PlaceKind, Plug, World, contact_of

Pinout = tuple[tuple[str, str, Volts | None], ...]  # contact, function, volts


class MistakeKind(StrEnum):
    SWAPPED = "swapped contacts"  # two contacts of a plug exchanged
    OFF_BY_ONE = "off by one"  # a contact one cavity off
    MIRRORED = "mirrored plug"  # by a person who goes on counting from the wrong side
    LEFT_OUT = "wire left out"
    BRIDGE = "bridge"  # between neighbours: cavities of a plug
    PAD_BRIDGE = "pad bridge"  # between neighbours: soldered pads
    SWAPPED_SOLDERED = "swapped at solder"  # two leads of one colour
    CROSSED_SUPPLY = "crossed supply"  # supply leads, whatever their colour
    TURNED = "own plug turned"  # a part's own plug
    LOOK_ALIKE = "wrong connector"  # a finished cable put into a look-alike
    LABEL = "label on the wrong cable"


# How often each happens against the others: ranks explanations that the readings do not tell apart.
# Common practice, no source.
LIKELY = {
    MistakeKind.SWAPPED: 6.0,
    MistakeKind.MIRRORED: 6.0,
    MistakeKind.LEFT_OUT: 6.0,
    MistakeKind.OFF_BY_ONE: 5.0,
    MistakeKind.SWAPPED_SOLDERED: 5.0,
    MistakeKind.CROSSED_SUPPLY: 5.0,
    MistakeKind.BRIDGE: 4.0,
    MistakeKind.PAD_BRIDGE: 4.0,
    MistakeKind.TURNED: 3.0,
    MistakeKind.LABEL: 2.0,
    MistakeKind.LOOK_ALIKE: 2.0,
}


class Change(Struct, frozen=True):
    """What is otherwise than made as drawn."""

    moved: Mapping[tuple[str, int], Place] = field(default_factory=dict)  # (lead, which end) -> where it is instead
    gone: frozenset[str] = frozenset()  # leads
    bridges: tuple[tuple[Place, Place], ...] = ()
    soldered: Mapping[Place, Place] = field(default_factory=dict)  # bare end -> the contact where it was soldered
    miscounted: Mapping[str, int] = field(default_factory=dict)  # plug -> ways: k is taken for ways + 1 - k
    seated: Mapping[str, tuple[str, int | None]] = field(default_factory=dict)  # plug -> (termination, ways if turned)


class Mistake(Struct, frozen=True):
    """One thing done wrong."""

    id: str  # made of what it is
    kind: MistakeKind
    cable: str | None  # mark
    at: tuple[ContactKey, ...]  # contacts that it touches; ("J1", "") is the whole plug
    leads: tuple[str, ...]  # marks of the leads that it touches
    change: Change
    near: bool = True  # what lies side by side is mistaken more often
    harmless: bool = False  # rows may show it all the same


def only_seen(world: World, mistake: Mistake) -> bool:
    """A plug goes into the wrong connector after all tests; a bridge on a pack's leads is no thing to be measured."""
    if mistake.kind in (MistakeKind.BRIDGE, MistakeKind.PAD_BRIDGE):
        return bool(set(mistake.leads) & world.live)
    return mistake.kind is MistakeKind.LOOK_ALIKE


def mistakes_of(world: World) -> tuple[Mistake, ...]:
    """All mistakes of the model that would do harm, cable by cable."""
    found: list[Mistake] = []
    for plug in world.plugs.values():
        found += _at_plug(world, plug)
    found += _left_out(world)
    found += _soldered(world)
    found += _look_alikes(world)
    found += _labels(world)
    return tuple({mistake.id: mistake for mistake in found}.values())


def _made(
    kind: MistakeKind,
    world: World,
    at: Sequence[ContactKey],
    leads: Sequence[str],
    change: Change,
    *,
    near: bool = True,
) -> Mistake:
    places = "+".join(f"{reference}.{number}" if number else reference for reference, number in at)
    cable = next((world.made[mark].lead.cable for mark in leads if world.made[mark].lead.cable), None)
    return Mistake(f"{kind.value.replace(' ', '-')}@{places}", kind, cable, tuple(at), tuple(leads), change, near)


def _end_at(world: World, mark: str, reference: str, number: str) -> int:
    return world.made[mark].lead.ends.index((reference, number))


def _at_plug(world: World, plug: Plug) -> Iterator[Mistake]:
    if plug.sold:
        return
    if plug.own:
        yield from _turned(world, plug)
        return
    yield from _swapped(world, plug)
    yield from _off_by_one(world, plug)
    yield from _mirrored(world, plug)
    yield from _bridges(world, plug)


def _cavity(plug: Plug, number: str) -> Place:
    return Place(PlaceKind.CAVITY, plug.reference, number)


def harmless_swaps(world: World) -> tuple[Mistake, ...]:
    """Contacts that mean the same, in each other's cavities: no harm, but a row that wants one of them alone fails."""
    plugs = (plug for plug in world.plugs.values() if not plug.sold and not plug.own)
    return tuple(replace(mistake, harmless=True) for plug in plugs for mistake in _swapped(world, plug, harmless=True))


def _swapped(world: World, plug: Plug, *, harmless: bool = False) -> Iterator[Mistake]:
    order = {number: position for position, number in enumerate(plug.numbers)}
    for a, b in combinations(plug.numbers, 2):
        one, other = plug.cavities[a], plug.cavities[b]
        if _harmless(world, plug, a, b) is not harmless:
            continue
        moved = {
            (one, _end_at(world, one, plug.reference, a)): _cavity(plug, b),
            (other, _end_at(world, other, plug.reference, b)): _cavity(plug, a),
        }
        yield _made(
            MistakeKind.SWAPPED,
            world,
            [(plug.reference, a), (plug.reference, b)],
            [one, other],
            Change(moved=moved),
            near=order[b] - order[a] == 1,
        )


def _harmless(world: World, plug: Plug, a: str, b: str) -> bool:
    """The two contacts mean the same here, or their leads' other ends do."""
    if world.same_on_board((plug.reference, a), (plug.reference, b)):
        return True
    return world.same_on_board(_far(world, plug, a), _far(world, plug, b))


def _far(world: World, plug: Plug, number: str) -> ContactKey:
    first, second = world.made[plug.cavities[number]].lead.ends
    return second if first == (plug.reference, number) else first


def _off_by_one(world: World, plug: Plug) -> Iterator[Mistake]:
    if plug.ways is None:
        return
    for number, mark in plug.cavities.items():
        if not (number.isascii() and number.isdecimal()):
            continue
        for beside in (int(number) - 1, int(number) + 1):
            if 1 <= beside <= plug.ways and str(beside) not in plug.cavities:
                moved = {(mark, _end_at(world, mark, plug.reference, number)): _cavity(plug, str(beside))}
                at = [(plug.reference, number), (plug.reference, str(beside))]
                yield _made(MistakeKind.OFF_BY_ONE, world, at, [mark], Change(moved=moved))


def _mirrored(world: World, plug: Plug) -> Iterator[Mistake]:
    ways = _counted_ways(plug)
    if ways is None or ways < 2:
        return
    pairs = {number: str(ways + 1 - int(number)) for number in plug.cavities}
    if all(_alike(world, plug, number, other) for number, other in pairs.items()):
        return
    moved = {
        (mark, _end_at(world, mark, plug.reference, number)): _cavity(plug, pairs[number])
        for number, mark in plug.cavities.items()
    }
    yield _made(
        MistakeKind.MIRRORED,
        world,
        [(plug.reference, "")],
        list(plug.cavities.values()),
        Change(moved=moved, miscounted={plug.name: ways}),
    )


def _counted_ways(plug: Plug) -> int | None:
    if not all(number.isascii() and number.isdecimal() for number in plug.cavities):
        return None
    highest = max(map(int, plug.cavities))
    return max(highest, plug.ways or highest)


def _alike(world: World, plug: Plug, number: str, other: str) -> bool:
    if number == other:
        return True
    contacts = {contact.number for contact in world.craft.terminations[plug.reference].contacts}
    return other in contacts and world.same_on_board((plug.reference, number), (plug.reference, other))


def _bridges(world: World, plug: Plug) -> Iterator[Mistake]:
    for a, b in _neighbours(plug):
        one, other = plug.cavities[a], plug.cavities[b]
        if world.made[one].lead.net_id != world.made[other].lead.net_id:
            bridge = (_cavity(plug, a), _cavity(plug, b))
            at = [(plug.reference, a), (plug.reference, b)]
            yield _made(MistakeKind.BRIDGE, world, at, [one, other], Change(bridges=(bridge,)))


def _neighbours(plug: Plug) -> Iterator[tuple[str, str]]:
    """Cavities beside each other that both have a contact; of two rows both ways of numbering them."""
    decimal = all(number.isascii() and number.isdecimal() for number in plug.cavities)
    if not decimal:
        yield from pairwise(plug.numbers)
        return
    steps = {1} if plug.rows == 1 else {1, 2, max((plug.ways or 0) // 2, 1)}
    for number in plug.numbers:
        for step in sorted(steps):
            if str(int(number) + step) in plug.cavities:
                yield number, str(int(number) + step)


def _turned(world: World, plug: Plug) -> Iterator[Mistake]:
    """Told for every family: that the shell has a key is not known of all."""
    ways = _counted_ways(plug)
    if ways is None or ways < 2:
        return
    if all(_alike(world, plug, number, str(ways + 1 - int(number))) for number in plug.cavities):
        return
    change = Change(seated={plug.name: (plug.reference, ways)})
    yield _made(MistakeKind.TURNED, world, [(plug.reference, "")], list(plug.cavities.values()), change)


def _left_out(world: World) -> Iterator[Mistake]:
    for mark, made in world.made.items():
        if not world.own(mark):
            yield _made(MistakeKind.LEFT_OUT, world, made.lead.ends, [mark], Change(gone=frozenset((mark,))))


def _soldered(world: World) -> Iterator[Mistake]:
    """At each termination where leads are soldered; at splices and in-line parts among all of one unit."""
    places: dict[str, list[Place]] = {}
    unit_of = {mark: number for number, unit in enumerate(world.units) for mark in unit}
    for mark, made in world.made.items():
        for end in made.ends:
            if end.kind in BARE:
                group = end.key[0] if end.kind is EndKind.PAD else f"{unit_of[mark]} splices and parts"
                places.setdefault(group, []).append(Place(PlaceKind.BARE, *end.key, mark))
    for bare in places.values():
        for one, other in combinations(bare, 2):
            yield from _exchanged(world, one, other)
    yield from _pad_bridges(world, places)


def _exchanged(world: World, one: Place, other: Place) -> Iterator[Mistake]:
    first, second = (one.at, one.number), (other.at, other.number)
    if first == second or world.same_on_board(first, second) or one.lead == other.lead:
        return
    a, b = (world.craft.contact(key) for key in (first, second))
    supplies = all(contact.role.is_supply or contact.role.is_ground for contact in (a, b))
    colours = {world.made[place.lead].lead.colour for place in (one, other)}
    if not supplies and len(colours) == 2 and None not in colours:
        return  # nobody takes red for yellow
    kind = MistakeKind.CROSSED_SUPPLY if supplies else MistakeKind.SWAPPED_SOLDERED
    change = Change(soldered={one: contact_of(other), other: contact_of(one)})
    numbers = [contact.number for contact in world.craft.terminations[one.at].contacts]
    near = one.at == other.at and abs(numbers.index(one.number) - numbers.index(other.number)) == 1
    made = _made(kind, world, [first, second], [one.lead, other.lead], change, near=near)
    shared = [place for place in (one, other) if len(world.soldered_at[contact_of(place)]) > 1]
    yield replace(made, id="/".join([made.id, *(_other_end(world, place) for place in shared)]))


def _other_end(world: World, place: Place) -> str:
    """The far end of a lead, which tells it from the others on its pad."""
    return ".".join(next(key for key in world.made[place.lead].lead.ends if key != (place.at, place.number)))


def _pad_bridges(world: World, places: Mapping[str, Sequence[Place]]) -> Iterator[Mistake]:
    for group, bare in places.items():
        termination = world.craft.terminations.get(group)
        if termination is None:
            continue
        leads = {place.number: place.lead for place in bare}
        for a, b in pairwise(contact.number for contact in termination.contacts):
            if a in leads and b in leads and termination.contact(a).net_id != termination.contact(b).net_id:
                bridge = (Place(PlaceKind.CONTACT, group, a), Place(PlaceKind.CONTACT, group, b))
                at = [(group, a), (group, b)]
                yield _made(MistakeKind.PAD_BRIDGE, world, at, [leads[a], leads[b]], Change(bridges=(bridge,)))


def _look_alikes(world: World) -> Iterator[Mistake]:
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
        pinouts: set[Pinout] = set()
        for other in connectors:
            if other.reference == own.reference or not _takes(own, other) or _same_turned_about(world, plug, other):
                continue
            if _differs(plug, own, other) and _pinout(other) not in pinouts:
                pinouts.add(_pinout(other))
                at = [(own.reference, ""), (other.reference, "")]
                change = Change(seated={plug.name: (other.reference, None)})
                yield _made(MistakeKind.LOOK_ALIKE, world, at, list(plug.cavities.values()), change)


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


def _pinout(connector: Termination) -> Pinout:
    return tuple((contact.number, contact.role.name, contact.role.volts) for contact in connector.contacts)


def _differs(plug: Plug, own: Termination, other: Termination) -> bool:
    there = {contact.number: contact for contact in other.contacts}
    for number in plug.cavities:
        role = own.contact(number).role
        if number not in there or (there[number].role.name, there[number].role.volts) != (role.name, role.volts):
            return True
    return False


def _labels(world: World) -> Iterator[Mistake]:
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
            yield _made(MistakeKind.LABEL, world, at, list(dict.fromkeys(leads)), Change(moved=moved))


def _wiring(world: World, plugs: Sequence[Plug]) -> frozenset[frozenset[tuple[int, str]]]:
    """Which cavities of which of the cable's plugs its leads join."""
    position = {plug.reference: n for n, plug in enumerate(plugs)}
    marks = {mark for plug in plugs for mark in plug.cavities.values()}
    return frozenset(frozenset((position[place.at], place.number) for place in world.wires[mark]) for mark in marks)
