"""What a board joins inside: contacts of one net that are ground, supplies of one role, or one line of a bus."""

from __future__ import annotations

from collections.abc import Hashable, Mapping, Sequence

from tabside.facts.labels.roles import read_label
from tabside.model.craft import Contact, ContactKey, Kind, Termination
from tabside.model.groups import Groups
from tabside.model.roles import RoleClass

BUSES = frozenset(("can", "i2c", "rs485", "spi"))  # a board with such a line at two places passes it on


def inside_joined(contacts: Sequence[Contact], terminations: Mapping[str, Termination]) -> Groups[ContactKey]:
    """The contacts of one net, joined as far as boards and splices join them inside."""
    pieces = Groups(contact.key for contact in contacts)
    firsts: dict[Hashable, ContactKey] = {}
    supplies: dict[tuple[str, str], list[Contact]] = {}
    for contact in contacts:
        termination = terminations[contact.termination]
        for joint in _joints(contact, termination):
            pieces.join(contact.key, firsts.setdefault(joint, contact.key))
        if contact.role.is_supply and termination.kind not in (Kind.INLINE, Kind.SPLICE):
            apart = termination.reference if termination.isolated else ""
            supplies.setdefault((termination.board, apart), []).append(contact)
    for on_board in supplies.values():
        _join_unnamed(on_board, pieces)
    return pieces


def _joints(contact: Contact, termination: Termination) -> list[Hashable]:
    """What a contact is joined to inside its board, as names: contacts that share one are joined."""
    if termination.kind is Kind.SPLICE:
        return [("splice", termination.reference)]
    if termination.kind is Kind.INLINE:
        return []
    role = contact.role
    # What is isolated here is joined to nothing elsewhere on the board.
    board = (termination.board, termination.reference if termination.isolated else "")
    if role.cls is RoleClass.GROUND:
        return [(board, "ground")]
    if role.cls is RoleClass.SIGNAL and role.group in BUSES and role.line:
        return [(board, role.group, role.line)]
    if "485" in contact.label and not role.judged:
        return [(board, "rs485", contact.label.upper())]
    if not role.is_supply:
        return []
    joints: list[Hashable] = [(board, "label", contact.label.upper())] if contact.label else []
    for reading in (role, read_label(contact.label)) if contact.label else (role,):
        if reading.battery:
            joints.append((board, "battery"))
        elif reading.volts and reading.volts.low == reading.volts.high:
            joints.append((board, "volts", reading.volts.low))
    return joints


def _join_unnamed(supplies: Sequence[Contact], pieces: Groups[ContactKey]) -> None:
    """VCC, VDD or V+ beside one named rail of the same board on the same net is that rail.

    An input (VIN) is not: a board may well make the rail out of it.
    """
    unnamed = [contact for contact in supplies if _is_unnamed(contact)]
    named = [contact for contact in supplies if not _is_unnamed(contact) and not _is_input(contact)]
    if len({pieces.root(contact.key) for contact in named}) == 1:
        for contact in unnamed:
            if not _is_input(contact):
                pieces.join(contact.key, named[0].key)


def _is_unnamed(contact: Contact) -> bool:
    return contact.role.volts is None and not contact.role.battery


def _is_input(contact: Contact) -> bool:
    return "IN" in contact.label.upper()
