"""In-line parts: which two-pin parts split a run, and what passes through them.

Fuses, switches and jumpers always split a run.  Diodes, resistors, inductors and beads do when they carry the run on;
across a rail and ground, as pull-up or as terminator they are parts on the net.  Source: common practice, no source.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable, Mapping, Sequence

from msgspec import Struct
from msgspec.structs import replace

from tabside.facts.labels.roles import read_label
from tabside.model.craft import Contact, Kind, Termination
from tabside.model.drawing import Drawing
from tabside.model.roles import Direction, Role, RoleClass
from tabside.wiring.leads.lead_tree import contact_order
from tabside.wiring.terminations.part_kinds import FUSES, SPLIT_ALWAYS
from tabside.wiring.terminations.symbols import Gathered

_UNKNOWN = Role(RoleClass.UNKNOWN, "unknown", said_by="in-line part")
_SAID_BY_RANK = {"field": 0, "pin type": 1, "label": 2}
_ZERO = r"0+(?:[.,]0+)?\s*[RrΩ]?(?:[Oo]hms?)?(?:\s.*)?\Z"  # a resistor of no resistance is a bridge
_CROSSED = frozenset(("uart", "crsf", "rs232"))  # groups whose lines meet another line at the far end


class NetRoles(Struct, frozen=True):
    """What the contacts on a net, and the power symbols that name it, say about it."""

    roles: tuple[Role, ...]  # known ones of contacts
    contacts: int  # of terminations and of parts that may be in-line

    @property
    def cls(self) -> RoleClass | None:
        """Ground before supply before signal; None when nothing is known."""
        found = {role.cls for role in self.roles}
        order = (RoleClass.GROUND, RoleClass.SUPPLY, RoleClass.SIGNAL, RoleClass.PHASE)
        return next((cls for cls in order if cls in found), None)

    @property
    def lines(self) -> set[tuple[str, str]]:
        return {(role.group, role.line) for role in self.roles if role.cls is RoleClass.SIGNAL and role.line}


def net_roles(terminations: Iterable[Termination], maybe: Iterable[Gathered], drawing: Drawing) -> dict[int, NetRoles]:
    """By net, from terminations that are sure and parts that may be in-line."""
    roles: dict[int, list[Role]] = {}
    counts: dict[int, int] = {}
    for termination in terminations:
        for contact in termination.contacts:
            counts[contact.net_id] = counts.get(contact.net_id, 0) + 1
            if contact.role.judged:
                roles.setdefault(contact.net_id, []).append(contact.role)
    for part in maybe:
        for pin in part.pins.values():
            counts[pin.net] = counts.get(pin.net, 0) + 1
            roles.setdefault(pin.net, [])
    for net in list(roles):
        named = (read_label(name) for name in drawing.nets[net].power_names)
        roles[net].extend(role for role in named if role.judged)
    return {net: NetRoles(tuple(roles.get(net, ())), count) for net, count in counts.items()}


def splits_run(part: Gathered, nets: Mapping[int, NetRoles]) -> bool:
    """Whether a part with two pins and the right letters carries a run on."""
    if part.letters in SPLIT_ALWAYS:
        return True
    a, b = (pin.net for pin in part.pins.values())
    if a == b:
        return False
    classes = {nets[a].cls, nets[b].cls}
    rails = {RoleClass.GROUND, RoleClass.SUPPLY}
    if classes == rails:
        return False
    if len(classes) == 1 and classes <= rails:
        return True
    if classes & rails and RoleClass.SIGNAL in classes:
        # A pull-up sits on a line that is complete without it; a lamp on a line of its own is a run.
        return nets[a if nets[a].cls is RoleClass.SIGNAL else b].contacts <= 2
    if part.letters == "R" and _is_terminator(nets[a].lines, nets[b].lines):
        return False
    return min(nets[a].contacts, nets[b].contacts) <= 2


def across_rails(maybe: Sequence[Gathered], nets: Mapping[int, NetRoles]) -> frozenset[str]:
    """Parts in a row between a supply and ground, a resistor among them: a light and its resistor, behind a switch.

    Nothing else meets the nets between them.  Switches and fuses of the row are not among those that are returned.
    """
    at: dict[int, list[Gathered]] = {}
    for part in maybe:
        for pin in part.pins.values():
            at.setdefault(pin.net, []).append(part)

    def row_from(part: Gathered, net: int) -> tuple[list[Gathered], int]:
        """The parts that follow on this side, and the net at which the row ends."""
        row: list[Gathered] = []
        while nets[net].cls is None and nets[net].contacts == len(at[net]):
            following = [other for other in at[net] if other is not part and other not in row]
            if not following:
                break
            # Several rows may begin at a switch: any of them leads on to the same ground.
            part = following[0]
            row.append(part)
            net = next((pin.net for pin in part.pins.values() if pin.net != net), net)
        return row, net

    found = set()
    for part in maybe:
        a, b = (pin.net for pin in part.pins.values())
        if a == b or part.letters in SPLIT_ALWAYS:
            continue
        (before, first), (behind, last) = row_from(part, a), row_from(part, b)
        row = [*before, part, *behind]
        ends = {nets[first].cls, nets[last].cls}
        if len(row) > 1 and ends == {RoleClass.GROUND, RoleClass.SUPPLY} and any(map(_resists, row)):
            found.add(part.reference)
    return frozenset(found)


def _resists(part: Gathered) -> bool:
    return part.letters == "R" and re.match(_ZERO, part.first.value.strip()) is None


def pass_roles(terminations: Mapping[str, Termination], across: Collection[str] = ()) -> dict[str, Termination]:
    """The terminations with the roles of in-line parts (from the far side) and of splices (from their net) put in.

    Parts `across` a supply pass nothing on: they take what they are given.
    """
    walk = _Walk({name: termination for name, termination in terminations.items() if name not in across})
    return {
        reference: termination if reference in across else _passed(termination, walk)
        for reference, termination in terminations.items()
    }


class _Walk:
    """Looks for known roles on a net, then beyond the in-line parts on it."""

    def __init__(self, terminations: Mapping[str, Termination]) -> None:
        self._known: dict[int, list[Contact]] = {}
        self._inline: dict[int, list[tuple[str, int]]] = {}  # net -> in-line parts on it, with their other net
        for termination in terminations.values():
            nets = {contact.number: contact.net_id for contact in termination.contacts}
            for contact in termination.contacts:
                for number in termination.beyond(contact.number):
                    if nets[number] != contact.net_id:
                        self._inline.setdefault(contact.net_id, []).append((termination.reference, nets[number]))
                if not termination.passes_on(contact.number) and contact.role.cls is not RoleClass.UNKNOWN:
                    self._known.setdefault(contact.net_id, []).append(contact)

    def on_net(self, net: int) -> list[Contact]:
        return self._known.get(net, [])

    def role_from(self, net: int, without: str) -> Role:
        """The best known role on the net, else the nearest beyond in-line parts other than `without`."""
        seen, level, passed = {net}, [net], {without}
        while level:
            found = [contact for here in level for contact in self.on_net(here)]
            if found:
                return _best(found)
            beyond = []
            for here in level:
                for reference, other in self._inline.get(here, ()):
                    if reference not in passed and other not in seen:
                        seen.add(other)
                        beyond.append(other)
            level = beyond
        return _UNKNOWN


def _best(contacts: Sequence[Contact]) -> Role:
    """Of several roles: what a field says first, then known volts, then what drives, then natural order."""

    def rank(contact: Contact) -> tuple[object, ...]:
        role = contact.role
        return (
            not role.judged,
            _SAID_BY_RANK.get(role.said_by, 3),
            role.is_supply and role.volts is None and not role.battery,
            role.direction is not Direction.DRIVES,
            contact_order(contact.key),
        )

    return min(contacts, key=rank).role


def _passed(termination: Termination, walk: _Walk) -> Termination:
    if termination.kind is Kind.SPLICE:
        contacts = [replace(contact, role=_role_at_splice(contact, walk)) for contact in termination.contacts]
    elif termination.kind is Kind.INLINE:
        contacts = _passed_through(termination, walk)
    else:
        return termination
    return replace(termination, contacts=tuple(contacts))


def _passed_through(termination: Termination, walk: _Walk) -> list[Contact]:
    """Each contact with the role of what lies beyond it inside; of several, the first that is known."""
    at = {
        contact.number: walk.role_from(contact.net_id, termination.reference)
        for contact in termination.contacts
        if termination.passes_on(contact.number)
    }
    contacts = []
    for contact in termination.contacts:
        far = [
            at[number]
            for number in termination.beyond(contact.number)
            if not _stops_roles(termination, at[contact.number], at[number])
        ]
        if contact.number in at:
            role = next((role for role in far if role.judged), far[0] if far else _UNKNOWN)
            contact = replace(contact, role=replace(role, said_by="in-line part"))
        contacts.append(contact)
    return contacts


def _stops_roles(termination: Termination, near: Role, far: Role) -> bool:
    """A button or a lamp joins a signal to ground or to a rail on purpose; not to the battery, not through a fuse."""
    letters = termination.reference.upper().rstrip("0123456789")
    if letters in FUSES or letters == "NT":
        return False
    rail = far if near.cls is RoleClass.SIGNAL else near
    return {near.cls, far.cls} in (
        {RoleClass.SIGNAL, RoleClass.GROUND},
        {RoleClass.SIGNAL, RoleClass.SUPPLY},
    ) and not rail.battery


def _role_at_splice(contact: Contact, walk: _Walk) -> Role:
    """What a splice carries: the role of its net; unknown for lines that cross, whose ends have roles of their own."""
    found = walk.on_net(contact.net_id)
    role = _best(found) if found else walk.role_from(contact.net_id, contact.termination)
    if role.cls is RoleClass.SIGNAL and (role.group in _CROSSED or not role.line):
        return replace(_UNKNOWN, said_by="splice")
    direction = Direction.BOTH if role.cls is RoleClass.SIGNAL else Direction.UNKNOWN
    return replace(role, said_by="splice", direction=direction)


def _is_terminator(a: set[tuple[str, str]], b: set[tuple[str, str]]) -> bool:
    """Across two lines of one bus; lines that cross, as TX and RX, meet over a resistor in series."""
    if {group for group, _ in a | b} & _CROSSED:
        return False
    return bool({group for group, _ in a} & {group for group, _ in b}) and not a & b
