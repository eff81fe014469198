"""Islands of a net and the contacts through which leads may connect them; their natural order."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct

from tabside.model.craft import ContactKey
from tabside.model.groups import Groups
from tabside.model.natural import natural

Pair = tuple[str, str]  # references in natural order
LeadEnds = tuple[ContactKey, ContactKey]  # contacts in natural order
NaturalKey = tuple[tuple[int, int, str], ...]
Order = tuple[NaturalKey, NaturalKey]


def contact_order(key: ContactKey) -> Order:
    """A sort key: natural order of (reference, contact)."""
    return (natural(key[0]), natural(key[1]))


def lead_order(ends: LeadEnds) -> tuple[Order, Order]:
    """A sort key of leads whose ends are in natural order."""
    return (contact_order(ends[0]), contact_order(ends[1]))


def pair_of(a: str, b: str) -> Pair:
    """Two references in natural order."""
    return (a, b) if natural(a) <= natural(b) else (b, a)


def ends_of(a: ContactKey, b: ContactKey) -> LeadEnds:
    """A lead's ends in natural order."""
    return (a, b) if contact_order(a) <= contact_order(b) else (b, a)


class Spot(Struct, frozen=True):
    """A contact that step 4 may use."""

    key: ContactKey
    island: int
    room: int | None  # leads that it can still take; None: any number


class Slot:
    """A contact with room, while leads are being laid."""

    __slots__ = ("key", "order", "room")

    def __init__(self, key: ContactKey, order: Order, room: int) -> None:
        self.key = key
        self.order = order
        self.room = room


class Node(Struct, frozen=True):
    """The contacts that one termination has in one island."""

    reference: str
    island: int  # counted from 0
    slots: tuple[Slot, ...]  # natural order

    @property
    def room(self) -> int:
        return sum(slot.room for slot in self.slots)

    def next_slot(self) -> Slot | None:
        """The first contact that has room."""
        return next((slot for slot in self.slots if slot.room), None)


def nodes_of(spots: Sequence[Spot]) -> tuple[list[Node], list[int]]:
    """The nodes that have room, in natural order, islands counted from 0; and the room of each island."""
    count = len({spot.island for spot in spots})
    islands: dict[int, int] = {}
    slots: dict[tuple[str, int], list[Slot]] = {}
    for spot in sorted(spots, key=lambda spot: contact_order(spot.key)):
        island = islands.setdefault(spot.island, len(islands))
        room = count if spot.room is None else min(spot.room, count)
        if room > 0:
            slots.setdefault((spot.key[0], island), []).append(Slot(spot.key, contact_order(spot.key), room))
    nodes = [Node(reference, island, tuple(found)) for (reference, island), found in slots.items()]
    rooms = [0] * count
    for node in nodes:
        rooms[node.island] += node.room
    return nodes, rooms


def room_is_enough(rooms: Sequence[int]) -> bool:
    """Whether islands with room for so many leads each can be connected: each needs one, each joint takes two."""
    return len(rooms) < 2 or (min(rooms) >= 1 and sum(rooms) >= 2 * (len(rooms) - 1))


class Islands:
    """Islands as they grow together, with the room that each has left."""

    def __init__(self, rooms: Sequence[int]) -> None:
        self._groups = Groups(range(len(rooms)))
        self._room = list(rooms)
        self.left = len(rooms)

    def root(self, island: int) -> int:
        return self._groups.root(island)

    def can_join(self, a: int, b: int) -> bool:
        """Whether a lead between them leaves a way to connect the rest: room must stay, unless they are the last."""
        a, b = self.root(a), self.root(b)
        return a != b and (self.left == 2 or self._room[a] + self._room[b] > 2)

    def join(self, a: int, b: int) -> None:
        a, b = self.root(a), self.root(b)
        self._groups.join(b, a)
        self._room[a] += self._room[b] - 2
        self.left -= 1
