"""A craft in pieces on the bench: where each wire ends, which plugs there are, and what is known inside each board."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from enum import StrEnum
from functools import cached_property, partial
from typing import NamedTuple

from msgspec import Struct

from tabside.analysis.joined.joints import letters_of
from tabside.analysis.joined.lead_ends import EndKind, LeadEnd, MadeLead, soldered_into_plug
from tabside.analysis.joined.part_plugs import live_parts
from tabside.model.craft import ContactKey, Craft, Kind, Termination
from tabside.model.groups import Groups
from tabside.model.natural import natural
from tabside.model.roles import RoleClass, Volts
from tabside.prove.measurement import At, End
from tabside.wiring.terminations.part_kinds import FUSES, SWITCHED
from tabside.words.contacts import link_name, termination_name

PLUGS = frozenset((EndKind.CONTACT, EndKind.CUP, EndKind.SLOT, EndKind.MADE, EndKind.PLUG, EndKind.MATE))
BARE = frozenset((EndKind.PAD, EndKind.SPLICE, EndKind.INLINE))  # ends that are soldered, and bare before that
_CONDUCTS = FUSES | {"SW", "S", "JP", "NT", "L", "FB"}  # closed; fuse in, switch on
SWITCHES = SWITCHED | {"JP"}


class PlaceKind(StrEnum):
    CAVITY = "cavity"  # of a cable's plug
    BARE = "bare end"  # of a lead
    CONTACT = "contact"  # of a board, a splice, a part
    GROUND = "known ground"  # of a board


class Place(NamedTuple):
    """Where a probe, a wire or a board's own copper is."""

    kind: PlaceKind
    at: str  # termination; board for a known ground
    number: str = ""
    lead: str = ""  # of a bare end


class Joined(dict[Place, tuple[Place, ...]]):
    """What each place is joined to, worked out when it is first asked for."""

    def __init__(self, work_out: Callable[[Place], Iterable[Place]]) -> None:
        super().__init__()
        self._work_out = work_out

    def __missing__(self, place: Place) -> tuple[Place, ...]:
        found = self[place] = tuple(self._work_out(place))
        return found


class Inside(StrEnum):
    """What is known of two contacts of one board, as a meter sees them on the board without power."""

    JOINED = "joined"
    RAIL = "one rail"  # joined, when the board is as drawn: never promised, but a short over it is found
    APART = "apart"
    SIGNAL = "signal"  # nobody promises that a signal does not beep; that it does not conduct like a wire is common
    UNKNOWN = "unknown"


class Plug(Struct, frozen=True):
    """A plug on a cable, named by what it goes into."""

    name: str  # the termination's reference; of an in-line part's plugs with the contact
    reference: str
    ways: int | None
    rows: int
    family: str | None
    cavities: Mapping[str, str]  # contact -> mark of the lead in it, in contact order
    own: bool  # a part's own plug, made by its maker
    sold: bool  # comes with a ready-made cable

    @property
    def numbers(self) -> tuple[str, ...]:
        return tuple(self.cavities)


