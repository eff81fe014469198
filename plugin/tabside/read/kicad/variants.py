"""What a design variant of KiCad 10 makes of a symbol or a sheet.

As KiCad 10.0.7 has it in its bill of materials: flags and the values of fields that the symbol has.  Nets never depend
on a variant: a power symbol names its net by the Value that it has without one.
"""

from __future__ import annotations

from collections.abc import Mapping

from tabside.read.kicad.placements import Placement
from tabside.read.kicad.sheet_file import PlacedSymbol, SheetSymbol, VariantChange

_NOT_CHANGED = ("Reference", "Sheetname", "Sheetfile")  # KiCad takes no variant's word for these


def varied_symbol(
    symbol: PlacedSymbol, placement: Placement, path: str, variant: str
) -> tuple[PlacedSymbol, Placement]:
    """The symbol on the sheet instance of this path, as the variant has it."""
    change = symbol.variants.get(path, {}).get(variant)
    if change is None:
        return symbol, placement
    fields = _fields(symbol.fields, change)
    placement = placement._replace(
        value=change.fields.get("Value", placement.value), footprint=change.fields.get("Footprint", placement.footprint)
    )
    in_bom, on_board, dnp = _flags(symbol, change)
    return symbol._replace(fields=fields, in_bom=in_bom, on_board=on_board, dnp=dnp), placement


def varied_sheet(symbol: SheetSymbol, path: str, variant: str) -> SheetSymbol:
    """The sheet symbol on the sheet instance of this path, as the variant has it."""
    change = symbol.variants.get(path, {}).get(variant) if variant else None
    if change is None:
        return symbol
    in_bom, on_board, dnp = _flags(symbol, change)
    return symbol._replace(fields=_fields(symbol.fields, change), in_bom=in_bom, on_board=on_board, dnp=dnp)


def _flags(own: PlacedSymbol | SheetSymbol, change: VariantChange) -> tuple[bool, bool, bool]:
    said = change.flags
    return said.get("in_bom", own.in_bom), said.get("on_board", own.on_board), said.get("dnp", own.dnp)


def _fields(own: Mapping[str, str], change: VariantChange) -> dict[str, str]:
    changed = {name: value for name, value in change.fields.items() if name in own and name not in _NOT_CHANGED}
    return {**own, **changed}
