"""Parts that lie across wires: where each of their legs is soldered, and which leg that is."""

from __future__ import annotations

import re
from collections.abc import Sequence
from enum import StrEnum

from tabside.model.craft import Contact, ContactKey, Craft, Kind, Part, PartPin, Termination

_PLUS = re.compile(r"\+|\+?A|POS|PLUS|ANODE", re.IGNORECASE)
_MINUS = re.compile(r"-|-?K|NEG|MINUS|CATHODE|KATHODE", re.IGNORECASE)
_CAPACITOR, _DIODE = ("C", "CP"), ("D", "LED")


class Pole(StrEnum):
    """An end of a diode, as it is called."""

    ANODE = "anode"
    CATHODE = "cathode (band)"


def part_joints(part: Part, craft: Craft) -> list[tuple[PartPin, Contact]]:
    """Each pin with the contact that it is soldered to: at one place for all pins where there is one."""
    on_net: dict[int, list[Contact]] = {}
    for termination in craft.terminations.values():
        for contact in termination.contacts:
            on_net.setdefault(contact.net_id, []).append(contact)
    pins = [pin for pin in part.pins if pin.net_id in on_net]
    shared = [
        termination
        for termination in craft.terminations.values()
        if all(any(contact.net_id == pin.net_id for contact in termination.contacts) for pin in pins)
    ]
    best = min(shared, key=_ease, default=None)
    contacts = best.contacts if best is not None else ()
    return [(pin, _contact(pin, contacts, on_net[pin.net_id])) for pin in pins]


def _contact(pin: PartPin, preferred: Sequence[Contact], others: Sequence[Contact]) -> Contact:
    return next((contact for contact in preferred if contact.net_id == pin.net_id), others[0])


def _ease(termination: Termination) -> int:
    """Copper and joints take another leg; a crimped contact does not, a pack's own end never."""
    order = (Kind.PAD, Kind.SPLICE, Kind.INLINE, Kind.RECEPTACLE, Kind.CAPTIVE)
    return order.index(termination.kind)


def is_turned(part: Part, pin: PartPin, contact: Contact) -> bool:
    """Whether this leg must not go where another belongs."""
    return bool(_polarity(part, pin, contact))


def leg_words(part: Part, pin: PartPin, contact: Contact) -> str:
    """The leg in words; of a part with a right way round by its polarity."""
    return _polarity(part, pin, contact) or f"leg {pin.number}"


def _polarity(part: Part, pin: PartPin, contact: Contact) -> str:
    """The leg by its plus or minus; "" of one that may go either way round."""
    letters = part.reference.rstrip("0123456789")
    if letters in _CAPACITOR and (contact.role.is_ground or contact.role.is_supply):
        return "minus leg (stripe)" if contact.role.is_ground else "plus leg (the long one)"
    return _pole(letters, pin.name or "") or ""


def pole_words(craft: Craft, key: ContactKey) -> str:
    """Which end of a diode in a wire a contact is, in words; "" where that is not known."""
    return pole_of(craft, key) or ""


def pole_of(craft: Craft, key: ContactKey) -> Pole | None:
    """Which end of a diode in a wire a contact is; None of other parts, and where the symbol does not say it."""
    part = craft.terminations[key[0]]
    if part.kind is not Kind.INLINE:
        return None
    return _pole(part.reference.rstrip("0123456789"), craft.contact(key).pin_name)


def _pole(letters: str, name: str) -> Pole | None:
    if letters not in _DIODE:
        return None
    if _PLUS.fullmatch(name):
        return Pole.ANODE
    return Pole.CATHODE if _MINUS.fullmatch(name) else None
