"""What KiCad would drop or merge in silence, one line each."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator

from tabside.model.drawing import DrawnSymbol
from tabside.read.kicad.sheet_file import Hierarchy, SheetFile
from tabside.read.nets.geometry import lib_symbol


def reading_warnings(
    symbols: Iterable[DrawnSymbol], hierarchy: Hierarchy, file_name: Callable[[SheetFile], str]
) -> list[str]:
    """Lines about parts without annotation and symbols without library entry, each said once, in drawing order."""
    lines = [*_not_annotated(symbols), *_without_library(hierarchy, file_name)]
    return list(dict.fromkeys(lines))


def _not_annotated(symbols: Iterable[DrawnSymbol]) -> Iterator[str]:
    for symbol in symbols:
        if symbol.annotated or symbol.is_power or symbol.reference.startswith("#"):
            continue
        place = symbol.place
        where = f"{place.file}: sheet {place.sheet}, at ({place.at_mm[0]:g}, {place.at_mm[1]:g}) mm"
        if symbol.reference.endswith("?") or not symbol.reference:
            why = "is not annotated"
        else:
            why = "has no reference stored for this sheet"
        yield (
            f"{where}: {symbol.reference or 'a symbol without reference'} {why}; KiCad names no net by it and leaves "
            "out nets that have nothing else: annotate the schematic"
        )


def _without_library(hierarchy: Hierarchy, file_name: Callable[[SheetFile], str]) -> Iterator[str]:
    for file in {id(sheet.file): sheet.file for sheet in hierarchy.sheets}.values():
        for symbol in file.symbols:
            if lib_symbol(file, symbol) is None:
                yield (
                    f"{file_name(file)}: {symbol.fields.get('Reference', '?')}: the file holds no library symbol "
                    f"{symbol.lib_name or symbol.lib_id}; all its pins are taken to lie on its own point, "
                    "as KiCad has it: update it from the library"
                )
