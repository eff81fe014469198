"""Rails of the craft: runs that boards join inside themselves, as ground, battery or supplies of one role."""

from __future__ import annotations

from collections.abc import Hashable, Mapping

from tabside.facts.labels.roles import read_label
from tabside.model.craft import Contact, Craft, Kind, Termination
from tabside.model.groups import Groups
from tabside.model.roles import Role
from tabside.wiring.terminations.fields import ISOLATED, text_of

_YES = ("yes", "true", "1")


def rails_of(craft: Craft, runs: Mapping[int, int]) -> dict[int, int]:
    """Run -> rail: runs on which one board has supplies of one role are one rail, but not at `Isolated` places."""
    groups = Groups(runs.values())
    firsts: dict[Hashable, int] = {}
    for termination in craft.terminations.values():
        if termination.kind in (Kind.SPLICE, Kind.INLINE) or is_isolated(termination):
            continue
        for contact in termination.contacts:
            for name in _names_inside(contact):
                run = runs[contact.net_id]
                groups.join(run, firsts.setdefault((termination.board, name), run))
    return {run: groups.root(run) for run in groups.members}


def is_isolated(termination: Termination) -> bool:
    return text_of(termination.fields, ISOLATED).lower() in _YES


def is_usb(contact: Contact) -> bool:
    """Whether its name says that its supply is that of a USB plug."""
    return "USB" in contact.label.upper() or "VBUS" in contact.label.upper()


def _names_inside(contact: Contact) -> list[Hashable]:
    """What joins a supply contact to others of its board: those that share a name are one rail; not at an `Either`."""
    if not contact.role.is_supply or contact.role.name == "cell_tap" or contact.either:
        return []
    names: list[Hashable] = [("label", contact.label.strip().upper())] if contact.label.strip("+- ") else []
    if is_usb(contact):
        return names  # boards keep what comes over USB apart from their own rail; common practice, no source
    for reading in _readings(contact):
        if reading.battery:
            names.append("battery")
        elif reading.volts and reading.volts.low == reading.volts.high:
            names.append(("volts", reading.volts.low))
    return names


def _readings(contact: Contact) -> list[Role]:
    return [contact.role, read_label(contact.label)] if contact.label else [contact.role]
