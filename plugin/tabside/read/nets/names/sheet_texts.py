"""Text variables as they stand on one sheet instance, and the names that its labels and symbols give."""

from __future__ import annotations

import os
from collections.abc import Callable, Mapping
from functools import cached_property

from tabside.read.kicad.labels import expand, net_text
from tabside.read.kicad.placements import Placement, placements
from tabside.read.kicad.sheet_file import Hierarchy, Label, PlacedSymbol, SheetInstance
from tabside.read.nets.names.buses import NO_TEXT

_TITLE_BLOCK = {"TITLE": "title", "ISSUE_DATE": "date", "REVISION": "rev", "COMPANY": "company"} | {
    f"COMMENT{n}": f"comment{n}" for n in range(1, 10)
}


class SymbolsByName:
    """The symbols of all sheets as texts elsewhere name them; looked up when the first text does."""

    def __init__(self, hierarchy: Hierarchy) -> None:
        self._hierarchy = hierarchy

    @cached_property
    def found(self) -> Mapping[str, tuple[str, PlacedSymbol, Placement]]:
        """UUID, with KiCad 10 reference too -> path of its sheet, symbol, placement."""
        known: dict[str, tuple[str, PlacedSymbol, Placement]] = {}
        for sheet in self._hierarchy.sheets:
            placed = placements(self._hierarchy, sheet)
            for symbol, placement in zip(sheet.file.symbols, placed, strict=True):
                known.setdefault(symbol.uuid, (sheet.path, symbol, placement))
                if self._hierarchy.kicad >= 10:
                    known.setdefault(placement.reference, (sheet.path, symbol, placement))
        return known


class SheetTexts:
    """Expands texts that stand on one sheet instance."""

    def __init__(self, hierarchy: Hierarchy, sheet: SheetInstance, symbols: SymbolsByName) -> None:
        self._hierarchy, self._sheet, self._symbols = hierarchy, sheet, symbols

    def label(self, label: Label) -> str:
        """The label's text as it takes part in net names."""
        return self._net_text(label.text, label.fields)

    def sheet_pin(self, text: str) -> str:
        """A sheet pin's text; to be asked of the sheet below."""
        return self._net_text(text, {})

    def power_name(self, symbol: PlacedSymbol, value: str) -> str:
        """The name that a power symbol of this Value gives; KiCad 9 shows an empty one as "~"."""
        text = self._net_text(value, symbol.fields)
        return text or ("~" if self._hierarchy.kicad < 10 else NO_TEXT)

    def fields(self, drawn: Mapping[str, str]) -> Mapping[str, str]:
        """The fields of a symbol on this sheet, or of this sheet's own symbol, with their variables put in."""
        if not any("${" in text for text in drawn.values()):
            return drawn
        lookup = self._lookup(drawn)
        return {name: expand(text, lookup) if "${" in text else text for name, text in drawn.items()}

    def _net_text(self, text: str, fields: Mapping[str, str]) -> str:
        if "${" in text:
            text = expand(text, self._lookup(fields))
        return net_text(text)

    def _lookup(self, fields: Mapping[str, str]) -> Callable[[str], str | None]:
        def value(name: str) -> str | None:
            found = _field(fields, name)
            return self.variable(name) if found is None else found

        return value

    def variable(self, name: str) -> str | None:
        """The value of a variable on this sheet, None when it has none."""
        symbol = self._sheet.symbol
        if symbol is not None and (found := _field(symbol.fields, name)) is not None:
            return found
        if name == "SHEETNAME":
            return "" if symbol is None else symbol.name
        if name == "SHEETFILE":
            return os.path.basename(self._sheet.file.path) if symbol is None else symbol.file
        if name == "SHEETPATH":
            return self._sheet.names
        if ":" in name:
            return self._of_another(*name.split(":", 1))
        if name in _TITLE_BLOCK:
            return self._sheet.file.title_block.get(_TITLE_BLOCK[name], "")
        if name == "FILENAME":
            return os.path.basename(self._sheet.file.path)
        if name == "PROJECTNAME":
            return os.path.splitext(os.path.basename(self._hierarchy.root_path))[0]
        return self._hierarchy.text_variables.get(name)

    def _of_another(self, which: str, name: str) -> str | None:
        """A field of another symbol, ``${J1:VALUE}`` as shown: KiCad keeps the symbol's UUID in the file.

        KiCad 10 reads a reference written there, too; KiCad 9 does not.  Of several uses of a sheet both take the first
        (tried with their command lines, 9.0.8 and 10.0.7).
        """
        found = self._symbols.found.get(which)
        if found is None:
            return None
        path, symbol, placement = found
        if self._hierarchy.variant in symbol.variants.get(path, {}):
            return None
        own = {"REFERENCE": placement.reference, "VALUE": placement.value, "FOOTPRINT": placement.footprint}
        return _field({**symbol.fields, **own}, name.upper())


def _field(fields: Mapping[str, str], name: str) -> str | None:
    """The value of a field by its own name or by that in capitals, as KiCad looks for it."""
    if not fields:
        return None
    if name in fields:
        return fields[name]
    return next((value for field, value in fields.items() if field.upper() == name), None)
