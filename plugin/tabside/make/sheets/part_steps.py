"""Parts that are soldered across leads: a capacitor across the battery, a terminator, a pull-up."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from msgspec import Struct

from tabside.model.craft import Contact, Craft, Kind, Part, PartPin, Termination
from tabside.model.natural import natural
from tabside.words.contacts import termination_name
from tabside.words.parts import part_name
from tabside.words.signals import signal_words

_PLUS = re.compile(r"\+|\+?A|POS|PLUS|ANODE", re.IGNORECASE)
_CAPACITOR, _DIODE = ("C", "CP"), ("D", "LED")


class PartStep(Struct, frozen=True):
    """How one part is fitted."""

    reference: str
    words: str
    places: tuple[str, ...] = ()  # boards and connectors whose contacts it joins
    joints: int = 0  # soldered
    minutes: float = 0.0  # of the hands; what the part costs is in no table


def part_steps(craft: Craft) -> tuple[PartStep, ...]:
    """In natural order; a part that meets no contact of a board is fitted to nothing and left out."""
    parts = sorted(craft.parts, key=lambda part: natural(part.reference))
    return tuple(step for part in parts if not part.dnp for step in _steps(part, craft))


def _steps(part: Part, craft: Craft) -> Iterator[PartStep]:
    places = _places(part, craft)
    if len(places) < 2:
        return
    value = f", {part.value}" if part.value.strip() not in ("", "~", part.reference) else ""
    joints = "; ".join(_joint(part, pin, contact, craft) for pin, contact in places)
    yield PartStep(
        part.reference,
        f"{part_name(part.reference)}{value}: slide heat-shrink over its legs; {joints}; inspect, then cover bare legs",
        places=tuple(dict.fromkeys(termination_name(craft, contact.termination) for _, contact in places)),
        joints=len(places),
        minutes=craft.settings.costs.solder_minutes * len(places),
    )


def _places(part: Part, craft: Craft) -> list[tuple[PartPin, Contact]]:
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


def _joint(part: Part, pin: PartPin, contact: Contact, craft: Craft) -> str:
    termination = craft.terminations[contact.termination]
    place = termination_name(craft, termination.reference)
    signal = signal_words(craft, contact.key)
    place = f"the board side of {place}" if termination.kind is Kind.RECEPTACLE else place
    at = f"{place} contact {contact.number}" + (f" ({signal})" if signal else "")
    return f"{_leg(part, pin, contact)} to {at}"


def _leg(part: Part, pin: PartPin, contact: Contact) -> str:
    """The leg in words; of a part with a right way round by its polarity."""
    letters = part.reference.rstrip("0123456789")
    if letters in _CAPACITOR and (contact.role.is_ground or contact.role.is_supply):
        return "its minus leg (stripe)" if contact.role.is_ground else "its plus leg (the long one)"
    if letters in _DIODE:
        return "its anode" if _PLUS.fullmatch(pin.name or "") else "its cathode (band)"
    return f"its leg {pin.number}"
