"""Where a finding points: board, termination, contact, net and place of what it names."""

from __future__ import annotations

from collections.abc import Iterable

from tabside.model.craft import Contact, Craft
from tabside.model.findings import Where


def at_contact(craft: Craft, contact: Contact) -> Where:
    return Where(
        board=craft.terminations[contact.termination].board,
        termination=contact.termination,
        contact=contact.number,
        net=contact.net,
        place=contact.place,
    )


def at_contacts(craft: Craft, contacts: Iterable[Contact]) -> tuple[Where, ...]:
    """Each contact once, in the order given."""
    return tuple(at_contact(craft, contact) for contact in {contact.key: contact for contact in contacts}.values())


def at_termination(craft: Craft, reference: str) -> Where:
    termination = craft.terminations[reference]
    return Where(board=termination.board, termination=reference, place=termination.place)
