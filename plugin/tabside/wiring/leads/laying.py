"""Which leads each net has: drawn, between its only two contacts, beside other leads, or joining what is left.

Every net by itself, and the same for any order of the file.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence, Set

from msgspec import Struct
from msgspec.structs import replace

from tabside.model.craft import Contact, ContactKey, Crowding, Kind, NamedTogether, Termination
from tabside.model.groups import Groups
from tabside.model.roles import RoleClass
from tabside.wiring.leads.alternatives import Weights, others_as_good
from tabside.wiring.leads.crowding import crowding_of
from tabside.wiring.leads.islands import inside_joined
from tabside.wiring.leads.joining import Joined, LengthUm, join_islands
from tabside.wiring.leads.lead_tree import LeadEnds, Order, Pair, Spot, contact_order, ends_of, lead_order, pair_of
from tabside.wiring.leads.partners import Partners, Room, captive_partners, leads_beside

_NET_CLASSES = (RoleClass.GROUND, RoleClass.SUPPLY, RoleClass.SIGNAL, RoleClass.PHASE)
DrawnTogether = Mapping[int, Sequence[tuple[ContactKey, ...]]]
GAVE_WAY = "wires beside others gave way so that the whole net is connected"


class LaidLead(Struct, frozen=True):
    """A lead before it has a mark."""

    ends: LeadEnds
    net_id: int
    how: str
    notes: tuple[str, ...] = ()
    others: tuple[LeadEnds, ...] = ()  # that would have done as well, some of them


class Net:
    """One net's contacts and leads while they are worked out."""

    def __init__(self, net_id: int, contacts: list[Contact], terminations: Mapping[str, Termination]) -> None:
        """`contacts` in natural order."""
        classes = {contact.role.cls for contact in contacts}
        self.net_id = net_id
        self.contacts = contacts
        self.cls = next((cls for cls in _NET_CLASSES if cls in classes), None)
        self.of_one_kind = len(classes & set(_NET_CLASSES)) < 2
        self.inside = inside_joined(contacts, terminations)  # by their boards alone
        self.pieces = self.inside.copy()  # then by leads
        self.leads: list[LaidLead] = []

    @property
    def name(self) -> str:
        return self.contacts[0].net

    @property
    def is_rail(self) -> bool:
        return self.cls in (RoleClass.GROUND, RoleClass.SUPPLY)

    def lay(self, ends: Iterable[LeadEnds], how: str | Callable[[LeadEnds], str], *notes: str) -> None:
        for end in ends:
            self.leads.append(LaidLead(end, self.net_id, how if isinstance(how, str) else how(end), notes))
            self.pieces.join(*end)

    def lay_joined(self, found: Joined, how: Callable[[LeadEnds], str], *notes: str) -> None:
        """The leads of a solution, each with those that would have done as well."""
        for ends in found.leads:
            said = how(ends)
            others = found.others.get(ends, ()) if said == "chosen" else ()
            self.leads.append(LaidLead(ends, self.net_id, said, notes, others))
            self.pieces.join(*ends)

    def lay_beside(self, partners: Partners, room: Room, *, mating: bool = False) -> None:
        laid = [lead.ends for lead in self.leads]
        self.lay(leads_beside(self.contacts, partners, room, laid, mating=mating), "beside")


def lay_leads(
    terminations: Mapping[str, Termination], drawn: DrawnTogether, length_um: LengthUm | None
) -> tuple[list[LaidLead], list[Crowding], list[NamedTogether]]:
    """All leads in natural order, the nets whose contacts cannot take theirs, and rails that only a name joins.

    `drawn`: by net, the contacts of each stretch of wire that meets two or more.
    """
    contacts = {contact.key: contact for termination in terminations.values() for contact in termination.contacts}
    laying = _Laying(contacts, terminations, drawn, length_um)
    laying.lay_pairs()
    for net in laying.nets.values():
        for lead in net.leads:
            laying.room.take(lead.ends)
    overfull = laying.overfull()
    laying.lay_bundles()
    laying.lay_by_name()
    return laying.leads(), laying.crowdings(overfull), laying.named


