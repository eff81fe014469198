"""Reference, unit and value of each placed symbol on each sheet instance."""

from typing import NamedTuple

from tabside.read.kicad.sheet_file import Hierarchy, PlacedSymbol, SheetInstance

_IN_SYMBOLS = 20221002  # KiCad 6 keeps references in the root file, 7 in each symbol


class Placement(NamedTuple):
    """How one placed symbol is annotated on one sheet instance."""

    reference: str
    unit: int
    value: str
    footprint: str
    matched: bool  # the files say it for this very sheet instance; else the symbol's own field stands in
    kicad: int  # whose rules count

    @property
    def annotated(self) -> bool:
        """It has a reference that counts: KiCad 10 takes the symbol's own field where none is stored for the sheet."""
        said = self.matched or self.kicad >= 10
        return said and self.reference != "" and not self.reference.endswith("?")

    @property
    def names_nets(self) -> bool:
        """Its pins name nets: in KiCad 10 those of any part."""
        return self.annotated or self.kicad >= 10


def placements(hierarchy: Hierarchy, sheet: SheetInstance) -> list[Placement]:
    """One per symbol of the sheet's file, in file order."""
    root = hierarchy.sheets[0].file
    if root.version < _IN_SYMBOLS and root.symbol_instances:
        below_root = "/" + "/".join(sheet.path.split("/")[2:])
        start = below_root if below_root.endswith("/") else below_root + "/"
        return [_from_root_table(hierarchy, symbol, start, sheet.path) for symbol in sheet.file.symbols]
    return [_from_symbol(symbol, sheet.path, hierarchy.kicad) for symbol in sheet.file.symbols]


def _from_root_table(hierarchy: Hierarchy, symbol: PlacedSymbol, start: str, path: str) -> Placement:
    found = hierarchy.sheets[0].file.symbol_instances.get(start + symbol.uuid)
    if found is None:
        return _from_symbol(symbol, path, hierarchy.kicad)
    reference, unit, value, footprint = found
    own = _from_symbol(symbol, path, hierarchy.kicad)
    return Placement(reference, unit, value or own.value, footprint or own.footprint, True, hierarchy.kicad)


def _from_symbol(symbol: PlacedSymbol, path: str, kicad: int) -> Placement:
    fields = symbol.fields
    reference, unit = symbol.instances.get(path, (fields.get("Reference", ""), symbol.unit))
    matched = path in symbol.instances
    return Placement(reference, unit, fields.get("Value", ""), fields.get("Footprint", ""), matched, kicad)
