"""One net while its leads are worked out: its contacts, what joins them by now, and the leads it has."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence, Set

from msgspec import Struct
from msgspec.structs import replace

from tabside.model.craft import Contact, ContactKey, Termination
from tabside.model.groups import Groups
from tabside.model.roles import RoleClass
from tabside.wiring.leads.alternatives import Weights, others_as_good
from tabside.wiring.leads.islands import inside_joined
from tabside.wiring.leads.joining import Joined, LengthUm, join_islands
from tabside.wiring.leads.lead_tree import LeadEnds, Pair, Spot, ends_of, pair_of
from tabside.wiring.leads.partners import Partners, Room, leads_beside

_NET_CLASSES = (RoleClass.GROUND, RoleClass.SUPPLY, RoleClass.SIGNAL, RoleClass.PHASE)
GAVE_WAY = "wires beside others gave way so that the whole net is connected"


class LaidLead(Struct, frozen=True):
    """A lead before it has a mark."""

    ends: LeadEnds
    net_id: int
    how: str
    notes: tuple[str, ...] = ()
    others: tuple[LeadEnds, ...] = ()  # that would have done as well, some of them


class PairsSoFar(Struct, frozen=True):
    """Which terminations belong together, by the leads of all nets so far."""

    partners: Partners
    joined: Set[Pair]  # over in-line parts as well
    carrying: Set[Pair]  # those of them that carry a signal


class Before(Struct, frozen=True):
    """A net as it was when leads began to run beside others."""

    pieces: Groups[ContactKey]
    leads: list[LaidLead]


class Net:
    """One net's contacts and leads while they are worked out."""

    def __init__(self, net_id: int, contacts: list[Contact], terminations: Mapping[str, Termination]) -> None:
        """`contacts` in natural order."""
        classes = {contact.role.cls for contact in contacts}
        self.net_id = net_id
        self.contacts = contacts
        self.keys = [contact.key for contact in contacts]
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

    @property
    def as_it_is(self) -> Before:
        return Before(self.pieces.copy(), self.leads[:])

    def lay(self, ends: Iterable[LeadEnds], how: str) -> None:
        for end in ends:
            self.leads.append(LaidLead(end, self.net_id, how))
            self.pieces.join(*end)

    def lay_only_two(self) -> None:
        """Step 2: a net of two contacts is one lead, unless their board joins them already."""
        if len(self.keys) == 2 and not self.pieces.together(*self.keys):
            self.lay([ends_of(*self.keys)], "two contacts")

    def lay_beside(self, partners: Partners, room: Room, *, mating: bool = False) -> None:
        """Step 3: leads beside those that join the same terminations."""
        laid = [lead.ends for lead in self.leads]
        self.lay(leads_beside(self.contacts, partners, room, laid, mating=mating), "beside")

    def join(self, room: Room, pairs: PairsSoFar, length_um: LengthUm | None) -> bool:
        """Step 4: connect the islands that are left; False when there is no solution."""
        found = self._solution(Before(self.pieces, self.leads), room, pairs, length_um)
        if found is None:
            return False
        for ends in found.leads:
            room.take(ends)
        self._lay_joined(found, found.how, *filter(None, [found.note]))
        return True

    def join_first(self, before: Before, room: Room, pairs: PairsSoFar, length_um: LengthUm | None) -> bool:
        """Connect the islands first, and lay what can run beside other leads with the room that is left.

        Tried when step 3 leaves too little room for step 4.  False, and nothing changed, when that does not help
        either.
        """
        beside = self.leads[len(before.leads) :]
        for lead in beside:
            room.take(lead.ends, -1)
        found = self._solution(before, room, pairs, length_um) if beside else None
        if found is None:
            for lead in beside:
                room.take(lead.ends)
            return False
        for ends in found.leads:
            room.take(ends)
        self.leads, self.pieces = before.leads, before.pieces

        def how(ends: LeadEnds) -> str:
            return "beside" if pair_of(ends[0][0], ends[1][0]) in pairs.partners else found.how(ends)

        self._lay_joined(found, how, *filter(None, [GAVE_WAY, found.note]))
        self.lay_beside(pairs.partners, room)
        return True

    def parts_rails(self, rails: Sequence[tuple[ContactKey, ...]], ends: LeadEnds) -> bool:
        """Whether two of the rails are joined by way of this lead."""
        pieces = Groups(contact.key for contact in self.contacts)
        firsts: dict[ContactKey, ContactKey] = {}
        for contact in self.contacts:
            pieces.join(contact.key, firsts.setdefault(self.inside.root(contact.key), contact.key))
        for lead in self.leads:
            if lead.ends != ends:
                pieces.join(*lead.ends)
        return len({pieces.root(keys[0]) for keys in rails}) > 1

    def _lay_joined(self, found: Joined, how: Callable[[LeadEnds], str], *notes: str) -> None:
        """The leads of a solution, each with those that would have done as well."""
        for ends in found.leads:
            said = how(ends)
            others = found.others.get(ends, ()) if said == "chosen" else ()
            self.leads.append(LaidLead(ends, self.net_id, said, notes, others))
            self.pieces.join(*ends)

    def _solution(self, at: Before, room: Room, pairs: PairsSoFar, length_um: LengthUm | None) -> Joined | None:
        """How the islands could be connected, from what is joined and laid by then."""
        names: dict[ContactKey, int] = {}
        islands = {key: names.setdefault(at.pieces.root(key), len(names)) for key in self.keys}
        if len(names) < 2:
            return Joined((), False)
        spots = [Spot(key, island, room.left(key)) for key, island in islands.items()]
        wanting: set[Pair] = set()
        if self.is_rail:
            wanting = set(pairs.carrying) - {pair_of(lead.ends[0][0], lead.ends[1][0]) for lead in at.leads}
        found = join_islands(spots, joined=pairs.joined, wanting=wanting, length_um=length_um)
        if found is not None and found.chosen:
            return replace(found, others=others_as_good(spots, found.leads, Weights(pairs.joined, wanting)))
        return found
