"""Sheet files and hierarchies made by hand, without any text to parse.  Points are in whole millimetres."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from tabside.model.drawing import Drawing
from tabside.read.kicad.sheet_file import (
    UNITS_PER_MM,
    Hierarchy,
    Label,
    LibPin,
    LibSymbol,
    PlacedSymbol,
    Point,
    SheetFile,
    SheetInstance,
    SheetPin,
    SheetSymbol,
)

At = tuple[float, float]
KICAD_9 = 20250114


def units(at: At) -> Point:
    return (round(at[0] * UNITS_PER_MM), round(at[1] * UNITS_PER_MM))


def lib_pin(
    number: str,
    at: At = (0, 0),
    name: str = "",
    electrical: str = "passive",
    hidden: bool = False,
    unit: int = 1,
    style: int = 1,
    alternates: Mapping[str, str] | None = None,
) -> LibPin:
    return LibPin(number, name, electrical, units(at), hidden, unit, style, alternates or {})


def library(*pins: LibPin, power: str = "", unit_count: int = 1, **more: object) -> LibSymbol:
    return LibSymbol("t:S", pins, power, unit_count, **more)  # type: ignore[arg-type]


PROBE = library(lib_pin("1"))
TWO_PINS = library(lib_pin("1", (0, 2)), lib_pin("2", (0, -2)))
POWER = library(lib_pin("1", electrical="power_in"), power="global")
POWER_FLAG = library(lib_pin("1", electrical="power_out"), power="global")


class HandSheet:
    """Collects the content of one sheet file; its uses come with `hierarchy`."""

    def __init__(self, name: str = "root", version: int = KICAD_9) -> None:
        self.name, self.version = name, version
        self.lib_symbols: dict[str, LibSymbol] = {}
        self.symbols: list[PlacedSymbol] = []
        self.wires: list[tuple[Point, Point]] = []
        self.buses: list[tuple[Point, Point]] = []
        self.junctions: list[Point] = []
        self.no_connects: list[Point] = []
        self.bus_entries: list[tuple[Point, Point]] = []
        self.labels: list[Label] = []
        self.sheets: list[tuple[SheetSymbol, HandSheet]] = []
        self.paths: list[str] = []
        self.references: list[tuple[int, str, int]] = []

    def place(
        self,
        reference: str,
        at: At,
        symbol: LibSymbol = PROBE,
        *,
        value: str = "",
        angle: int = 0,
        mirror: str = "",
        unit: int = 1,
        style: int = 1,
        fields: Mapping[str, str] | None = None,
        alternates: Mapping[str, str] | None = None,
        annotated: bool = True,
    ) -> None:
        name = f"t:{id(symbol)}"
        self.lib_symbols[name] = symbol
        if annotated:
            self.references.append((len(self.symbols), reference, unit))
        own = {"Reference": reference, "Value": value, "Footprint": "", **(fields or {})}
        uuid = f"{self.name}-{len(self.symbols)}"
        self.symbols.append(
            PlacedSymbol(
                uuid, name, "", units(at), angle, mirror, unit, style, own, {}, alternates or {}, True, True, False
            )
        )

    def probes(self, **at: At) -> None:
        for reference, point in at.items():
            self.place(reference, point)

    def wire(self, *points: At) -> None:
        self.wires += zip(map(units, points), map(units, points[1:]), strict=False)

    def bus(self, *points: At) -> None:
        self.buses += zip(map(units, points), map(units, points[1:]), strict=False)

    def entry(self, a: At, b: At) -> None:
        self.bus_entries.append((units(a), units(b)))

    def label(self, kind: str, text: str, at: At, **fields: str) -> None:
        self.labels.append(Label(kind, text, units(at), "", fields, f"{self.name}-label-{len(self.labels)}"))

    def junction(self, *points: At) -> None:
        self.junctions += map(units, points)

    def no_connect(self, *points: At) -> None:
        self.no_connects += map(units, points)

    def sheet(self, child: HandSheet, name: str, **pins: At) -> None:
        self.pins(child, name, pins.items())

    def pins(self, child: HandSheet, name: str, pins: Iterable[tuple[str, At]]) -> None:
        """Like `sheet`, for texts that are no Python names."""
        made = tuple(SheetPin(text, "input", units(at)) for text, at in pins)
        fields = {"Sheetname": name, "Sheetfile": f"{child.name}.kicad_sch", "Board": f"board of {name}"}
        uuid = f"sheet-{self.name}-{len(self.sheets)}"
        symbol = SheetSymbol(uuid, (0, 0), units((10, 10)), name, f"{child.name}.kicad_sch", fields, made)
        self.sheets.append((symbol, child))


def hierarchy(
    root: HandSheet, *, variables: Mapping[str, str] | None = None, aliases: Mapping[str, tuple[str, ...]] | None = None
) -> Hierarchy:
    """References of a sheet's second use get "_1" behind them, of the third "_2"."""
    uses: list[tuple[HandSheet, str, str, int, SheetSymbol | None, int | None]] = []

    def walk(
        sheet: HandSheet, path: str, names: str, depth: int, symbol: SheetSymbol | None, parent: int | None
    ) -> None:
        index = len(uses)
        uses.append((sheet, path, names, depth, symbol, parent))
        for below, child in sheet.sheets:
            walk(child, f"{path}/{below.uuid}", f"{names}{below.name}/", depth + 1, below, index)

    walk(root, "/root", "/", 0, None, None)
    files = {id(sheet): _file(sheet, [use[1] for use in uses if use[0] is sheet]) for sheet, *_ in uses}
    return Hierarchy(
        root_path=f"/project/{root.name}.kicad_sch",
        sheets=tuple(SheetInstance(files[id(sheet)], *rest) for sheet, *rest in uses),
        text_variables=variables or {},
        bus_aliases=aliases or {},
        warnings=(),
    )


