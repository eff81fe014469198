"""Which leads each net has: drawn, between its only two contacts, beside other leads, or joining what is left.

Every net by itself, and the same for any order of the file.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence, Set
from typing import NamedTuple

from tabside.model.craft import Contact, ContactKey, Crowding, Termination
from tabside.model.drawing import Drawing, PinKey
from tabside.model.roles import RoleClass
from tabside.wiring.leads.crowding import crowding_of
from tabside.wiring.leads.islands import Pieces, inside_joined
from tabside.wiring.leads.joining import Joined, LengthUm, join_islands
from tabside.wiring.leads.lead_tree import LeadEnds, Order, Pair, Spot, contact_order, ends_of, lead_order, pair_of
from tabside.wiring.leads.partners import Partners, Room, captive_partners, leads_beside

_NET_CLASSES = (RoleClass.GROUND, RoleClass.SUPPLY, RoleClass.SIGNAL, RoleClass.PHASE)
GAVE_WAY = "leads beside others gave way so that the whole net is connected"


class LaidLead(NamedTuple):
    """A lead before it has a mark."""

    ends: LeadEnds
    net_id: int
    how: str
    notes: tuple[str, ...] = ()


class Net:
    """One net's contacts and leads while they are worked out."""

    def __init__(self, net_id: int, contacts: list[Contact], terminations: Mapping[str, Termination]) -> None:
        """`contacts` in natural order."""
        classes = {contact.role.cls for contact in contacts}
        self.net_id = net_id
        self.contacts = contacts
        self.cls = next((cls for cls in _NET_CLASSES if cls in classes), None)
        self.of_one_kind = len(classes & set(_NET_CLASSES)) < 2
        self.pieces = inside_joined(contacts, terminations)  # then by leads
        self.leads: list[LaidLead] = []

    @property
    def name(self) -> str:
        return self.contacts[0].net

    @property
    def is_rail(self) -> bool:
        return self.cls in (RoleClass.GROUND, RoleClass.SUPPLY)

    def lay(self, ends: Iterable[LeadEnds], how: str | Callable[[LeadEnds], str], *notes: str) -> None:
        for each in ends:
            self.leads.append(LaidLead(each, self.net_id, how if isinstance(how, str) else how(each), notes))
            self.pieces.join(*each)

    def lay_beside(self, partners: Partners, room: Room, *, mating: bool = False) -> None:
        laid = [lead.ends for lead in self.leads]
        self.lay(leads_beside(self.contacts, partners, room, laid, mating=mating), "beside")


def lay_leads(
    terminations: Mapping[str, Termination],
    drawing: Drawing,
    contact_of_pin: Mapping[PinKey, ContactKey],
    length_um: LengthUm | None,
) -> tuple[list[LaidLead], list[Crowding]]:
    """All leads in natural order, and the nets whose contacts cannot take theirs."""
    contacts = {contact.key: contact for each in terminations.values() for contact in each.contacts}
    nets = _nets(contacts, terminations)
    room = Room(contacts)
    for net in nets.values():
        net.lay(_only_two(net), "two contacts")
    drawn = _drawn(drawing, contact_of_pin)
    for net_id, ends in drawn.items():
        nets[net_id].leads.clear()
        nets[net_id].lay(sorted(ends, key=lead_order), "drawn")
    for net in nets.values():
        for lead in net.leads:
            room.take(lead.ends)
    overfull = {key for key in room.used if (left := room.left(key)) is not None and left < 0}
    partners = _partners(nets, terminations)
    before: dict[int, tuple[Pieces, list[LaidLead]]] = {}
    for net in nets.values():
        if len(net.contacts) > 2:
            # A captive plug can go nowhere else; other leads that run beside may give way.
            net.lay_beside(partners, room, mating=True)
            before[net.net_id] = (net.pieces.copy(), net.leads[:])
            net.lay_beside(partners, room)
    joined, carrying = _pairs(nets.values())
    crowded = []
    for net in nets.values():
        solved = _join(net, room, joined, carrying, length_um)
        if not solved and net.net_id in before and net.of_one_kind:
            # On a net of ground and supply at once a lead is wrong; others giving way to it would hide which.
            solved = _join_first(net, before[net.net_id], room, partners, (joined, carrying), length_um)
        full = [key for key in overfull if contacts[key].net_id == net.net_id]
        if full or not solved:
            crowded.append(crowding_of(net.name, net.net_id, net.contacts, net.pieces, room, full))
    leads = [lead for net in nets.values() for lead in net.leads]
    return sorted(leads, key=lambda lead: lead_order(lead.ends)), sorted(crowded, key=_crowding_order)


def _nets(contacts: Mapping[ContactKey, Contact], terminations: Mapping[str, Termination]) -> dict[int, Net]:
    members: dict[int, list[Contact]] = {}
    for contact in contacts.values():
        members.setdefault(contact.net_id, []).append(contact)
    nets = {}
    for net_id, found in members.items():
        if len(found) > 1:
            nets[net_id] = Net(net_id, found, terminations)
    return nets


