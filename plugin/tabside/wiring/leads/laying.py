"""Which leads each net has: drawn, between its only two contacts, beside other leads, or joining what is left.

Every net by itself, and the same for any order of the file.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence, Set

from msgspec.structs import replace

from tabside.model.craft import Contact, ContactKey, Crowding, Kind, NamedTogether, Termination
from tabside.model.groups import Groups
from tabside.model.roles import RoleClass
from tabside.wiring.leads.crowding import crowding_of
from tabside.wiring.leads.islands import inside_joined
from tabside.wiring.leads.joining import LengthUm
from tabside.wiring.leads.lead_tree import LeadEnds, Order, Pair, contact_order, ends_of, lead_order, pair_of
from tabside.wiring.leads.net import Before, LaidLead, Net, PairsSoFar
from tabside.wiring.leads.partners import Partners, Room, captive_partners

DrawnTogether = Mapping[int, Sequence[tuple[ContactKey, ...]]]
_RankedLead = tuple[LeadEnds, bool]  # whether it carries a signal


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
        self._known_partners: tuple[list[_RankedLead], Partners] | None = None

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
                net.lay_only_two()

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
                pairs = self._pairs_so_far()
                for net, bundle in bundles:
                    self._lay_bundle(net, bundle, pairs)

    def _lay_bundle(self, net: Net, bundle: Net, pairs: PairsSoFar) -> None:
        drawn = self._between([contact.key for contact in bundle.contacts])
        for ends in drawn:
            bundle.pieces.join(*ends)
        before = bundle.as_it_is
        bundle.lay_beside(pairs.partners, self.room)
        solved = bundle.join(self.room, pairs, self.length_um) or bundle.join_first(
            before, self.room, pairs, self.length_um
        )
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
        before: dict[int, Before] = {}
        self._lay_beside(before)
        for rails in (False, True):
            if rails:  # signals that have found their way by now take ground and supply along
                self._lay_beside(before)
            pairs = self._pairs_so_far()
            for net in self.nets.values():
                if net.is_rail is rails:
                    self._connect(net, before.get(net.net_id), pairs)

    def _lay_beside(self, before: dict[int, Before]) -> None:
        """`before` is given each net as it was when leads began to run beside others."""
        partners = self._partners()
        for net in self.nets.values():
            if len(net.contacts) > 2:
                # A captive plug can go nowhere else; other leads that run beside may give way.
                net.lay_beside(partners, self.room, mating=True)
                before.setdefault(net.net_id, net.as_it_is)
                net.lay_beside(partners, self.room)

    def _connect(self, net: Net, before: Before | None, pairs: PairsSoFar) -> None:
        if net.net_id in self.unsolved:
            return
        rails = self._rails(net)
        laid = len(net.leads)
        solved = net.join(self.room, pairs, self.length_um)
        self._tell_rails(net, rails, [lead.ends for lead in net.leads[laid:]])
        if not solved and before is not None and net.of_one_kind:
            # On a net of ground and supply at once a lead is wrong; others giving way to it would hide which.
            solved = net.join_first(before, self.room, pairs, self.length_um)
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
            between = tuple(ends for ends in added if net.parts_rails(rails, ends))
            self.named.append(NamedTogether(net.name, net.net_id, tuple(rails), between or tuple(added)))

    def _pairs_so_far(self) -> PairsSoFar:
        joined, carrying = _pairs(self.nets.values())
        beside: dict[str, set[str]] = {}
        for a, b in joined:
            beside.setdefault(a, set()).add(b)
            beside.setdefault(b, set()).add(a)
        for start in beside:
            if self.terminations[start].kind is not Kind.INLINE:
                joined |= {pair_of(start, end) for end in self._beyond_parts(start, beside)}
        return PairsSoFar(self._partners(), joined, carrying)

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
        """Those of the leads so far; worked out again only when there are others."""
        leads = [(lead.ends, not net.is_rail) for net in self.nets.values() for lead in net.leads]
        if self._known_partners is None or self._known_partners[0] != leads:
            self._known_partners = (leads, _partners(leads, self.nets, self.terminations))
        return self._known_partners[1]

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


def _partners(
    leads: Sequence[_RankedLead], nets: Mapping[int, Net], terminations: Mapping[str, Termination]
) -> Partners:
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


def _crowding_order(crowding: Crowding) -> Order:
    """Every crowding names at least one contact."""
    return min(contact_order(key) for key in crowding.contacts)
