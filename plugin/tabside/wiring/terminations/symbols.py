"""Placed symbols put together: the units of one reference are one part; what KiCad would merge in silence is told."""

from __future__ import annotations

import re
from collections.abc import Collection, Mapping, Sequence
from functools import cache
from types import MappingProxyType

from msgspec import Struct
from msgspec.structs import replace

from tabside.facts.labels.roles import read_label
from tabside.model.craft import Oddity
from tabside.model.drawing import Drawing, DrawnPin, DrawnSymbol, PinKey, Place
from tabside.model.natural import natural
from tabside.model.roles import RoleClass
from tabside.wiring.terminations.fields import is_ours

_SHIELD_PINS = frozenset(("MP", "SH", "S"))


class Gathered(Struct, frozen=True):
    """All units of one reference, in a stable order, and their pins."""

    reference: str
    units: tuple[DrawnSymbol, ...]
    fields: Mapping[str, str]  # of all units; the first unit that has a value says it
    pins: Mapping[str, DrawnPin]  # numbered pins that are contacts, in contact order; no shield or mounting pins
    places: Mapping[str, Place]  # of these pins
    pin_count: int  # of all pins, shield and mounting pins included
    shields: Mapping[str, DrawnPin] = MappingProxyType({})  # its shield and mounting pins, one for each net

    @property
    def first(self) -> DrawnSymbol:
        return self.units[0]

    @property
    def fitted(self) -> bool:
        """Not marked DNP."""
        return not any(unit.dnp for unit in self.units)

    @property
    def letters(self) -> str:
        """The reference's leading letters, in capitals."""
        return _letters(self.reference)


@cache
def _letters(reference: str) -> str:
    """Asked a dozen times for each part."""
    match = re.match(r"[A-Za-z]+", reference)
    return match[0].upper() if match else ""


def only_pins(part: Gathered, numbers: Collection[str]) -> Gathered:
    """The part with these pins alone."""
    return replace(part, pins={number: pin for number, pin in part.pins.items() if number in numbers})


def gather(drawing: Drawing) -> tuple[list[Gathered], dict[PinKey, tuple[str, str]], list[Oddity]]:
    """The parts of the drawing in natural order, the contact of each pin, and what is odd about references.

    Power symbols and flags are no parts.  A symbol that is not annotated is told and left out: it has no name.
    """
    oddities: list[Oddity] = []
    found: dict[str, list[int]] = {}
    for index, symbol in enumerate(drawing.symbols):
        if symbol.is_power or symbol.reference.startswith("#"):
            continue
        nameless = not symbol.reference or symbol.reference.endswith("?")
        if nameless or not symbol.annotated:
            oddities.append(_not_annotated(symbol))
        if not nameless:
            found.setdefault(symbol.reference, []).append(index)
    parts = []
    contacts: dict[PinKey, tuple[str, str]] = {}
    for reference in sorted(found, key=natural):
        indexes = sorted(found[reference], key=lambda index: _stable(drawing.symbols[index]))
        units = [drawing.symbols[index] for index in indexes]
        oddities.extend(_duplicates(reference, units))
        part, said = _gathered(reference, units, drawing)
        oddities.extend(said)
        parts.append(part)
        for index, unit in zip(indexes, units, strict=True):
            for position, pin in enumerate(unit.pins):
                if pin.number in part.pins and part.pins[pin.number].net == pin.net:
                    contacts[index, position] = (reference, pin.number)
    return parts, contacts, oddities


def is_contact(pin: DrawnPin) -> bool:
    """Whether a pin can be a contact: it has a number and is no shield or mounting pin.

    A pin S that is called SIG or 5V is a servo's signal, or a supply, whatever its number.
    """
    return bool(pin.number) and not _is_shield(pin)


def _is_shield(pin: DrawnPin) -> bool:
    if pin.number.upper() not in _SHIELD_PINS:
        return False
    role = read_label(pin.name)
    return pin.name == pin.number or role.cls not in (RoleClass.SIGNAL, RoleClass.SUPPLY)


def _stable(symbol: DrawnSymbol) -> tuple[object, ...]:
    """An order of units that neither the file's order nor a moved symbol changes."""
    return (symbol.unit, symbol.place.file, symbol.place.sheet, symbol.place.uuid)


def _gathered(reference: str, units: Sequence[DrawnSymbol], drawing: Drawing) -> tuple[Gathered, list[Oddity]]:
    fields: dict[str, str] = {}
    pins: dict[str, DrawnPin] = {}
    shields: dict[str, DrawnPin] = {}
    places: dict[str, Place] = {}
    oddities = []
    distinct = len({unit.unit for unit in units}) == len(units)  # else they are told as two symbols
    for unit in units:
        for name, text in unit.fields.items():
            before = fields.get(name, "").strip()
            if distinct and is_ours(name) and before and text.strip() not in ("", before):
                oddities.append(_said_twice(reference, name, before, text.strip(), unit))
            if text.strip() or name not in fields:
                fields[name] = fields[name] if fields.get(name, "").strip() else text
        for pin in unit.pins:
            if not is_contact(pin):
                if pin.number:
                    shields.setdefault(f"{pin.number} {pin.net}", pin)
                continue
            known = pins.setdefault(pin.number, pin)
            if known is pin:
                at = Place(unit.place.file, unit.place.sheet, pin.at_mm, unit.place.uuid)
                places[pin.number] = at
            elif known.net != pin.net:
                oddities.append(_drawn_twice(reference, known, pin, unit, drawing))
    ordered = sorted(pins, key=natural)
    part = Gathered(
        reference=reference,
        units=tuple(units),
        fields=fields,
        pins={number: pins[number] for number in ordered},
        places={number: places[number] for number in ordered},
        pin_count=sum(len(unit.pins) for unit in units),
        shields=shields,
    )
    return part, oddities


def _said_twice(reference: str, name: str, first: str, text: str, unit: DrawnSymbol) -> Oddity:
    said = f'{reference}: its units say different things, {name} "{first}" and "{text}"; the first counts'
    return Oddity("field", reference, said, unit.place)


def _not_annotated(symbol: DrawnSymbol) -> Oddity:
    name = symbol.reference or "a symbol without a reference"
    return Oddity(
        "not-annotated",
        symbol.reference,
        f"{name} ({symbol.value or symbol.lib_id}) is not annotated: KiCad drops it or merges it silently",
        symbol.place,
    )


def _duplicates(reference: str, units: Sequence[DrawnSymbol]) -> list[Oddity]:
    """The same unit placed twice, or units of different parts, under one reference."""
    first, messages = units[0], []
    seen: set[int] = set()
    for unit in units:
        if unit.unit in seen:
            what = f"{reference} stands for two symbols"
            messages.append((unit, what if unit.unit_count == 1 else f"{what} (unit {unit.unit} is there twice)"))
        elif (unit.lib_id, unit.value) != (first.lib_id, first.value):
            a, b = (symbol.value or symbol.lib_id for symbol in (first, unit))
            messages.append((unit, f"{reference} stands for two different parts ({a} and {b})"))
        seen.add(unit.unit)
    return [
        Oddity("reference-duplicate", reference, f"{text}: KiCad merges them silently", unit.place)
        for unit, text in messages
    ]


def _drawn_twice(reference: str, known: DrawnPin, pin: DrawnPin, unit: DrawnSymbol, drawing: Drawing) -> Oddity:
    a, b = sorted((drawing.nets[known.net].name, drawing.nets[pin.net].name))
    return Oddity(
        "reference-duplicate",
        reference,
        f"contact {reference}:{pin.number} is drawn twice, on the nets {a} and {b}: one contact would connect both",
        unit.place,
    )