def _only_two(net: Net) -> list[LeadEnds]:
    """Step 2: a net of two contacts is one lead, unless their board joins them already."""
    keys = [contact.key for contact in net.contacts]
    if len(keys) != 2 or net.pieces.together(*keys):
        return []
    return [ends_of(*keys)]


def _drawn(drawing: Drawing, contact_of_pin: Mapping[PinKey, ContactKey]) -> dict[int, set[LeadEnds]]:
    """Step 1: chains of drawn wires between exactly two contacts, by net."""
    found: dict[int, set[LeadEnds]] = {}
    for run in drawing.runs:
        a, b = contact_of_pin.get(run.a), contact_of_pin.get(run.b)
        if a is not None and b is not None and a != b:
            found.setdefault(drawing.pin(run.a).net, set()).add(ends_of(a, b))
    return found


def _partners(nets: Mapping[int, Net], terminations: Mapping[str, Termination]) -> Partners:
    leads = [(lead.ends, not net.is_rail) for net in nets.values() for lead in net.leads]
    joined = {pair_of(ends[0][0], ends[1][0]) for ends, _ in leads}
    shared = {contact.net_id: 1 for each in terminations.values() for contact in each.contacts}
    shared |= {net.net_id: len(net.contacts) for net in nets.values()}
    captive = captive_partners(terminations, sorted(joined, key=_pair_order), shared)
    return Partners(leads, captive, terminations)


def _pair_order(pair: Pair) -> tuple[Order, Order]:
    return lead_order(((pair[0], ""), (pair[1], "")))


def _pairs(nets: Iterable[Net]) -> tuple[set[Pair], set[Pair]]:
    """Pairs of terminations that leads join so far, and those of them that carry a signal."""
    joined, carrying = set(), set()
    for net in nets:
        for lead in net.leads:
            pair = pair_of(lead.ends[0][0], lead.ends[1][0])
            joined.add(pair)
            if not net.is_rail and net.cls is not RoleClass.PHASE:
                carrying.add(pair)
    return joined, carrying


def _join(net: Net, room: Room, joined: Set[Pair], carrying: Set[Pair], length_um: LengthUm | None) -> bool:
    """Step 4: connect the islands that are left; False when there is no solution."""
    found = _solution(net, net.pieces, net.leads, room, joined, carrying, length_um)
    if found is None:
        return False
    for ends in found.leads:
        room.take(ends)
    net.lay(found.leads, "chosen" if found.chosen else "joined", *filter(None, [found.note]))
    return True


def _join_first(
    net: Net,
    before: tuple[Pieces, list[LaidLead]],
    room: Room,
    partners: Partners,
    pairs: tuple[Set[Pair], Set[Pair]],
    length_um: LengthUm | None,
) -> bool:
    """Connect the islands first, and lay what can run beside other leads with the room that is left.

    Tried when step 3 leaves too little room for step 4.  `before`: the net's pieces and leads when leads began to run
    beside.  False, and nothing changed, when that does not help either.
    """
    pieces, kept = before
    beside = net.leads[len(kept) :]
    for lead in beside:
        room.take(lead.ends, -1)
    found = _solution(net, pieces, kept, room, pairs[0], pairs[1], length_um) if beside else None
    if found is None:
        for lead in beside:
            room.take(lead.ends)
        return False
    for ends in found.leads:
        room.take(ends)
    net.leads, net.pieces = kept, pieces
    joining = "chosen" if found.chosen else "joined"
    notes = [GAVE_WAY, *filter(None, [found.note])]
    net.lay(found.leads, lambda ends: "beside" if pair_of(ends[0][0], ends[1][0]) in partners else joining, *notes)
    net.lay_beside(partners, room)
    return True


def _solution(
    net: Net,
    pieces: Pieces,
    leads: Sequence[LaidLead],
    room: Room,
    joined: Set[Pair],
    carrying: Set[Pair],
    length_um: LengthUm | None,
) -> Joined | None:
    names: dict[ContactKey, int] = {}
    spots = []
    for contact in net.contacts:
        island = names.setdefault(pieces.root(contact.key), len(names))
        spots.append(Spot(contact.key, island, room.left(contact.key)))
    if len(names) < 2:
        return Joined((), False)
    served = {pair_of(lead.ends[0][0], lead.ends[1][0]) for lead in leads}
    wanting = {pair for pair in carrying if pair not in served} if net.is_rail else set()
    return join_islands(spots, joined=joined, wanting=wanting, length_um=length_um)


def _crowding_order(crowding: Crowding) -> Order:
    """Every crowding names at least one contact."""
    return min(contact_order(key) for key in crowding.contacts)
