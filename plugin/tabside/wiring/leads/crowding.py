"""A net whose contacts cannot take its leads: which contacts, what stays unconnected, and the cheapest cure."""

from __future__ import annotations

from collections.abc import Sequence

from tabside.model.craft import Contact, ContactKey, Crowding
from tabside.model.groups import Groups
from tabside.wiring.leads.lead_tree import contact_order
from tabside.wiring.leads.partners import Room
from tabside.words.contacts import listed


def crowding_of(
    name: str,
    net_id: int,
    contacts: Sequence[Contact],
    pieces: Groups[ContactKey],
    room: Room,
    overfull: Sequence[ContactKey],
) -> Crowding:
    """`overfull`: contacts on which more leads are drawn than they take."""
    islands = _islands(contacts, pieces)
    full = sorted(overfull, key=contact_order) or _short_of_room(islands, room)
    return Crowding(
        net=name,
        net_id=net_id,
        contacts=tuple(full),
        islands=tuple(islands) if len(islands) > 1 else (),
        cure=_cure(name, full, islands, room, drawn=bool(overfull)),
    )


def _islands(contacts: Sequence[Contact], pieces: Groups[ContactKey]) -> list[tuple[ContactKey, ...]]:
    found: dict[ContactKey, list[ContactKey]] = {}
    for contact in contacts:
        found.setdefault(pieces.root(contact.key), []).append(contact.key)
    return sorted((tuple(keys) for keys in found.values()), key=lambda keys: contact_order(keys[0]))


def _short_of_room(islands: Sequence[tuple[ContactKey, ...]], room: Room) -> list[ContactKey]:
    """The contacts of the islands that no further lead can reach; else of the largest island, which all would meet."""
    shut = [keys for keys in islands if not any(room.has(key) for key in keys)]
    if shut:
        return [key for keys in shut for key in keys]
    largest = max(islands, key=len)
    return list(largest)


def _cure(
    name: str, full: Sequence[ContactKey], islands: Sequence[tuple[ContactKey, ...]], room: Room, *, drawn: bool
) -> str:
    """The cheapest cure in words: a splice, a pad, or one more contact."""
    if drawn:
        meet = max(room.used.get(key, 0) for key in full)
        one = _named(full[:1])
        return f"connect the {meet} wires in a splice and run one wire from it to {one}, or use a second contact"
    ends = [next((key for key in keys if room.has(key)), keys[0]) for keys in islands]
    second = f"give {_named(full[:1])} a second contact for {name}, or a pad that takes several wires"
    if all(any(room.has(key) for key in keys) for keys in islands):
        return f"draw a splice on {name}, where the wires from {_named(ends)} meet; or {second}"
    return f"draw a splice on {name} in the wire that {_named(full[:1])} has; or {second}"


def _named(keys: Sequence[ContactKey]) -> str:
    names = [f"{reference}:{number}" for reference, number in keys]
    return listed(names, 6 if len(names) <= 6 else 5)
