"""Drawings and crafts made in memory from a few lines, without files.

    made = craft(
        plug("J1", "VCC A B GND", board="pilot", family="JST GH", signals="5V, TX, RX, GND"),
        plug("J2", "VCC B A GND", board="radio", family="JST GH", signals="5V, TX, RX, GND"),
        two_pin("F1", "BAT", "VCC"),
        power("GND"),
    )

The second argument of `plug` and its kin names the net of each contact from 1 up ("-": nothing drawn), or is a mapping
{contact: net}.  Nets may also be given the other way round: `nets={"GND": "J1:4 J2:4"}`.  Every other keyword is a
field of the symbol: `seen_from="tabs"` is the field `Seen from`.
"""

from __future__ import annotations

import random
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import TypeVar

from msgspec import Struct, field
from msgspec.structs import replace

from tabside.model.craft import Contact, Craft, CraftSettings
from tabside.model.drawing import Drawing, DrawnNet, DrawnNote, DrawnPin, DrawnStretch, DrawnSymbol, PinKey, Place
from tabside.wiring import build_craft

NOTHING = "-"
Thing = TypeVar("Thing")
Nets = str | Sequence[str] | Mapping[str | int, str]


class Symbol(Struct, frozen=True):
    """A symbol as a test describes it, before nets have numbers."""

    reference: str
    nets: tuple[tuple[str, str], ...]  # (contact, net), in pin order; net "" when nothing is drawn
    value: str = ""
    footprint: str = ""
    lib_id: str = ""
    fields: Mapping[str, str] = field(default_factory=dict)
    sheet_fields: tuple[Mapping[str, str], ...] = ()
    names: Mapping[str, str] = field(default_factory=dict)  # contact -> pin name
    types: Mapping[str, str] = field(default_factory=dict)  # contact -> electrical type; passive when not named
    flagged: frozenset[str] = frozenset()  # contacts under a no-connect flag
    unit: int = 1
    unit_count: int = 1
    is_power: bool = False
    annotated: bool = True
    in_bom: bool = True
    dnp: bool = False
    sheet: str = "/"
    at_mm: tuple[float, float] | None = None  # None: a place of its own on the grid


def plug(
    reference: str,
    nets: Nets,
    *,
    value: str = "",
    footprint: str = "",
    lib_id: str = "",
    sheet_fields: Iterable[Mapping[str, str]] = (),
    names: Sequence[str] | Mapping[str | int, str] = (),
    types: Mapping[str | int, str] | str = "",
    flagged: Iterable[str | int] = (),
    unit: int = 1,
    unit_count: int = 1,
    annotated: bool = True,
    in_bom: bool = True,
    dnp: bool = False,
    sheet: str = "/",
    at_mm: tuple[float, float] | None = None,
    fields: Mapping[str, str] | None = None,
    **more_fields: str | float,
) -> Symbol:
    """A symbol with contacts: by default KiCad's generic connector with pins `Pin_1`, `Pin_2`, ... of type passive.

    `types` may be one type for all pins.  `names` are pin names from contact 1 up, or {contact: name}.
    """
    per_contact = _per_contact(nets)
    shown = {number: f"Pin_{number}" for number, _ in per_contact}
    shown |= dict(_by_number(names))  # a pin may be called "-"
    if isinstance(types, str):
        types = {number: types for number, _ in per_contact} if types else {}
    extra = {field_name(key): f"{text}" for key, text in more_fields.items()}
    return Symbol(
        reference=reference,
        nets=per_contact,
        value=value or f"Conn_01x{len(per_contact):02d}",
        footprint=footprint,
        lib_id=lib_id or f"Connector_Generic:Conn_01x{len(per_contact):02d}",
        fields=dict(fields or {}) | extra,
        sheet_fields=tuple(sheet_fields),
        names=shown,
        types={str(number): text for number, text in types.items()},
        flagged=frozenset(map(str, flagged)),
        unit=unit,
        unit_count=unit_count,
        annotated=annotated,
        in_bom=in_bom,
        dnp=dnp,
        sheet=sheet,
        at_mm=at_mm,
    )


def pads(reference: str, nets: Nets, **more: object) -> Symbol:
    """Bare solder pads."""
    return plug(reference, nets, **({"kind": "pad"} | more))  # type: ignore[arg-type]


def captive(reference: str, nets: Nets, **more: object) -> Symbol:
    """Leads that belong to the part: a motor, a camera, a pack."""
    return plug(reference, nets, **({"kind": "captive"} | more))  # type: ignore[arg-type]


def splice(reference: str, net: str, **more: object) -> Symbol:
    """A point where any number of leads is joined: one contact."""
    return plug(reference, [net], **({"kind": "splice"} | more))  # type: ignore[arg-type]


