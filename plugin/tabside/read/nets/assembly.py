"""The drawing that comes of sheets whose pieces have found their nets."""

from __future__ import annotations

import os
from collections.abc import Mapping
from typing import NamedTuple

from tabside.model.drawing import Drawing, DrawnNet, DrawnNote, DrawnPin, DrawnRun, DrawnSymbol, PinKey, Place
from tabside.read.kicad.placements import Placement
from tabside.read.kicad.sheet_file import UNITS_PER_MM, Hierarchy, Point, SheetFile, SheetInstance, SheetSymbol
from tabside.read.nets.buses import Origin
from tabside.read.nets.geometry import PlacedPin, lib_symbol
from tabside.read.nets.knots import SheetKnots
from tabside.read.nets.pieces import Piece
from tabside.read.nets.runs import drawn_runs
from tabside.read.nets.sheet_texts import SheetTexts
from tabside.read.nets.warnings import reading_warnings

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
    """Puts symbols, runs and notes of all sheets together."""

    def __init__(self, hierarchy: Hierarchy, sheets: list[SheetUse], net_of_piece: Mapping[int, int]) -> None:
        """`net_of_piece` has the net's place among all nets for each piece, by its id."""
        self.hierarchy, self.sheets, self.net_of_piece = hierarchy, sheets, net_of_piece
        self.runs: dict[int, list[tuple[int, int]]] = {}  # by id of the SheetKnots

    def drawing(self, nets: list[DrawnNet]) -> Drawing:
        symbols: list[DrawnSymbol] = []
        runs: list[DrawnRun] = []
        notes: list[DrawnNote] = []
        for sheet in self.sheets:
            net_of_pin = [0] * len(sheet.tied.pins)
            for knot, piece in zip(sheet.tied.knots, sheet.piece_of, strict=True):
                for pin in knot.pins:
                    net_of_pin[pin] = self.net_of_piece[id(piece.standing())]
            symbols += self._symbols(sheet, net_of_pin)
            runs += self._runs(sheet)
            notes += self._notes(sheet)
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
            runs=tuple(runs),
            notes=tuple(notes),
            warnings=(*self.hierarchy.warnings, *reading_warnings(symbols, self.hierarchy, self._file_name)),
            files=tuple(
                (self._file_name(file), file.sha256)
                for file in {id(sheet.file): sheet.file for sheet in self.hierarchy.sheets}.values()
            ),
            text_variables=dict(self.hierarchy.text_variables),
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
        sheet_fields = tuple(below.fields for below in around)
        in_bom, on_board = all(s.in_bom for s in around), all(s.on_board for s in around)
        dnp = any(s.dnp for s in around)
        flags = set(file.no_connects)
        drawn: list[DrawnSymbol] = []
        for symbol, placement, numbers in zip(file.symbols, sheet.placements, sheet.tied.pins_of, strict=True):
            library = lib_symbol(file, symbol)
            pins = [sheet.tied.pins[number] for number in numbers]
            value = placement.value
            if pins and pins[0].legacy_value is not None:
                value = pins[0].legacy_value
            drawn.append(
                DrawnSymbol(
                    reference=placement.reference,
                    unit=placement.unit,
                    value=value,
                    footprint=placement.footprint,
                    lib_id=symbol.lib_id,
                    fields=_fields(symbol.fields, placement, value),
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

    def _sheet_symbols(self, instance: SheetInstance) -> list[SheetSymbol]:
        """The sheet symbols around, innermost first; what they say of BOM, board and fitting holds for all inside."""
        found: list[SheetSymbol] = []
        while instance.symbol is not None and instance.parent is not None:
            found.append(instance.symbol)
            instance = self.hierarchy.sheets[instance.parent]
        return found

    def _runs(self, sheet: SheetUse) -> list[DrawnRun]:
        known = id(sheet.tied)
        if known not in self.runs:
            file = sheet.instance.file
            flags = {n for n, pin in enumerate(sheet.tied.pins) if _is_power_symbol(file, pin) and not pin.power}
            self.runs[known] = drawn_runs(file, sheet.tied, flags)
        return [DrawnRun(sheet.pin_key(a), sheet.pin_key(b)) for a, b in self.runs[known]]

    def _notes(self, sheet: SheetUse) -> list[DrawnNote]:
        notes: list[DrawnNote] = []
        for knot, piece in zip(sheet.tied.knots, sheet.piece_of, strict=True):
            net = self.net_of_piece.get(id(piece.standing()))
            for number in knot.labels:
                label = sheet.instance.file.labels[number]
                fields = {n: v for n, v in label.fields.items() if n.lower() not in _NOT_NOTES}
                if fields and net is not None:
                    pins = tuple(map(sheet.pin_key, knot.pins))
                    notes.append(DrawnNote(fields, net, pins, self._place(sheet, label.at, label.uuid)))
        return notes


def _is_power_symbol(file: SheetFile, pin: PlacedPin) -> bool:
    library = lib_symbol(file, file.symbols[pin.symbol])
    return library is not None and library.power != ""


def _fields(own: Mapping[str, str], placement: Placement, value: str) -> dict[str, str]:
    return {**own, "Reference": placement.reference, "Value": value, "Footprint": placement.footprint}


def _mm(at: Point) -> tuple[float, float]:
    return (at[0] / UNITS_PER_MM, at[1] / UNITS_PER_MM)
