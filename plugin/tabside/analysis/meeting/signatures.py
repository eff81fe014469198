"""Contacts of one kind: alike in all that agreement depends on."""

from __future__ import annotations

from tabside.model.craft import Contact
from tabside.model.roles import Rail, Role

Signature = tuple[Role, tuple[Rail, ...], tuple[Rail, ...]]


def signature(contact: Contact) -> Signature:
    """All that agreement depends on."""
    return (contact.role, contact.gives, contact.takes)


def by_signature(contacts: list[Contact]) -> dict[Signature, list[Contact]]:
    found: dict[Signature, list[Contact]] = {}
    for contact in contacts:
        found.setdefault(signature(contact), []).append(contact)
    return found