def _file(sheet: HandSheet, paths: list[str]) -> SheetFile:
    symbols = list(sheet.symbols)
    for index, reference, unit in sheet.references:
        instances = {path: (f"{reference}_{use}" if use else reference, unit) for use, path in enumerate(paths)}
        symbols[index] = symbols[index]._replace(instances=instances)
    return SheetFile(
        path=f"/project/{sheet.name}.kicad_sch",
        version=sheet.version,
        uuid="root",
        title_block={},
        lib_symbols=sheet.lib_symbols,
        symbols=tuple(symbols),
        sheets=tuple(symbol for symbol, _ in sheet.sheets),
        wires=tuple(sheet.wires),
        buses=tuple(sheet.buses),
        junctions=tuple(sheet.junctions),
        no_connects=tuple(sheet.no_connects),
        bus_entries=tuple(sheet.bus_entries),
        labels=tuple(sheet.labels),
        bus_aliases={},
        symbol_instances={},
        data=b"",
    )


def nets_of(drawing: Drawing) -> dict[str, list[str]]:
    """Name -> "REF.PIN" of the nets that KiCad lists, power symbols left out."""
    found: dict[str, list[str]] = {}
    for net in drawing.nets:
        pins = sorted(
            {
                f"{drawing.symbols[key[0]].reference}.{drawing.pin(key).number}"
                for key in net.pins
                if not drawing.symbols[key[0]].reference.startswith("#")
            }
        )
        if pins and not net.dropped:
            found.setdefault(net.name, []).extend(pins)
    return found


def stretches_of(drawing: Drawing) -> list[tuple[str, ...]]:
    """Each stretch as its "REF.PIN"."""

    def name(key: tuple[int, int]) -> str:
        return f"{drawing.symbols[key[0]].reference}.{drawing.pin(key).number}"

    return sorted(tuple(sorted(name(pin) for pin in each.pins)) for each in drawing.stretches)
