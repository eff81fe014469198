"""What lies along the wires of a drawing: stretches, notes on them, and wires and names that join nothing."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator, Mapping

from tabside.files import sha256_of
from tabside.model.drawing import Drawing, DrawnLoose, DrawnNet, DrawnNote, DrawnStretch, LooseKind, PinKey
from tabside.model.groups import Numbered
from tabside.read.kicad.labels import shown_name
from tabside.read.kicad.sheet_file import Hierarchy, Label, SheetFile, SheetSymbol
from tabside.read.nets.assembly import file_name, place_on
from tabside.read.nets.geometry import PlacedPin, lib_symbol
from tabside.read.nets.netting import Netting, SheetUse
from tabside.read.nets.pieces import Rank
from tabside.read.wires.loose_wires import LooseSpot, loose_spots
from tabside.read.wires.stretches import SheetStretches, stretches_of

# A sheet pin's name stands in the sheet below as well.
_NAMES_EVERYWHERE = (Rank.GLOBAL, Rank.POWER, Rank.LOCAL_POWER, Rank.SHEET_PIN)
_NOT_NOTES = ("netclass", "net class", "intersheetrefs", "intersheet references")


class AlongWires:
    """Adds to a drawing what a craft needs of it and a list of nets does not."""

    def __init__(self, netting: Netting, drawing: Drawing) -> None:
        """`drawing` is what was assembled of the same nets."""
        self.netting, self.hierarchy, self.drawing = netting, netting.hierarchy, drawing
        self.stretches = _Stretches(self.hierarchy, netting.sheets)
        self.power = [symbol.is_power or symbol.reference.startswith("#") for symbol in drawing.symbols]

    def whole(self) -> Drawing:
        """The drawing with all of it."""
        files = {id(sheet.file): sheet.file for sheet in self.hierarchy.sheets}.values()
        return self.drawing._replace(
            files=tuple((file_name(self.hierarchy, file), sha256_of(file.data)) for file in files),
            stretches=self.stretches.drawn(),
            notes=tuple(self._notes()),
            loose=(*self._loose_wires(), *self._single_names(), *self._dropped()),
        )

    def _loose_wires(self) -> Iterator[DrawnLoose]:
        known: dict[int, list[LooseSpot]] = {}
        for sheet in self.netting.sheets:
            key = id(sheet.tied)
            if key not in known:
                known[key] = loose_spots(sheet.instance.file, sheet.tied)
            for spot in known[key]:
                place = place_on(self.hierarchy, sheet.instance, spot.at, "")
                yield DrawnLoose(spot.kind, self._pin_name(sheet, spot.pin), place)

    def _pin_name(self, sheet: SheetUse, pin: int | None) -> str:
        if pin is None:
            return ""
        placed = sheet.tied.pins[pin]
        placement = sheet.placements[placed.symbol]
        return placement.value if placed.power else f"{placement.reference}:{placed.number}"

    def _single_names(self) -> Iterator[DrawnLoose]:
        """Labels whose name stands nowhere else, on a net of fewer than two pins of parts."""
        found: list[tuple[str, int, int, int]] = []
        local: Counter[tuple[int, str]] = Counter()
        everywhere: Counter[str] = Counter()
        for index, sheet in enumerate(self.netting.sheets):
            for knot, piece in zip(sheet.tied.knots, sheet.piece_of, strict=True):
                for driver in piece.drivers:
                    if driver.rank in _NAMES_EVERYWHERE:
                        everywhere[driver.text] += 1
                for number in knot.labels:
                    label = sheet.instance.file.labels[number]
                    if label.kind == "directive":
                        continue
                    text = sheet.texts.label(label)
                    if label.kind != "global":
                        local[index, text] += 1
                    net = self.netting.net_of(piece)
                    if net is not None and not piece.flagged and not piece.connection.is_bus:
                        found.append((text, net, index, number))
        names = Counter(text for text, *_ in found) + everywhere
        for text, net, index, number in found:
            sheet = self.netting.sheets[index]
            alone = local[index, text] + everywhere[text] == 1 and self._parts_on(self.netting.nets[net]) < 2
            if alone and not _in_a_bus(self.hierarchy, text):
                label = sheet.instance.file.labels[number]
                place = place_on(self.hierarchy, sheet.instance, label.at, label.uuid)
                yield DrawnLoose(LooseKind.LABEL_ONCE, shown_name(text), place, _similar(text, names))

    def _parts_on(self, net: DrawnNet) -> int:
        """Pins of parts on a net; power symbols are none."""
        return sum(1 for index, _ in net.pins if not self.power[index])

    def _dropped(self) -> Iterator[DrawnLoose]:
        """Names and flags that hold to no wire: KiCad drops what shares a point inside a wire with another."""
        for sheet in self.netting.sheets:
            for knot, piece in zip(sheet.tied.knots, sheet.piece_of, strict=True):
                net = self.netting.net_of(piece)
                nothing = net is None or not self.netting.nets[net].pins
                for number in knot.labels:
                    label = sheet.instance.file.labels[number]
                    if label.kind == "directive" and nothing and (fields := _noted(label)):
                        place = place_on(self.hierarchy, sheet.instance, label.at, label.uuid)
                        yield DrawnLoose(LooseKind.FLAG_ALONE, " and ".join(fields), place)
                    elif label.kind != "directive" and _is_beside_its_wire(sheet, number):
                        place = place_on(self.hierarchy, sheet.instance, label.at, label.uuid)
                        yield DrawnLoose(LooseKind.NAME_DROPPED, shown_name(sheet.texts.label(label)), place)

    def _notes(self) -> Iterator[DrawnNote]:
        for index, sheet in enumerate(self.netting.sheets):
            for knot, piece in zip(sheet.tied.knots, sheet.piece_of, strict=True):
                net = self.netting.net_of(piece)
                for number in knot.labels:
                    label = sheet.instance.file.labels[number]
                    fields = _noted(label)
                    if fields and net is not None:
                        pins = self.stretches.pins_under(index, number)
                        place = place_on(self.hierarchy, sheet.instance, label.at, label.uuid)
                        yield DrawnNote(fields, net, pins, place)


def _is_beside_its_wire(sheet: SheetUse, number: int) -> bool:
    """Whether a name stands in the middle of a line that it does not hold to."""
    if number in sheet.tied.held_lines:
        return False
    point, buses = sheet.instance.file.labels[number].at, sheet.tied.buses
    lines = [
        buses[line] if line < len(buses) else sheet.tied.wires[line - len(buses)]
        for line in sheet.tied.lines.under(point)
    ]
    return bool(lines) and not any(point in line for line in lines)


def _noted(label: Label) -> dict[str, str]:
    """The fields of a label or flag that say something of the wire."""
    return {name: value for name, value in label.fields.items() if name.lower() not in _NOT_NOTES}


class _Stretches:
    """The stretches of all sheets; those that a sheet pin joins to its labels in the sheet below are one."""

    def __init__(self, hierarchy: Hierarchy, sheets: list[SheetUse]) -> None:
        self.hierarchy, self.sheets = hierarchy, sheets
        self.forest = Numbered()
        self.joints: list[list[tuple[PinKey, ...]]] = []
        self.local: list[SheetStretches] = []
        self.first: list[int] = []  # number of each sheet's first stretch among all
        known: dict[int, SheetStretches] = {}  # by id of the SheetKnots
        for sheet in sheets:
            key = id(sheet.tied)
            if key not in known:
                file = sheet.instance.file
                names = {n for n, pin in enumerate(sheet.tied.pins) if _is_power_symbol(file, pin)}
                known[key] = stretches_of(file, sheet.tied, names)
            self._add(sheet, known[key])
        for index, instance in enumerate(hierarchy.sheets):
            if instance.symbol is not None and instance.parent is not None:
                self._join_to_parent(index, instance.parent, instance.symbol)
        self.pins: dict[int, dict[tuple[PinKey, ...], None]] = {}  # root -> points
        for number, joints in enumerate(self.joints):
            self.pins.setdefault(self.forest.root(number), {}).update(dict.fromkeys(joints))

    def _add(self, sheet: SheetUse, found: SheetStretches) -> None:
        self.local.append(found)
        self.first.append(len(self.joints))
        for joints in found.joints:
            self.forest.add()
            self.joints.append([tuple(map(sheet.pin_key, joint)) for joint in joints])

    def _join_to_parent(self, index: int, parent: int, symbol: SheetSymbol) -> None:
        """All sheet pins of one text with all labels of that text below."""
        below, texts, above = self.local[index], self.sheets[index].texts, self.local[parent]
        file = self.sheets[parent].instance.file
        number = next(n for n, sheet in enumerate(file.sheets) if sheet is symbol)
        first_of: dict[str, int] = {}
        for place, pin in enumerate(symbol.pins):
            node = self.first[parent] + above.sheet_pins[number, place]
            self.forest.join(node, first_of.setdefault(texts.sheet_pin(pin.text), node))
        labels = self.sheets[index].instance.file.labels
        for label, local in below.hier_labels.items():
            text = texts.label(labels[label])
            if text in first_of:
                self.forest.join(self.first[index] + local, first_of[text])

    def pins_under(self, index: int, label: int) -> tuple[PinKey, ...]:
        """The pins of the stretches that touch a label's point, on the sheet of this place among all."""
        local = self.local[index].under_labels[label]
        roots = dict.fromkeys(self.forest.root(self.first[index] + number) for number in local)
        points = dict.fromkeys(point for root in roots for point in self.pins.get(root, ()))
        return tuple(sorted({pin for point in points for pin in point}))

    def drawn(self) -> tuple[DrawnStretch, ...]:
        found = [DrawnStretch(tuple(sorted(points))) for points in self.pins.values()]
        return tuple(sorted({stretch for stretch in found if len(stretch.pins) > 1}))


def _in_a_bus(hierarchy: Hierarchy, text: str) -> bool:
    """Whether any sheet has a bus: its members are names, too, and are not looked up one by one here."""
    stem = text.rstrip("0123456789+-PN")
    return any(
        stem and label.text.startswith(stem) and ("[" in label.text or "{" in label.text)
        for file in {id(sheet.file): sheet.file for sheet in hierarchy.sheets}.values()
        for label in file.labels
    ) or any(text in members for members in hierarchy.bus_aliases.values())


def _similar(text: str, names: Mapping[str, int]) -> str:
    """Another name that differs from this one in case, blanks or marks alone."""

    def bare(name: str) -> str:
        return re.sub(r"[\W_]+", "", name).lower()

    return next((shown_name(name) for name in names if name != text and bare(name) == bare(text)), "")


def _is_power_symbol(file: SheetFile, pin: PlacedPin) -> bool:
    library = lib_symbol(file, file.symbols[pin.symbol])
    return library is not None and library.power != ""