def two_pin(reference: str, net_1: str, net_2: str, *, value: str = "", lib_id: str = "", **more: object) -> Symbol:
    """A fuse, switch, diode, resistor, capacitor ... between two nets; pins without names."""
    lib_id = lib_id or "Device:" + "".join(c for c in reference if c.isalpha())
    return plug(reference, [net_1, net_2], value=value or lib_id, lib_id=lib_id, names=["~", "~"], **more)  # type: ignore[arg-type]


def power(name: str, *, sheet: str = "/", reference: str = "") -> Symbol:
    """A power symbol (GND, +5V): names the net, is no part."""
    return Symbol(
        reference=reference or f"#PWR_{name}",
        nets=(("1", name),),
        value=name,
        lib_id=f"power:{name}",
        names={"1": name},
        types={"1": "power_in"},
        is_power=True,
        sheet=sheet,
    )


class Note(Struct, frozen=True):
    """Fields on a label or directive of the wire that reaches these contacts."""

    ends: str  # "J1:1 J2:4"
    fields: Mapping[str, str]


def note(ends: str, **fields: str | float) -> Note:
    return Note(ends, {field_name(key): str(text) for key, text in fields.items()})


def field_name(keyword: str) -> str:
    """`seen_from` -> `Seen from`."""
    return keyword[:1].upper() + keyword[1:].replace("_", " ")


def drawing(
    *symbols: Symbol,
    nets: Mapping[str, str] | None = None,
    runs: Iterable[Sequence[str]] = (),
    notes: Iterable[Note] = (),
    labels: Mapping[str, Iterable[str]] | None = None,
    title: str = "Test craft",
    revision: str = "A",
    root: str = "craft",
) -> Drawing:
    """A whole drawing.

    `nets` adds {"GND": "J1:4 J2:4"}, `runs` are stretches of wire, as ("J1:1", "J2:4"), `labels` the texts on a net.
    """
    placed = _joined_by_net(symbols, nets or {})
    names = sorted({net for symbol in placed for _, net in symbol.nets if net})
    index = {name: number for number, name in enumerate(names)}
    members: list[list[PinKey]] = [[] for _ in names]
    drawn: list[DrawnSymbol] = []
    by_contact: dict[str, PinKey] = {}
    for s, symbol in enumerate(placed):
        place = _place(symbol, s)
        pins = []
        for p, (number, net) in enumerate(symbol.nets):
            if not net:
                names.append(f"unconnected-({symbol.reference}-{symbol.names.get(number, number)}-Pad{number})")
                members.append([])
                net_id = len(names) - 1
            else:
                net_id = index[net]
            members[net_id].append((s, p))
            by_contact.setdefault(f"{symbol.reference}:{number}", (s, p))
            pins.append(_pin(symbol, number, net_id, (place.at_mm[0], place.at_mm[1] + 2.54 * p)))
        drawn.append(_drawn_symbol(symbol, tuple(pins), place))
    powers = {net for symbol in placed if symbol.is_power for _, net in symbol.nets}
    texts = {name: tuple(found) for name, found in (labels or {}).items()}
    return Drawing(
        root=root,
        title=title,
        revision=revision,
        date="",
        company="",
        symbols=tuple(drawn),
        nets=tuple(
            DrawnNet(
                name=name,
                pins=tuple(found),
                power_names=(name,) if name in powers else (),
                label_names=texts.get(name, ()),
            )
            for name, found in zip(names, members, strict=True)
        ),
        stretches=tuple(DrawnStretch(tuple((by_contact[end],) for end in run)) for run in runs),
        notes=tuple(_drawn_note(each, by_contact, drawn) for each in notes),
        files=((f"{root}.kicad_sch", "0" * 64),),
    )


def craft(*symbols: Symbol, settings: CraftSettings | None = None, **more: object) -> Craft:
    """The craft of `drawing(*symbols, **more)`."""
    return build_craft(drawing(*symbols, **more), settings or CraftSettings())  # type: ignore[arg-type]


def contact(made: Craft, text: str) -> Contact:
    """The contact of "J1:4"."""
    reference, number = text.split(":")
    return made.contact((reference, number))


def lead_ends(made: Craft, net: str | None = None) -> set[str]:
    """All leads, or those of one net, as "J1:1 - J2:4"."""
    return {" - ".join(":".join(end) for end in lead.ends) for lead in made.leads if net is None or lead.net == net}


def how(made: Craft) -> dict[str, str]:
    """Which step made each lead: {"J1:1 - J2:4": "drawn"}."""
    return {" - ".join(":".join(end) for end in lead.ends): lead.how for lead in made.leads}


def changed(thing: Thing, **now: object) -> Thing:
    """A drawing, or a piece of one, with some of its fields changed."""
    return thing._replace(**now) if hasattr(thing, "_replace") else replace(thing, **now)