class _Laying:
    """The nets of a craft while their leads are worked out."""

    def __init__(
        self,
        contacts: Mapping[ContactKey, Contact],
        terminations: Mapping[str, Termination],
        drawn: DrawnTogether,
        length_um: LengthUm | None,
    ) -> None:
        self.contacts, self.terminations, self.length_um = contacts, terminations, length_um
        self.nets = _nets(contacts, terminations)
        self.room = Room(contacts)
        self.drawn = drawn
        self.between: dict[ContactKey, list[LeadEnds]] = {}  # contact -> its leads that stretches of wire have given
        self.unsolved: dict[int, list[Net]] = {}  # net -> what of it could not be joined
        self.named: list[NamedTogether] = []

    def overfull(self) -> set[ContactKey]:
        """Contacts on which more leads are drawn than they take."""
        return {key for key in self.room.used if (left := self.room.left(key)) is not None and left < 0}

    def lay_pairs(self) -> None:
        """Stretches of two contacts, and nets of two."""
        for net in self.nets.values():
            stretches = self.drawn.get(net.net_id, ())
            pairs = [ends_of(*keys) for keys in stretches if len(keys) == 2 and not net.pieces.together(*keys)]
            if stretches:
                net.lay(sorted(pairs, key=lead_order), "drawn")
            else:
                net.lay(_only_two(net), "two contacts")

    def lay_bundles(self) -> None:
        """Stretches of three contacts and more: signals first, then the grounds and supplies that serve them."""
        for net in self.nets.values():
            self._note(net.leads)
        for rails in (False, True):
            bundles = [
                (net, Net(net.net_id, [self.contacts[key] for key in keys], self.terminations))
                for net in self.nets.values()
                if net.is_rail is rails
                for keys in self.drawn.get(net.net_id, ())
                if len(keys) > 2
            ]
            if bundles:
                partners, (joined, carrying) = self._partners(), self._pairs()
                for net, bundle in bundles:
                    self._lay_bundle(net, bundle, partners, joined, carrying)

    def _lay_bundle(self, net: Net, bundle: Net, partners: Partners, joined: Set[Pair], carrying: Set[Pair]) -> None:
        drawn = self._between([contact.key for contact in bundle.contacts])
        for ends in drawn:
            bundle.pieces.join(*ends)
        before = (bundle.pieces.copy(), bundle.leads[:])
        bundle.lay_beside(partners, self.room)
        solved = self._join(bundle, joined, carrying) or self._join_first(bundle, before, partners, joined, carrying)
        solved &= self._reach_all(bundle, drawn)
        if not solved:
            self.unsolved.setdefault(net.net_id, []).append(bundle)
        for lead in bundle.leads:
            how = "chosen" if lead.how == "chosen" else "drawn together"
            net.leads.append(replace(lead, how=how))
            net.pieces.join(*lead.ends)
        self._note(bundle.leads)

    def _note(self, leads: Iterable[LaidLead]) -> None:
        for lead in leads:
            for key in lead.ends:
                self.between.setdefault(key, []).append(lead.ends)

    def _between(self, keys: Sequence[ContactKey]) -> list[LeadEnds]:
        """The leads that other stretches have given to two of these contacts, each once."""
        among = set(keys)
        return [ends for key in keys for ends in self.between.get(key, ()) if key == ends[0] and ends[1] in among]

    def _reach_all(self, bundle: Net, drawn: Sequence[LeadEnds]) -> bool:
        """Give a lead to each contact of a stretch that has none of its own: the wire is drawn to it as well.

        `drawn`: the leads between two of these contacts that other stretches have given.
        """
        met = {key for ends in (*drawn, *(lead.ends for lead in bundle.leads)) for key in ends}
        keys = [contact.key for contact in bundle.contacts]
        inside = inside_joined(bundle.contacts, self.terminations)
        if len({inside.root(key) for key in keys}) < 2:
            return True
        for key in keys:
            if key in met:
                continue
            others = [other for other in keys if not inside.together(key, other) and self.room.has(other)]
            others.sort(key=lambda other: (other in met, contact_order(other)))
            if not others or not self.room.has(key):
                bundle.pieces = Groups(keys)
                for ends in (*drawn, *(lead.ends for lead in bundle.leads)):
                    bundle.pieces.join(*ends)
                return False
            bundle.lay([ends_of(key, others[0])], "joined")
            self.room.take(bundle.leads[-1].ends)
            met.update(bundle.leads[-1].ends)
        return True

    def lay_by_name(self) -> None:
        """Steps 3 and 4 for what no wire joins."""
        before: dict[int, tuple[Groups[ContactKey], list[LaidLead]]] = {}
        self._lay_beside(before)
        for rails in (False, True):
            if rails:  # signals that have found their way by now take ground and supply along
                self._lay_beside(before)
            partners, (joined, carrying) = self._partners(), self._pairs()
            for net in self.nets.values():
                if net.is_rail is rails:
                    self._connect(net, before.get(net.net_id), partners, joined, carrying)

    def _lay_beside(self, before: dict[int, tuple[Groups[ContactKey], list[LaidLead]]]) -> None:
        """`before` is given each net as it was when leads began to run beside others."""
        partners = self._partners()
        for net in self.nets.values():
            if len(net.contacts) > 2:
                # A captive plug can go nowhere else; other leads that run beside may give way.
                net.lay_beside(partners, self.room, mating=True)
                before.setdefault(net.net_id, (net.pieces.copy(), net.leads[:]))
                net.lay_beside(partners, self.room)

    def _connect(
        self,
        net: Net,
        before: tuple[Groups[ContactKey], list[LaidLead]] | None,
        partners: Partners,
        joined: Set[Pair],
        carrying: Set[Pair],
    ) -> None:
        if net.net_id in self.unsolved:
            return
        rails = self._rails(net)
        laid = len(net.leads)
        solved = self._join(net, joined, carrying)
        self._tell_rails(net, rails, [lead.ends for lead in net.leads[laid:]])
        if not solved and before is not None and net.of_one_kind:
            # On a net of ground and supply at once a lead is wrong; others giving way to it would hide which.
            solved = self._join_first(net, before, partners, joined, carrying)
        if not solved:
            self.unsolved.setdefault(net.net_id, []).append(net)

    def _rails(self, net: Net) -> list[tuple[ContactKey, ...]]:
        """Stretches of wire that the net's leads leave apart, each with its contacts; those that joined nothing not."""
        met = {key for lead in net.leads if lead.how in ("drawn", "drawn together", "chosen") for key in lead.ends}
        found: dict[ContactKey, tuple[ContactKey, ...]] = {}
        for keys in self.drawn.get(net.net_id, ()):
            if met.intersection(keys) and not self.inside(net, keys):
                found.setdefault(net.pieces.root(keys[0]), keys)
        return list(found.values())

    def inside(self, net: Net, keys: Sequence[ContactKey]) -> bool:
        """Whether the board itself joins all of these."""
        joined = inside_joined([self.contacts[key] for key in keys], self.terminations)
        return len({joined.root(key) for key in keys}) == 1

    def _tell_rails(self, net: Net, rails: Sequence[tuple[ContactKey, ...]], added: Sequence[LeadEnds]) -> None:
        if len(rails) > 1 and added:
            between = tuple(ends for ends in added if _parts_rails(net, rails, ends))
            self.named.append(NamedTogether(net.name, net.net_id, tuple(rails), between or tuple(added)))

    def _pairs(self) -> tuple[set[Pair], set[Pair]]:
        """Pairs of terminations that leads join so far, over in-line parts as well; those that carry a signal."""
        joined, carrying = _pairs(self.nets.values())
        beside: dict[str, set[str]] = {}
        for a, b in joined:
            beside.setdefault(a, set()).add(b)
            beside.setdefault(b, set()).add(a)
        for start in beside:
            if self.terminations[start].kind is not Kind.INLINE:
                joined |= {pair_of(start, end) for end in self._beyond_parts(start, beside)}
        return joined, carrying

    def _beyond_parts(self, start: str, beside: Mapping[str, Set[str]]) -> set[str]:
        """Terminations that a lead and in-line parts lead to."""
        seen, front, found = {start}, [start], set()
        while front:
            for other in beside[front.pop()] - seen:
                seen.add(other)
                if self.terminations[other].kind is Kind.INLINE:
                    front.append(other)
                else:
                    found.add(other)
        return found

    def _partners(self) -> Partners:
        return _partners(self.nets, self.terminations)

    def _join(self, net: Net, joined: Set[Pair], carrying: Set[Pair]) -> bool:
        return _join(net, self.room, joined, carrying, self.length_um)

    def _join_first(
        self,
        net: Net,
        before: tuple[Groups[ContactKey], list[LaidLead]],
        partners: Partners,
        joined: Set[Pair],
        carrying: Set[Pair],
    ) -> bool:
        return _join_first(net, before, self.room, partners, (joined, carrying), self.length_um)

    def leads(self) -> list[LaidLead]:
        return sorted(
            (lead for net in self.nets.values() for lead in net.leads), key=lambda lead: lead_order(lead.ends)
        )

    def crowdings(self, overfull: Set[ContactKey]) -> list[Crowding]:
        crowded = []
        for net in self.nets.values():
            full = [key for key in overfull if self.contacts[key].net_id == net.net_id]
            for part in self.unsolved.get(net.net_id, [net] if full else []):
                crowded.append(crowding_of(net.name, net.net_id, part.contacts, part.pieces, self.room, full))
        return sorted(crowded, key=_crowding_order)


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


