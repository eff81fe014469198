"""Parts that are soldered across leads: a capacitor across the battery, a terminator, a pull-up."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from msgspec import Struct

from tabside.model.craft import Contact, Craft, Kind, Part, PartPin
from tabside.model.natural import natural
from tabside.words.contacts import termination_name
from tabside.words.part_joints import is_turned, leg_words, part_joints
from tabside.words.parts import part_name
from tabside.words.signals import signal_words

PARTS_TITLE = "Parts across wires: fit them now, before any sheet with a pack"


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
    places = part_joints(part, craft)
    if len(places) < 2:
        return
    value = f", {part.value}" if part.value.strip() not in ("", "~", part.reference) else ""
    joints = "; ".join(_joint(part, pin, contact, craft) for pin, contact in places)
    yield PartStep(
        part.reference,
        f"{part_name(part.reference)}{value}: slide heat-shrink over its legs; {joints}; {_look(part, places)}; then "
        "cover bare legs",
        places=tuple(dict.fromkeys(termination_name(craft, contact.termination) for _, contact in places)),
        joints=len(places),
        minutes=craft.settings.costs.solder_minutes * len(places),
    )


def _look(part: Part, places: Sequence[tuple[PartPin, Contact]]) -> str:
    """A part with a right way round is looked at while its legs are bare."""
    if any(is_turned(part, pin, contact) for pin, contact in places):
        return "look: each leg where this line says, no solder from one to the next"
    return "look: no solder from one leg to the next"


def _joint(part: Part, pin: PartPin, contact: Contact, craft: Craft) -> str:
    termination = craft.terminations[contact.termination]
    place = termination_name(craft, termination.reference)
    signal = signal_words(craft, contact.key)
    place = f"the board side of {place}" if termination.kind is Kind.RECEPTACLE else place
    at = f"{place} contact {contact.number}" + (f" ({signal})" if signal else "")
    return f"its {leg_words(part, pin, contact)} to {at}"