class World:
    """The craft as it lies on the bench when everything has been made as drawn."""

    def __init__(self, craft: Craft, made: Iterable[MadeLead], pack: Volts | None) -> None:
        """`pack`: what the battery reaches; None: nothing says it."""
        self.craft = craft
        self.pack = pack
        self.made = {wire.lead.mark: wire for wire in made}
        self.wires: dict[str, tuple[Place, Place]] = {
            mark: (self._place(mark, wire.ends[0]), self._place(mark, wire.ends[1])) for mark, wire in self.made.items()
        }
        self.wires_at: dict[Place, list[str]] = {}
        for mark, places in self.wires.items():
            for place in places:
                self.wires_at.setdefault(place, []).append(mark)
        self.soldered_at: dict[Place, list[Place]] = {}  # contact -> bare ends that are soldered there
        for places in self.wires.values():
            for place in places:
                if place.kind is PlaceKind.BARE:
                    self.soldered_at.setdefault(contact_of(place), []).append(place)
        self._probed: dict[End, Place] = {}
        self._by_board: dict[tuple[tuple[Inside, ...], frozenset[str]], Joined] = {}

    def _place(self, mark: str, end: LeadEnd) -> Place:
        reference, number = end.key
        if end.kind in PLUGS or end.kind is EndKind.MATED:
            return Place(PlaceKind.CAVITY, reference, number)
        if end.kind in BARE:
            return Place(PlaceKind.BARE, reference, number, mark)
        return Place(PlaceKind.CONTACT, reference, number)

    @cached_property
    def ends(self) -> dict[str, tuple[ContactKey, ContactKey]]:
        """The contacts that each lead joins, by its mark."""
        return {mark: wire.lead.ends for mark, wire in self.made.items()}

    @cached_property
    def met(self) -> frozenset[ContactKey]:
        """The contacts at which a lead ends."""
        return frozenset(key for ends in self.ends.values() for key in ends)

    @cached_property
    def with_cups(self) -> frozenset[str]:
        """Terminations into whose plugs wires are soldered."""
        ends = (end for wire in self.made.values() for end in wire.ends)
        return frozenset(end.key[0] for end in ends if soldered_into_plug(end))

    def probed(self, end: End) -> Place:
        """Where a probe goes on the craft as drawn; asked for every mistake, and worked out once."""
        if end not in self._probed:
            self._probed[end] = self._probe(end)
        return self._probed[end]

    def _probe(self, end: End) -> Place:
        if end.at is At.GROUND:
            return Place(PlaceKind.GROUND, end.board)
        if end.at is At.BARE:
            return Place(PlaceKind.BARE, end.termination, end.contact, end.lead or "")
        cavity = Place(PlaceKind.CAVITY, end.termination, end.contact)
        in_plug = end.lead is not None and cavity in self.wires_at
        return cavity if in_plug else Place(PlaceKind.CONTACT, end.termination, end.contact)

    def plug_at(self, place: Place) -> str:
        """Name of the plug that has this cavity; an in-line part has a plug for each side."""
        inline = self.craft.terminations[place.at].kind is Kind.INLINE
        return f"{place.at}:{place.number}" if inline else place.at

    @cached_property
    def plugs(self) -> dict[str, Plug]:
        """By name, in natural order."""
        ends: dict[str, list[tuple[LeadEnd, str]]] = {}
        for mark, wire in self.made.items():
            for end, place in zip(wire.ends, self.wires[mark], strict=True):
                if place.kind is PlaceKind.CAVITY:
                    ends.setdefault(self.plug_at(place), []).append((end, mark))
        return {name: self._plug(name, ends[name]) for name in sorted(ends, key=natural)}

    def _plug(self, name: str, ends: list[tuple[LeadEnd, str]]) -> Plug:
        first = ends[0][0]
        termination = self.craft.terminations[first.key[0]]
        cavities = {end.key[1]: mark for end, mark in ends}
        return Plug(
            name=name,
            reference=first.key[0],
            ways=first.ways or termination.ways,
            rows=termination.rows,
            family=first.family,
            cavities={number: cavities[number] for number in sorted(cavities, key=natural)},
            own=any(end.kind is EndKind.MATED for end, _ in ends),
            sold=all(end.kind is EndKind.MADE for end, _ in ends),
        )

    def kind_of(self, mark: str, key: ContactKey) -> EndKind:
        return next(end.kind for end in self.made[mark].ends if end.key == key)

    def own(self, mark: str) -> bool:
        """Whether the lead begins inside a part: no probe reaches that end."""
        return any(end.kind in (EndKind.OWN, EndKind.MATED) for end in self.made[mark].ends)

    def group(self, mark: str) -> str:
        """The heading under which a lead's rows stand."""
        lead = self.made[mark].lead
        if lead.cable is None:
            return f"Wires {link_name(self.craft, lead.link)}"
        cable = next(cable for cable in self.craft.cables if cable.mark == lead.cable)
        ends = [termination_name(self.craft, end) for end in cable.ends]
        return f"Cable {cable.mark}: {', '.join(ends)}"

    @cached_property
    def live(self) -> frozenset[str]:
        """Leads that a pack's own leads reach over plugs, splices and in-line parts, once all is made."""
        first = {
            mark
            for mark, wire in self.made.items()
            for end in wire.ends
            if end.kind is EndKind.OWN and self.is_pack(end.key[0])
        }
        return frozenset(mark for unit in self.units if first & set(unit) for mark in unit)

    @cached_property
    def live_places(self) -> frozenset[str]:
        """Terminations at which a pack's leads end: once all is soldered there, the pack is on."""
        return frozenset(reference for mark in self.live for reference, _ in self.ends[mark])

    def is_pack(self, reference: str) -> bool:
        return reference in self._live_parts

    @cached_property
    def _live_parts(self) -> frozenset[str]:
        return live_parts(self.craft)

    @cached_property
    def units(self) -> tuple[tuple[str, ...], ...]:
        """Leads that hang together without any board: over plugs, splices and in-line parts; else over their link."""
        groups = Groups(self.made)
        first: dict[object, str] = {}
        for mark, wire in self.made.items():
            ties: list[object] = [("cable", wire.lead.cable) if wire.lead.cable else ("link", wire.lead.link)]
            ties += [key[0] for key in wire.lead.ends if self.passes_on(key[0])]
            for tie in ties:
                groups.join(mark, first.setdefault(tie, mark))
        units: dict[str, list[str]] = {}
        for mark in self.made:
            units.setdefault(groups.root(mark), []).append(mark)
        return tuple(tuple(unit) for unit in units.values())

    def passes_on(self, reference: str) -> bool:
        return self.craft.terminations[reference].kind in (Kind.SPLICE, Kind.INLINE)

    @cached_property
    def contacts_of_board(self) -> dict[str, list[ContactKey]]:
        """All contacts by board; splices and in-line parts are boards of their own."""
        found: dict[str, list[ContactKey]] = {}
        for termination in self.craft.terminations.values():
            keys = [contact.key for contact in termination.contacts]
            found.setdefault(self.island(termination.reference), []).extend(keys)
        return found

    def island(self, reference: str) -> str:
        """What a contact's own copper belongs to: its board; a splice, an in-line part and a captive part by itself."""
        termination = self.craft.terminations[reference]
        if termination.kind in (Kind.SPLICE, Kind.INLINE):
            return f"part {reference}"
        return f"board {termination.board}"

    @cached_property
    def plain_loads(self) -> frozenset[str]:
        """Boards that only take a supply, at one place: lamps, fans, heaters, coils conduct like a wire."""
        boards: dict[str, list[Termination]] = {}
        for termination in self.craft.terminations.values():
            if not self.passes_on(termination.reference):
                boards.setdefault(termination.board, []).append(termination)
        plain = {RoleClass.SUPPLY, RoleClass.GROUND, RoleClass.PHASE, RoleClass.SHIELD}
        return frozenset(
            board
            for board, places in boards.items()
            if {contact.role.cls for place in places for contact in place.contacts} <= plain
            and not any(contact.gives for place in places for contact in place.contacts)
            and sum(any(contact.role.is_supply for contact in place.contacts) for place in places) == 1
        )

    def isolated(self, reference: str) -> bool:
        return self.craft.terminations[reference].isolated

    def grounded(self, key: ContactKey) -> bool:
        """Whether the contact is the board's known ground for certain."""
        return self.craft.contact(key).role.is_ground and not self.isolated(key[0])

    def inside(self, a: ContactKey, b: ContactKey) -> Inside:
        """What a meter sees between two contacts of one island."""
        one, other = self.craft.terminations[a[0]], self.craft.terminations[b[0]]
        if one.kind is Kind.SPLICE:
            return Inside.JOINED
        if one.kind is Kind.INLINE:
            plain = len(one.contacts) == 2 and b[1] in one.beyond(a[1])  # of a change-over the position is not known
            return Inside.JOINED if plain and letters_of(one.reference) in _CONDUCTS else Inside.UNKNOWN
        if Kind.CAPTIVE in (one.kind, other.kind) or one.unread or other.unread:
            return Inside.UNKNOWN  # windings, filaments
        first, second = self.craft.contact(a), self.craft.contact(b)
        classes = {first.role.cls, second.role.cls}
        if classes == {RoleClass.GROUND}:
            return Inside.JOINED if self.grounded(a) and self.grounded(b) else Inside.UNKNOWN
        if classes == {RoleClass.SUPPLY}:
            return Inside.RAIL if first.net_id == second.net_id else Inside.UNKNOWN
        if classes == {RoleClass.SUPPLY, RoleClass.GROUND}:
            return Inside.UNKNOWN if one.board in self.plain_loads else Inside.APART
        if classes == {RoleClass.SUPPLY, RoleClass.SIGNAL}:
            return Inside.APART
        if RoleClass.SIGNAL in classes and not classes & {RoleClass.UNKNOWN, RoleClass.AMBIGUOUS, RoleClass.SHIELD}:
            return Inside.SIGNAL
        return Inside.UNKNOWN

    def from_ground(self, board: str, key: ContactKey) -> Inside:
        """What a meter sees between the board's known ground and a contact."""
        termination, role = self.craft.terminations[key[0]], self.craft.contact(key).role
        if termination.kind is Kind.CAPTIVE or termination.unread:
            return Inside.UNKNOWN
        if role.is_ground:
            return Inside.JOINED if self.grounded(key) else Inside.UNKNOWN
        if role.is_supply:
            return Inside.UNKNOWN if board in self.plain_loads else Inside.APART
        return Inside.SIGNAL if role.cls is RoleClass.SIGNAL else Inside.UNKNOWN

    def by_board(self, inside: tuple[Inside, ...], off: frozenset[str]) -> Joined:
        """Contacts, and the known ground, that a board's own copper joins to a place in one of these ways.

        No mistake of the wiring changes it, so it is worked out once for all of them.
        """
        asked = (inside, off)
        if asked not in self._by_board:
            self._by_board[asked] = Joined(partial(self._joined_by_board, inside=inside, off=off))
        return self._by_board[asked]

    def _joined_by_board(self, place: Place, *, inside: tuple[Inside, ...], off: frozenset[str]) -> Iterator[Place]:
        if place.kind is PlaceKind.GROUND:
            for key in self.contacts_of_board.get(f"board {place.at}", ()):
                if self.from_ground(place.at, key) in inside:
                    yield Place(PlaceKind.CONTACT, *key)
            return
        if place.kind is not PlaceKind.CONTACT:
            return
        key = key_of(place)
        termination = self.craft.terminations[place.at]
        if not any(contact.number == place.number for contact in termination.contacts):
            return
        if place.at in off:
            return
        for other in self.contacts_of_board.get(self.island(place.at), ()):
            if other != key and self.inside(key, other) in inside:
                yield Place(PlaceKind.CONTACT, *other)
        if termination.kind in (Kind.RECEPTACLE, Kind.PAD) and self.from_ground(termination.board, key) in inside:
            yield Place(PlaceKind.GROUND, termination.board)

    def same_on_board(self, a: ContactKey, b: ContactKey) -> bool:
        """Whether it harms nothing when the leads of these two contacts change places."""
        one, other = self.craft.terminations[a[0]], self.craft.terminations[b[0]]
        if one.kind is Kind.INLINE and a[0] == b[0]:
            return letters_of(one.reference) not in ("D", "LED")
        first, second = self.craft.contact(a), self.craft.contact(b)
        if first.role.cls is RoleClass.PHASE and second.role.cls is RoleClass.PHASE:
            return True
        if first.net_id != second.net_id or one.board != other.board:
            return False
        return first.role.cls in (RoleClass.GROUND, RoleClass.SUPPLY) or one.kind is Kind.SPLICE


def contact_of(place: Place) -> Place:
    """Where a plug's cavity or a bare end belongs."""
    return Place(PlaceKind.CONTACT, place.at, place.number)


def key_of(place: Place) -> ContactKey:
    """The contact that a cavity, a bare end or a contact is made for."""
    return (place.at, place.number)


def is_board(termination: Termination) -> bool:
    """Whether it has a ground of its own that a probe can touch: a splice, an in-line or a captive part has not."""
    return termination.kind in (Kind.RECEPTACLE, Kind.PAD) and not termination.unread
