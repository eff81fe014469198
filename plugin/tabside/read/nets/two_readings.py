"""Where KiCad 9 and KiCad 10 make different nets of the same files.

Seen with KiCad 9.0.8 and 10.0.7: members of buses whose names carry overbars, raised or lowered text, or that no label
names; parts without a reference stored for their sheet; pin numbers like [1-3].
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from tabside.model.drawing import Drawing, PinKey, TwoReadings
from tabside.model.escapes import unescape
from tabside.model.natural import natural
from tabside.read.kicad.content import INSTANCES_IN_SYMBOLS, NEWEST_OF_KICAD_9
from tabside.read.kicad.sheet_file import Hierarchy, SheetFile
from tabside.read.nets.assembly import Assembly
from tabside.read.nets.geometry import lib_symbol
from tabside.read.nets.names.buses import group_of, range_of
from tabside.read.nets.netting import Netting

_MOST_PINS = 8  # of one net, in words
Pin = tuple[str, str]  # reference, number
_Net = frozenset[Pin]


def two_readings(netting: Netting, drawing: Drawing) -> tuple[TwoReadings, ...]:
    """What KiCad 9 and 10 read differently in the drawing that was made of these nets."""
    hierarchy = netting.hierarchy
    if not _may_differ(hierarchy):
        return ()
    by_other = Netting(hierarchy._replace(kicad=19 - hierarchy.kicad), netting)
    if _joined(by_other) == _nets(drawing).keys():
        return ()
    other = Assembly(by_other).drawing()
    nine, ten = (drawing, other) if hierarchy.kicad == 9 else (other, drawing)
    nets_9, nets_10 = _nets(nine), _nets(ten)
    only_9, only_10 = nets_9.keys() - nets_10.keys(), nets_10.keys() - nets_9.keys()
    places = _keys(ten) | _keys(nine)
    found = []
    for pins in _groups([*only_9, *only_10]):
        first = min(pins, key=_order)
        owner, key = places[first]
        found.append(
            TwoReadings(
                first[0],
                first[1],
                _in_words({net: nets_9[net] for net in only_9 if net & pins}, pins),
                _in_words({net: nets_10[net] for net in only_10 if net & pins}, pins),
                owner.symbols[key[0]].place,
            )
        )
    found.sort(key=lambda one: (natural(one.reference), natural(one.pin)))
    return tuple(found)


def _may_differ(hierarchy: Hierarchy) -> bool:
    """Cheap to ask: only then the nets are made a second time.  Files that KiCad 9 cannot open have one reading."""
    files = list({id(sheet.file): sheet.file for sheet in hierarchy.sheets}.values())
    if hierarchy.kicad != 9 and any(file.version > NEWEST_OF_KICAD_9 for file in files):
        return False
    return _buses_may_differ(files) or any(map(_has_stacked_pins, files)) or _lacks_references(hierarchy)


def _buses_may_differ(files: Iterable[SheetFile]) -> bool:
    """Marked names, or groups of unlike members that could meet."""
    members: set[tuple[str, ...]] = set()
    for file in files:
        for text in _texts(file):
            if "{" not in text and "[" not in text:
                continue
            plain = unescape(text)
            group = group_of(plain, marks_stay=True)
            if group is None and range_of(plain, marks_stay=True) is None:
                continue
            if any(mark in plain for mark in ("~{", "^{", "_{")):
                return True
            if group is not None:
                members.add(tuple(sorted(group[1])))
    return len(members) > 1


def _texts(file: SheetFile) -> Iterator[str]:
    for label in file.labels:
        yield label.text
    for sheet in file.sheets:
        for pin in sheet.pins:
            yield pin.text


def _has_stacked_pins(file: SheetFile) -> bool:
    return any(pin.number.startswith("[") for symbol in file.lib_symbols.values() for pin in symbol.pins)


def _lacks_references(hierarchy: Hierarchy) -> bool:
    if hierarchy.sheets[0].file.version < INSTANCES_IN_SYMBOLS:
        return False
    return any(sheet.path not in symbol.instances for sheet in hierarchy.sheets for symbol in sheet.file.symbols)


def _nets(drawing: Drawing) -> dict[_Net, str]:
    """Nets of two or more pins of parts, with their names."""
    nets: dict[_Net, str] = {}
    for net in drawing.nets:
        pins = frozenset() if net.dropped else frozenset(_pins(drawing, net.pins))
        if len(pins) > 1:
            nets[pins] = net.name
    return nets


def _joined(netting: Netting) -> set[_Net]:
    """The same nets, before a drawing is made of them."""
    parts: dict[PinKey, Pin] = {}
    for sheet in netting.sheets:
        for number, pin in enumerate(sheet.tied.pins):
            library = lib_symbol(sheet.instance.file, sheet.instance.file.symbols[pin.symbol])
            reference = sheet.placements[pin.symbol].reference
            if not reference.startswith("#") and (library is None or not library.power):
                parts[sheet.pin_key(number)] = (reference, pin.number)
    nets = (frozenset(parts[key] for key in net.pins if key in parts) for net in netting.nets if not net.dropped)
    return {pins for pins in nets if len(pins) > 1}


def _pins(drawing: Drawing, keys: tuple[PinKey, ...]) -> Iterator[Pin]:
    for key in keys:
        symbol = drawing.symbols[key[0]]
        if not symbol.is_power and not symbol.reference.startswith("#"):
            yield symbol.reference, drawing.pin(key).number


def _keys(drawing: Drawing) -> dict[Pin, tuple[Drawing, PinKey]]:
    return {
        (symbol.reference, pin.number): (drawing, (s, p))
        for s, symbol in enumerate(drawing.symbols)
        for p, pin in enumerate(symbol.pins)
    }


def _groups(nets: list[_Net]) -> list[_Net]:
    """The pins of nets that share some, put together."""
    groups: list[_Net] = []
    for net in nets:
        apart = [group for group in groups if not group & net]
        groups = [*apart, net.union(*(group for group in groups if group & net))]
    return groups


def _order(pin: Pin) -> tuple[object, ...]:
    return natural(pin[0]), natural(pin[1])


def _in_words(nets: dict[_Net, str], all_pins: _Net) -> str:
    """'J1:1, J2:1 on /A; J3:1 alone'."""
    told = [
        f"{_listed(net)} on {name}" for net, name in sorted(nets.items(), key=lambda pair: min(map(_order, pair[0])))
    ]
    alone = all_pins.difference(*nets)
    if alone:
        told.append(f"{_listed(alone)} {'alone' if len(alone) == 1 else 'each alone'}")
    return "; ".join(told)


def _listed(pins: _Net) -> str:
    words = [f"{reference}:{number}" for reference, number in sorted(pins, key=_order)]
    return ", ".join(words[:_MOST_PINS]) + (f" and {len(words) - _MOST_PINS} more" if len(words) > _MOST_PINS else "")
