"""What hands do wrong where wires are soldered."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import combinations, pairwise

from msgspec.structs import replace

from tabside.analysis.joined.lead_ends import EndKind
from tabside.prove.bench.mistakes import Change, Mistake, MistakeKind, made_wrong
from tabside.prove.bench.world import BARE, Place, PlaceKind, World, contact_of


def at_solder(world: World) -> Iterator[Mistake]:
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
    made = made_wrong(kind, world, [first, second], [one.lead, other.lead], change, near=near)
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
                yield made_wrong(MistakeKind.PAD_BRIDGE, world, at, [leads[a], leads[b]], Change(bridges=(bridge,)))
