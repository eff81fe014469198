"""Rails' names on the wire that do not suit what their net joins."""

from __future__ import annotations

from collections.abc import Iterator

from msgspec import Struct

from tabside.analysis.causes.clashes import Clashes
from tabside.analysis.meeting.outcome import Agreement
from tabside.facts.labels.roles import read_label
from tabside.model.craft import Contact


class NameClash(Struct, frozen=True):
    """A rail's name on a net against a contact there, or against another rail's name."""

    net_id: int
    name: str  # as written
    against: Contact | None
    other: str  # the other name, where two names clash; else ""
    found: Agreement


def name_clashes(clashes: Clashes) -> Iterator[NameClash]:
    """Rails' names that do not suit the contacts of their run, where no lead there is told to clash already.

    A fuse or a switch passes the rail on: what is called +12V before it is not +5V behind it.
    """
    written: dict[int, list[Contact]] = {}
    for net, names in clashes.rail_names.items():
        if net in clashes.solid_runs:
            written.setdefault(clashes.solid_runs[net], []).extend(names)
    for run, on_run in written.items():
        contacts = clashes.solid_members.get(run, [])
        if not contacts or clashes.whole_runs[contacts[0].net_id] in clashes.clashing_runs:
            continue
        if len(contacts) < 2 and contacts[0].key not in clashes.joined:
            continue  # a name on a contact that nothing meets joins nothing
        yield from _between_names(clashes, on_run)
        yield from _on_contacts(clashes, on_run, contacts)


def _between_names(clashes: Clashes, written: list[Contact]) -> Iterator[NameClash]:
    first = written[0]
    for other in written[1:]:
        found = clashes.agree(first, other)
        if found.clashes:
            yield NameClash(first.net_id, first.label, None, other.label, found)


def _on_contacts(clashes: Clashes, written: list[Contact], contacts: list[Contact]) -> Iterator[NameClash]:
    for name in written:
        for contact in contacts:
            if _is_called_so(name, contact):
                continue
            found = clashes.agree(name, contact)
            if found.clashes and contact.key not in clashes.meant_contacts:
                yield NameClash(name.net_id, name.label, contact, "", found)


def _is_called_so(name: Contact, contact: Contact) -> bool:
    """A battery's name on a contact whose own name is the battery's, whatever volts it states besides."""
    return name.role.battery and read_label(contact.label).battery
