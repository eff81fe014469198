"""The drawing that comes of sheets whose pieces have found their nets."""

from __future__ import annotations

import os
import re
from collections import Counter
from collections.abc import Iterator, Mapping
from typing import NamedTuple

from tabside.model.drawing import (
    Drawing,
    DrawnLoose,
    DrawnNet,
    DrawnNote,
    DrawnPin,
    DrawnStretch,
    DrawnSymbol,
    LooseKind,
    PinKey,
    Place,
)
from tabside.model.groups import Numbered
from tabside.read.kicad.labels import shown_name
from tabside.read.kicad.placements import Placement
from tabside.read.kicad.sheet_file import UNITS_PER_MM, Hierarchy, Point, SheetFile, SheetInstance, SheetSymbol
from tabside.read.kicad.variants import varied_sheet, varied_symbol
from tabside.read.loose_wires import LooseSpot, loose_spots
from tabside.read.nets.geometry import PlacedPin, lib_symbol
from tabside.read.nets.knots import SheetKnots
from tabside.read.nets.names.buses import Origin
from tabside.read.nets.names.sheet_texts import SheetTexts
from tabside.read.nets.pieces import Piece, Rank
from tabside.read.nets.stretches import SheetStretches, stretches_of
from tabside.read.nets.warnings import reading_warnings

_NAMES_EVERYWHERE = (Rank.GLOBAL, Rank.POWER, Rank.LOCAL_POWER)
_NOT_NOTES = ("netclass", "net class", "intersheetrefs", "intersheet references")


class SheetUse(NamedTuple):
    """One sheet instance on its way to the drawing."""

    instance: SheetInstance
    tied: SheetKnots
    placements: list[Placement]
    texts: SheetTexts
    local: Origin
    everywhere: Origin
    first_pin: int  # pins of all sheets are numbered in one row
    first_symbol: int
    piece_of: list[Piece]  # for each knot

    def pin_key(self, pin: int) -> PinKey:
        """The drawing's key of a pin, by its place in `tied.pins`."""
        symbol = self.tied.pins[pin].symbol
        return (self.first_symbol + symbol, pin - self.tied.pins_of[symbol][0])