def _partners(nets: Mapping[int, Net], terminations: Mapping[str, Termination]) -> Partners:
    leads = [(lead.ends, not net.is_rail) for net in nets.values() for lead in net.leads]
    joined = {pair_of(ends[0][0], ends[1][0]) for ends, _ in leads}
    shared = {contact.net_id: 1 for termination in terminations.values() for contact in termination.contacts}
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
    net.lay_joined(found, found.how, *filter(None, [found.note]))
    return True


def _join_first(
    net: Net,
    before: tuple[Groups[ContactKey], list[LaidLead]],
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
    notes = [GAVE_WAY, *filter(None, [found.note])]

    def how(ends: LeadEnds) -> str:
        return "beside" if pair_of(ends[0][0], ends[1][0]) in partners else found.how(ends)

    net.lay_joined(found, how, *notes)
    net.lay_beside(partners, room)
    return True


def _parts_rails(net: Net, rails: Sequence[tuple[ContactKey, ...]], ends: LeadEnds) -> bool:
    """Whether two of the rails are joined by way of this lead."""
    pieces = Groups(contact.key for contact in net.contacts)
    firsts: dict[ContactKey, ContactKey] = {}
    for contact in net.contacts:
        pieces.join(contact.key, firsts.setdefault(net.inside.root(contact.key), contact.key))
    for lead in net.leads:
        if lead.ends != ends:
            pieces.join(*lead.ends)
    return len({pieces.root(keys[0]) for keys in rails}) > 1


def _solution(
    net: Net,
    pieces: Groups[ContactKey],
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
    found = join_islands(spots, joined=joined, wanting=wanting, length_um=length_um)
    if found is not None and found.chosen:
        return replace(found, others=others_as_good(spots, found.leads, Weights(joined, wanting)))
    return found


def _crowding_order(crowding: Crowding) -> Order:
    """Every crowding names at least one contact."""
    return min(contact_order(key) for key in crowding.contacts)
