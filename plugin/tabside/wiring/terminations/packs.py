"""The pack that the craft file speaks of, where the drawing gives it nothing but plus and minus."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from msgspec.structs import replace

from tabside.facts.labels.role_kinds import role_named
from tabside.model.craft import Contact, Kind, Termination
from tabside.model.roles import Direction
from tabside.wiring.terminations.contact_roles import is_bare_plus

_LOADS = frozenset(("BZ", "LS", "LA", "M"))  # buzzer, speaker, lamp, motor in KiCad's library Device: no packs


def with_stated_pack(terminations: Mapping[str, Termination]) -> dict[str, Termination]:
    """The terminations of a craft whose battery is stated, with that battery found among them.

    Where no contact names or gives a battery, the only part with its own two leads, a bare plus and a ground, that
    states neither what it gives nor what it takes and that nothing feeds, is the pack: its volts must be judged.
    """
    found = dict(terminations)
    if any(contact.role.battery for termination in found.values() for contact in termination.contacts):
        return found
    packs = list(_packs(found))
    if len(packs) == 1:
        reference, plus = packs[0]
        role = role_named("battery", label=plus.role.label, direction=Direction.DRIVES, said_by="field")
        contacts = tuple(replace(c, role=role) if c.key == plus.key else c for c in found[reference].contacts)
        found[reference] = replace(found[reference], contacts=contacts)
    return found


def _passes_a_need(part: Termination, contact: Contact) -> bool:
    """Whether a fuse or splice carries the volts that a load states, and no rail's name (5V, 3V3)."""
    role = contact.role
    return part.kind in (Kind.INLINE, Kind.SPLICE) and (role.name == "power_in" or role.direction is Direction.LISTENS)


def _packs(terminations: Mapping[str, Termination]) -> Iterator[tuple[str, Contact]]:
    """(reference, plus) of each part that may be the pack."""
    fed = {
        contact.net_id
        for termination in terminations.values()
        for contact in termination.contacts
        if contact.gives
        or (contact.role.is_supply and contact.role.direction is Direction.DRIVES)
        or (contact.role.volts is not None and not contact.takes and not _passes_a_need(termination, contact))
    }
    for reference, part in terminations.items():
        if part.kind is not Kind.CAPTIVE or len(part.contacts) != 2 or reference.rstrip("0123456789") in _LOADS:
            continue
        if any(contact.gives or contact.takes for contact in part.contacts):
            continue
        pluses = [contact for contact in part.contacts if is_bare_plus(contact.role) and contact.net_id not in fed]
        grounds = [contact for contact in part.contacts if contact.role.is_ground]
        if len(pluses) == 1 and len(grounds) == 1:
            yield reference, pluses[0]
