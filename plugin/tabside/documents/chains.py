"""Whole chains: from a net inside an own board through its connector and the wires to the other boards."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from msgspec import Struct

from tabside.model.craft import Contact, ContactKey, Craft, Kind, Lead, Termination
from tabside.model.natural import natural

_PASSED = frozenset((Kind.INLINE, Kind.SPLICE))


class Chain(Struct, frozen=True):
    """Where a net of an own board comes out; `far` is None where no wire leaves the contact."""

    board: str
    net: str  # in the board's own project
    own: Contact
    through: tuple[str, ...]  # wires, in-line parts and splices, in order
    far: Contact | None
    far_board: str
    far_net: str  # in the project of that board, where it is an own one


def chains(craft: Craft) -> tuple[Chain, ...]:
    """All chains of the craft's own boards, by board, net and contact."""
    nets = own_nets(craft)
    leads: dict[ContactKey, list[Lead]] = {}
    for lead in craft.leads:
        for end in lead.ends:
            leads.setdefault(end, []).append(lead)
    found = [chain for key, net in nets.items() for chain in _from(craft, key, net, leads, nets)]
    return tuple(sorted(found, key=_order))


def own_nets(craft: Craft) -> Mapping[ContactKey, str]:
    """The net of its board's own project at each drawn contact of an own board."""
    nets: dict[ContactKey, str] = {}
    for termination, held, plug in craft.held_plugs():
        of_plug = next(
            (of_board.nets for of_board in held.board.plugs if plug is not None and of_board.name == plug.value), ()
        )
        for contact in termination.contacts:
            if contact.number.isdecimal() and 1 <= int(contact.number) <= len(of_plug):
                nets[contact.key] = of_plug[int(contact.number) - 1]
    return {key: net for key, net in nets.items() if net}


def _from(
    craft: Craft, key: ContactKey, net: str, leads: Mapping[ContactKey, list[Lead]], nets: Mapping[ContactKey, str]
) -> Iterator[Chain]:
    own = craft.contact(key)
    board = craft.terminations[key[0]].board
    ends = list(_ends(craft, key, leads))
    if not ends:
        yield Chain(board, net, own, (), None, "", "")
    for far, through in ends:
        there = craft.terminations[far[0]]
        yield Chain(board, net, own, through, craft.contact(far), there.board, nets.get(far, ""))


def _ends(
    craft: Craft, start: ContactKey, leads: Mapping[ContactKey, list[Lead]]
) -> Iterator[tuple[ContactKey, tuple[str, ...]]]:
    """The contacts of other boards that a contact reaches, and what lies between; each once, the shortest way."""
    seen = {start}
    edge: list[tuple[ContactKey, tuple[str, ...]]] = [(start, ())]
    while edge:
        here, passed = edge.pop(0)
        for lead in leads.get(here, ()):
            far = lead.b if lead.a == here else lead.a
            if far in seen:
                continue
            seen.add(far)
            there = craft.terminations[far[0]]
            if there.kind not in _PASSED:
                yield far, (*passed, lead.mark)
                continue
            for key in _beyond(there, far):
                seen.add(key)
                edge.append((key, (*passed, lead.mark, there.reference)))


def _beyond(part: Termination, entered: ContactKey) -> list[ContactKey]:
    """Where a chain goes on from an in-line part or a splice."""
    return [contact.key for contact in part.contacts if part.kind is Kind.SPLICE or contact.key != entered]


def _order(chain: Chain) -> tuple[object, ...]:
    far = natural(f"{chain.far.termination}:{chain.far.number}") if chain.far else natural("")
    return (natural(chain.board), natural(chain.net), natural(f"{chain.own.termination}:{chain.own.number}"), far)
