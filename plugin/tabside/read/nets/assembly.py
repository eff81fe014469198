"""The drawing that comes of sheets whose pieces have found their nets: its symbols, and what holds for all of it."""

from __future__ import annotations

import os
from collections.abc import Iterator, Mapping

from tabside.model.drawing import Drawing, DrawnPin, DrawnSymbol, Place
from tabside.read.kicad.placements import Placement
from tabside.read.kicad.sheet_file import UNITS_PER_MM, Hierarchy, Point, SheetFile, SheetInstance, SheetSymbol
from tabside.read.kicad.variants import varied_sheet, varied_symbol
from tabside.read.nets.geometry import lib_symbol
from tabside.read.nets.names.sheet_texts import SheetTexts
from tabside.read.nets.netting import Netting, SheetUse
from tabside.read.nets.warnings import reading_warnings


class Assembly:
    """Puts the symbols of all sheets together."""

    def __init__(self, netting: Netting) -> None:
        self.netting, self.hierarchy = netting, netting.hierarchy

    def drawing(self) -> Drawing:
        """The drawing but for what lies along its wires."""
        symbols = [symbol for sheet in self.netting.sheets for symbol in self._symbols(sheet)]
        root = self.hierarchy.sheets[0].file
        title = root.title_block
        return Drawing(
            root=os.path.splitext(os.path.basename(self.hierarchy.root_path or root.path))[0],
            title=title.get("title", ""),
            revision=title.get("rev", ""),
            date=title.get("date", ""),
            company=title.get("company", ""),
            symbols=tuple(symbols),
            nets=tuple(self.netting.nets),
            stretches=(),
            notes=(),
            warnings=(
                *self.hierarchy.warnings,
                *reading_warnings(symbols, self.hierarchy, lambda file: file_name(self.hierarchy, file)),
            ),
            text_variables=dict(self.hierarchy.text_variables),
            kicad=self.hierarchy.kicad,
            variant=self.hierarchy.variant,
        )

    def _nets_of_pins(self, sheet: SheetUse) -> list[int]:
        """The net's place among all nets for each pin of a sheet."""
        found = [0] * len(sheet.tied.pins)
        for knot, piece in zip(sheet.tied.knots, sheet.piece_of, strict=True):
            net = self.netting.net_of(piece)
            if net is not None:
                for pin in knot.pins:
                    found[pin] = net
        return found

    def _symbols(self, sheet: SheetUse) -> list[DrawnSymbol]:
        file, names = sheet.instance.file, sheet.instance.names
        shown, net_of_pin = file_name(self.hierarchy, file), self._nets_of_pins(sheet)
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
                    place=Place(shown, names, _mm(symbol.at), symbol.uuid),
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
            texts = SheetTexts(self.hierarchy, instance, self.netting.symbols_by_name)
            yield texts.fields(symbol.fields)
            instance = parent

    def _sheet_symbols(self, instance: SheetInstance) -> list[SheetSymbol]:
        """The sheet symbols around, innermost first; what they say of BOM, board and fitting holds for all inside."""
        found: list[SheetSymbol] = []
        while instance.symbol is not None and instance.parent is not None:
            parent = self.hierarchy.sheets[instance.parent]
            found.append(varied_sheet(instance.symbol, parent.path, self.hierarchy.variant))
            instance = parent
        return found


def file_name(hierarchy: Hierarchy, file: SheetFile) -> str:
    """The file's path from the root's folder, with forward slashes."""
    if not file.path or not hierarchy.root_path:
        return os.path.basename(file.path)
    folder = os.path.dirname(hierarchy.root_path)
    return os.path.relpath(os.path.abspath(file.path), folder).replace(os.sep, "/")


def place_on(hierarchy: Hierarchy, sheet: SheetInstance, at: Point, uuid: str) -> Place:
    return Place(file_name(hierarchy, sheet.file), sheet.names, _mm(at), uuid)


def _fields(own: Mapping[str, str], placement: Placement, value: str) -> dict[str, str]:
    return {**own, "Reference": placement.reference, "Value": value, "Footprint": placement.footprint}


def _mm(at: Point) -> tuple[float, float]:
    return (at[0] / UNITS_PER_MM, at[1] / UNITS_PER_MM)