def shuffled(original: Drawing, seed: int, *, move: bool = False) -> Drawing:
    """The same drawing with symbols, nets, runs and notes in another order; `move` also moves the symbols."""
    dice = random.Random(seed)
    symbol_order = _permutation(len(original.symbols), dice)
    net_order = _permutation(len(original.nets), dice)
    symbol_now = {old: new for new, old in enumerate(symbol_order)}
    net_now = {old: new for new, old in enumerate(net_order)}

    def moved(key: PinKey) -> PinKey:
        return (symbol_now[key[0]], key[1])

    def mixed(keys: Iterable[PinKey]) -> tuple[PinKey, ...]:
        found = [moved(key) for key in keys]
        dice.shuffle(found)
        return tuple(found)

    symbols = []
    for old in symbol_order:
        symbol = original.symbols[old]
        at = (dice.randrange(100) * 2.54, dice.randrange(100) * 2.54) if move else symbol.place.at_mm
        pins = tuple(changed(pin, net=net_now[pin.net]) for pin in symbol.pins)
        symbols.append(changed(symbol, pins=pins, place=changed(symbol.place, at_mm=at)))
    stretches = [DrawnStretch(tuple((pin,) for pin in mixed(each.pins))) for each in original.stretches]
    notes = [changed(each, net=net_now[each.net], pins=mixed(each.pins)) for each in original.notes]
    dice.shuffle(stretches)
    dice.shuffle(notes)
    return changed(
        original,
        symbols=tuple(symbols),
        nets=tuple(changed(original.nets[old], pins=mixed(original.nets[old].pins)) for old in net_order),
        stretches=tuple(stretches),
        notes=tuple(notes),
    )


def _per_contact(given: Nets | Sequence[str] | Mapping[str | int, str]) -> tuple[tuple[str, str], ...]:
    named = given.split() if isinstance(given, str) else given
    return tuple((number, "" if text == NOTHING else text) for number, text in _by_number(named))


def _by_number(given: Sequence[str] | Mapping[str | int, str]) -> Iterator[tuple[str, str]]:
    pairs = given.items() if isinstance(given, Mapping) else enumerate(given, start=1)
    return ((str(number), text) for number, text in pairs)


def _joined_by_net(symbols: Sequence[Symbol], nets: Mapping[str, str]) -> list[Symbol]:
    """The symbols with the nets of {"GND": "J1:4 J2:4"} put in."""
    put = {end: net for net, ends in nets.items() for end in ends.split()}
    placed = []
    for symbol in symbols:
        ends = dict(symbol.nets)
        for number in ends:
            ends[number] = put.pop(f"{symbol.reference}:{number}", ends[number])
        placed.append(replace(symbol, nets=tuple(ends.items())))
    if put:
        raise KeyError(f"no such contact: {', '.join(put)}")
    return placed


def _place(symbol: Symbol, position: int) -> Place:
    at_mm = symbol.at_mm or (25.4 + 25.4 * (position % 8), 25.4 + 50.8 * (position // 8))
    return Place(
        file="craft.kicad_sch", sheet=symbol.sheet, at_mm=at_mm, uuid=f"{symbol.reference}/{symbol.unit}/{position}"
    )


def _pin(symbol: Symbol, number: str, net: int, at_mm: tuple[float, float]) -> DrawnPin:
    return DrawnPin(
        number=number,
        name=symbol.names.get(number, ""),
        electrical=symbol.types.get(number, "passive"),
        net=net,
        flagged_no_connect=number in symbol.flagged,
        at_mm=at_mm,
    )


def _drawn_symbol(symbol: Symbol, pins: tuple[DrawnPin, ...], place: Place) -> DrawnSymbol:
    builtin = {"Reference": symbol.reference, "Value": symbol.value, "Footprint": symbol.footprint}
    return DrawnSymbol(
        reference=symbol.reference,
        unit=symbol.unit,
        value=symbol.value,
        footprint=symbol.footprint,
        lib_id=symbol.lib_id,
        fields=builtin | dict(symbol.fields),
        sheet_fields=symbol.sheet_fields,
        pins=pins,
        is_power=symbol.is_power,
        annotated=symbol.annotated,
        in_bom=symbol.in_bom,
        dnp=symbol.dnp,
        place=place,
        unit_count=symbol.unit_count,
    )


def _drawn_note(each: Note, by_contact: Mapping[str, PinKey], symbols: Sequence[DrawnSymbol]) -> DrawnNote:
    keys = tuple(by_contact[end] for end in each.ends.split())
    first = symbols[keys[0][0]]
    return DrawnNote(fields=each.fields, net=first.pins[keys[0][1]].net, pins=keys, place=first.place)


def _permutation(count: int, dice: random.Random) -> list[int]:
    order = list(range(count))
    dice.shuffle(order)
    return order
