"""Which contacts of boards meet: over a lead, or over splices and in-line parts, which pass role and voltage on."""

from __future__ import annotations

import re
from collections import deque
from collections.abc import Iterator, Mapping
from functools import cache

from msgspec import Struct

from tabside.model.craft import Contact, ContactKey, Craft, Kind, Termination
from tabside.model.groups import Groups
from tabside.model.natural import natural
from tabside.model.roles import RoleClass
from tabside.wiring.terminations.part_kinds import FUSES

PASSES = (Kind.SPLICE, Kind.INLINE)
# A splice of more ends is judged end by end against one of them; the check of the whole net sees the rest.
MOST_ENDS = 12


class Joint(Struct, frozen=True, eq=False):
    """Two contacts of boards that one lead joins, or several with splices and in-line parts between."""

    a: Contact
    b: Contact
    leads: tuple[str, ...]  # marks
    through: tuple[str, ...] = ()  # references of in-line parts and splices between

    @property
    def link(self) -> tuple[str, str]:
        return (self.a.termination, self.b.termination)


@cache
def letters_of(reference: str) -> str:
    found = re.match(r"[A-Za-z]+", reference)
    return found.group().upper() if found else ""


def passes(craft: Craft, reference: str) -> bool:
    """Whether a termination only passes on what it is joined to: a splice or an in-line part."""
    return craft.terminations[reference].kind in PASSES


def joints_of(craft: Craft) -> tuple[Joint, ...]:
    """All joints of the craft, in natural order."""
    found = [_joint(craft, lead.a, lead.b, (lead.mark,), ()) for lead in craft.leads if _direct(craft, lead.ends)]
    found += _joints_through(craft)
    order = {reference: n for n, reference in enumerate(craft.terminations)}
    return tuple(
        sorted(
            found,
            key=lambda j: (order[j.a.termination], order[j.b.termination], natural(j.a.number), natural(j.b.number)),
        )
    )


def _direct(craft: Craft, ends: tuple[ContactKey, ContactKey]) -> bool:
    return not any(_goes_on(craft, key) for key in ends)


def _goes_on(craft: Craft, key: ContactKey) -> bool:
    """Whether what meets a contact goes on behind it; a relay's coil is an end, its switch is none."""
    return craft.terminations[key[0]].passes_on(key[1])


def is_coil(craft: Craft, contact: Contact) -> bool:
    """Whether it is an end of a relay's coil, which hangs on a supply and a ground, or on a switched output."""
    return craft.terminations[contact.termination].kind is Kind.INLINE and not _goes_on(craft, contact.key)


def _joint(craft: Craft, a: ContactKey, b: ContactKey, leads: tuple[str, ...], through: tuple[str, ...]) -> Joint:
    a, b = sorted((a, b), key=lambda key: (natural(key[0]), natural(key[1])))
    return Joint(craft.contact(a), craft.contact(b), leads, through)


def _joints_through(craft: Craft) -> list[Joint]:
    """Walk from every board contact through splices and in-line parts to the board contacts behind them."""
    steps: dict[ContactKey, list[tuple[ContactKey, str]]] = {}
    for lead in craft.leads:
        if not _direct(craft, lead.ends):
            steps.setdefault(lead.a, []).append((lead.b, lead.mark))
            steps.setdefault(lead.b, []).append((lead.a, lead.mark))
    starts = sorted(
        (key for key in steps if not _goes_on(craft, key)), key=lambda key: (natural(key[0]), natural(key[1]))
    )
    found: dict[tuple[ContactKey, ContactKey], Joint] = {}
    crowds: dict[ContactKey, int] = {}  # a contact of a large group -> how often it was met already
    for start in starts:
        if crowds.get(start):
            continue
        ends = list(_walk(craft, start, steps))
        for end, leads, through in ends:
            if (end, start) not in found and end != start:
                found.setdefault((start, end), _joint(craft, start, end, leads, through))
            if len(ends) >= MOST_ENDS:
                crowds[end] = crowds.get(end, 0) + 1
    return list(found.values())


Found = tuple[ContactKey, tuple[str, ...], tuple[str, ...]]


def _walk(craft: Craft, start: ContactKey, steps: Mapping[ContactKey, list[tuple[ContactKey, str]]]) -> Iterator[Found]:
    """Board contacts reached from `start`, nearest first, with the leads and the parts between."""
    seen = {start}
    front: deque[Found] = deque([(start, (), ())])
    while front:
        key, leads, through = front.popleft()
        for other, mark in steps.get(key, ()):
            if other in seen:
                continue
            seen.add(other)
            if not _goes_on(craft, other):
                yield other, (*leads, mark), through
                continue
            part = craft.terminations[other[0]]
            inside = [key for number in part.beyond(other[1]) if (key := (other[0], number)) not in seen]
            seen.update(inside)
            front.extend((at, (*leads, mark), (*through, other[0])) for at in [other, *inside])


def passes_role(part: Termination) -> bool:
    """Whether an in-line part is one of a run: a button or a lamp between a signal and ground is not, a fuse always."""
    return letters_of(part.reference) in FUSES or any(
        contact.role.cls is not RoleClass.UNKNOWN for contact in part.contacts
    )


def runs_of(craft: Craft, *, but: str = "", changeovers: bool = True) -> dict[int, int]:
    """Net id -> run id: nets that in-line parts join are one run.

    Parts with the reference letter `but` keep their sides apart: a diode, a resistor; without `changeovers` also the
    switches that join one side or the other.
    """
    groups: Groups[int] = Groups()
    for termination in craft.terminations.values():
        nets = {contact.number: contact.net_id for contact in termination.contacts}
        for net in nets.values():
            groups.root(net)
        if termination.kind is Kind.SPLICE or (
            termination.kind is Kind.INLINE
            and passes_role(termination)
            and letters_of(termination.reference) != but
            and (changeovers or not is_changeover(termination))
        ):
            for number, net in nets.items():
                for other in termination.beyond(number):
                    groups.join(nets[other], net)
        if changeovers:
            for a, b in relay_pairs(termination):
                groups.join(a.net_id, b.net_id)
    return {net: groups.root(net) for net in groups.members}


def relay_pairs(termination: Termination) -> Iterator[tuple[Contact, Contact]]:
    """Contacts that a relay on a board can join: COM with NO, and with NC."""
    contacts = [contact for contact in termination.contacts if contact.role.name == "relay_contact"]
    for common in (contact for contact in contacts if contact.label.strip().upper().startswith("COM")):
        for other in contacts:
            if other.key != common.key and other.role.index == common.role.index:
                yield common, other


def is_changeover(part: Termination) -> bool:
    """Whether an in-line part joins a contact to one or another, never to both: a switch of three pins, a relay."""
    several = any(len(part.beyond(contact.number)) > 1 for contact in part.contacts)
    return part.kind is Kind.INLINE and several and letters_of(part.reference) != "NT"


def members_of(craft: Craft, runs: Mapping[int, int]) -> dict[int, list[Contact]]:
    """Run id -> the contacts of boards on it."""
    members: dict[int, list[Contact]] = {}
    for termination in craft.terminations.values():
        for contact in termination.contacts:
            if not termination.passes_on(contact.number):
                members.setdefault(runs[contact.net_id], []).append(contact)
    return members


def phases_of(termination: Termination) -> list[Contact]:
    """Its contacts that are phases of a motor."""
    return [contact for contact in termination.contacts if contact.role.cls is RoleClass.PHASE]