class Assembly:
    """Puts symbols, stretches and notes of all sheets together."""

    def __init__(self, hierarchy: Hierarchy, sheets: list[SheetUse], net_of_piece: Mapping[int, int]) -> None:
        """`net_of_piece` has the net's place among all nets for each piece, by its id."""
        self.hierarchy, self.sheets, self.net_of_piece = hierarchy, sheets, net_of_piece
        self.stretches = _Stretches(hierarchy, sheets)

    def drawing(self, nets: list[DrawnNet]) -> Drawing:
        symbols: list[DrawnSymbol] = []
        notes: list[DrawnNote] = []
        for index, sheet in enumerate(self.sheets):
            net_of_pin = [0] * len(sheet.tied.pins)
            for knot, piece in zip(sheet.tied.knots, sheet.piece_of, strict=True):
                for pin in knot.pins:
                    net_of_pin[pin] = self.net_of_piece[id(piece.standing())]
            symbols += self._symbols(sheet, net_of_pin)
            notes += self._notes(index, sheet)
        self.power = [symbol.is_power or symbol.reference.startswith("#") for symbol in symbols]
        root = self.hierarchy.sheets[0].file
        title = root.title_block
        return Drawing(
            root=os.path.splitext(os.path.basename(self.hierarchy.root_path or root.path))[0],
            title=title.get("title", ""),
            revision=title.get("rev", ""),
            date=title.get("date", ""),
            company=title.get("company", ""),
            symbols=tuple(symbols),
            nets=tuple(nets),
            stretches=self.stretches.drawn(),
            notes=tuple(notes),
            loose=(*self._loose_wires(), *self._single_names(nets)),
            warnings=(*self.hierarchy.warnings, *reading_warnings(symbols, self.hierarchy, self._file_name)),
            files=tuple(
                (self._file_name(file), file.sha256)
                for file in {id(sheet.file): sheet.file for sheet in self.hierarchy.sheets}.values()
            ),
            text_variables=dict(self.hierarchy.text_variables),
            kicad=self.hierarchy.kicad,
            variant=self.hierarchy.variant,
        )

    def _file_name(self, file: SheetFile) -> str:
        """The file's path from the root's folder, with forward slashes."""
        if not file.path or not self.hierarchy.root_path:
            return os.path.basename(file.path)
        folder = os.path.dirname(self.hierarchy.root_path)
        return os.path.relpath(os.path.abspath(file.path), folder).replace(os.sep, "/")

    def _place(self, sheet: SheetUse, at: Point, uuid: str) -> Place:
        return Place(self._file_name(sheet.instance.file), sheet.instance.names, _mm(at), uuid)

    def _symbols(self, sheet: SheetUse, net_of_pin: list[int]) -> list[DrawnSymbol]:
        file = sheet.instance.file
        file_name, names = self._file_name(file), sheet.instance.names
        around = self._sheet_symbols(sheet.instance)
        variant = self.hierarchy.variant
        sheet_fields = tuple(self._fields_of_sheets(sheet.instance))
        in_bom, on_board = all(s.in_bom for s in around), all(s.on_board for s in around)
        dnp = any(s.dnp for s in around)
        flags = set(file.no_connects)
        drawn: list[DrawnSymbol] = []
        for symbol, placement, numbers in zip(file.symbols, sheet.placements, sheet.tied.pins_of, strict=True):
            library = lib_symbol(file, symbol)
            if variant and symbol.variants:
                symbol, placement = varied_symbol(symbol, placement, sheet.instance.path, variant)
            pins = [sheet.tied.pins[number] for number in numbers]
            value = placement.value
            if pins and pins[0].legacy_value is not None:
                value = pins[0].legacy_value
            fields = sheet.texts.fields(_fields(symbol.fields, placement, value))
            drawn.append(
                DrawnSymbol(
                    reference=placement.reference,
                    unit=placement.unit,
                    value=fields["Value"],
                    footprint=fields["Footprint"],
                    lib_id=symbol.lib_id,
                    fields=fields,
                    sheet_fields=sheet_fields,
                    pins=tuple(
                        DrawnPin(p.number, p.name, p.electrical, net_of_pin[n], p.at in flags, _mm(p.at))
                        for n, p in zip(numbers, pins, strict=True)
                    ),
                    is_power=library is not None and library.power != "",
                    annotated=placement.annotated,
                    in_bom=symbol.in_bom and in_bom,
                    dnp=symbol.dnp or dnp,
                    place=Place(file_name, names, _mm(symbol.at), symbol.uuid),
                    unit_count=1 if library is None else max(library.unit_count, 1),
                    on_board=symbol.on_board and on_board,
                )
            )
        return drawn

    def _fields_of_sheets(self, instance: SheetInstance) -> Iterator[Mapping[str, str]]:
        """The fields of the sheet symbols around, innermost first, their variables put in."""
        while instance.symbol is not None and instance.parent is not None:
            parent = self.hierarchy.sheets[instance.parent]
            symbol = varied_sheet(instance.symbol, parent.path, self.hierarchy.variant)
            yield SheetTexts(self.hierarchy, instance).fields(symbol.fields)
            instance = parent

    def _sheet_symbols(self, instance: SheetInstance) -> list[SheetSymbol]:
        """The sheet symbols around, innermost first; what they say of BOM, board and fitting holds for all inside."""
        found: list[SheetSymbol] = []
        while instance.symbol is not None and instance.parent is not None:
            parent = self.hierarchy.sheets[instance.parent]
            found.append(varied_sheet(instance.symbol, parent.path, self.hierarchy.variant))
            instance = parent
        return found

    def _loose_wires(self) -> Iterator[DrawnLoose]:
        known: dict[int, list[LooseSpot]] = {}
        for sheet in self.sheets:
            key = id(sheet.tied)
            if key not in known:
                known[key] = loose_spots(sheet.instance.file, sheet.tied)
            for spot in known[key]:
                yield DrawnLoose(spot.kind, self._pin_name(sheet, spot.pin), self._place(sheet, spot.at, ""))

    def _pin_name(self, sheet: SheetUse, pin: int | None) -> str:
        if pin is None:
            return ""
        placed = sheet.tied.pins[pin]
        placement = sheet.placements[placed.symbol]
        return placement.value if placed.power else f"{placement.reference}:{placed.number}"

    def _single_names(self, nets: list[DrawnNet]) -> Iterator[DrawnLoose]:
        """Labels whose name stands nowhere else, on a net of fewer than two pins of parts."""
        found: list[tuple[str, int, int, int]] = []
        local: Counter[tuple[int, str]] = Counter()
        everywhere: Counter[str] = Counter()
        for index, sheet in enumerate(self.sheets):
            for knot, piece in zip(sheet.tied.knots, sheet.piece_of, strict=True):
                everywhere.update(driver.text for driver in piece.drivers if driver.rank in _NAMES_EVERYWHERE)
                everywhere.update(driver.text for driver in piece.drivers if driver.rank is Rank.SHEET_PIN)
                for number in knot.labels:
                    label = sheet.instance.file.labels[number]
                    if label.kind == "directive":
                        continue
                    text = sheet.texts.label(label)
                    if label.kind != "global":
                        local[index, text] += 1
                    net = self.net_of_piece.get(id(piece.standing()))
                    if net is not None and not piece.flagged and not piece.connection.is_bus:
                        found.append((text, net, index, number))
        names = Counter(text for text, *_ in found) + everywhere
        for text, net, index, number in found:
            sheet = self.sheets[index]
            alone = local[index, text] + everywhere[text] == 1 and self._parts_on(nets[net]) < 2
            if alone and not _in_a_bus(self.hierarchy, text):
                label = sheet.instance.file.labels[number]
                place = self._place(sheet, label.at, label.uuid)
                yield DrawnLoose(LooseKind.LABEL_ONCE, shown_name(text), place, _similar(text, names))

    def _parts_on(self, net: DrawnNet) -> int:
        """Pins of parts on a net; power symbols are none."""
        return sum(1 for index, _ in net.pins if not self.power[index])

    def _notes(self, index: int, sheet: SheetUse) -> list[DrawnNote]:
        notes: list[DrawnNote] = []
        for knot, piece in zip(sheet.tied.knots, sheet.piece_of, strict=True):
            net = self.net_of_piece.get(id(piece.standing()))
            for number in knot.labels:
                label = sheet.instance.file.labels[number]
                fields = {n: v for n, v in label.fields.items() if n.lower() not in _NOT_NOTES}
                if fields and net is not None:
                    pins = self.stretches.pins_under(index, number)
                    notes.append(DrawnNote(fields, net, pins, self._place(sheet, label.at, label.uuid)))
        return notes


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
        number = next(n for n, each in enumerate(file.sheets) if each is symbol)
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
        return tuple(sorted({each for each in found if len(each.pins) > 1}))


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


def _fields(own: Mapping[str, str], placement: Placement, value: str) -> dict[str, str]:
    return {**own, "Reference": placement.reference, "Value": value, "Footprint": placement.footprint}


def _mm(at: Point) -> tuple[float, float]:
    return (at[0] / UNITS_PER_MM, at[1] / UNITS_PER_MM)
