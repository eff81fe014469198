"""One schematic file as plain data: what carries wiring, nothing else.

`parse` fills it from text, `netlist` joins it.  Coordinates are KiCad's internal units: integers of 100 nm, 10 000 to
the millimetre, y downwards on the sheet (kicad rounds to them before it compares points; nothing else snaps).
"""

# Named tuples, for `nets` loads no msgspec; and no annotations as text, which named tuples compile one by one.

from collections.abc import Mapping
from typing import NamedTuple

Point = tuple[int, int]  # internal units, 100 nm
UNITS_PER_MM = 10_000
_NOTHING: Mapping[str, str] = {}


class LibPin(NamedTuple):
    """A pin of a library symbol, in library coordinates: y upwards, unit and body style as in the child's name."""

    number: str
    name: str
    electrical: str
    at: Point
    hidden: bool
    unit: int  # 0: in every unit
    style: int  # 0: in every body style
    alternates: Mapping[str, str] = _NOTHING  # name -> electrical type


class LibSymbol(NamedTuple):
    name: str
    pins: tuple[LibPin, ...]
    power: str  # "" (no power symbol), "global", "local" (KiCad 10)
    unit_count: int
    jumper_groups: tuple[tuple[str, ...], ...] = ()  # KiCad 10: pin numbers joined inside the part
    duplicate_numbers_join: bool = False  # KiCad 10: duplicate_pin_numbers_are_jumpers


class VariantChange(NamedTuple):
    """What a design variant of KiCad 10 says otherwise of a symbol, or of a sheet and all in it."""

    flags: Mapping[str, bool]  # of in_bom, on_board and dnp, those that it states
    fields: Mapping[str, str]


Variants = Mapping[str, Mapping[str, VariantChange]]  # path of the sheet instance -> name of the variant -> change
_NO_VARIANTS: Variants = {}


class PlacedSymbol(NamedTuple):
    uuid: str
    lib_id: str
    lib_name: str  # selects the entry of lib_symbols; "" means lib_id does
    at: Point
    angle: int  # 0, 90, 180, 270
    mirror: str  # "", "x", "y"
    unit: int
    style: int  # body style, 1 by default
    fields: dict[str, str]  # in file order, Reference, Value, Footprint included
    instances: Mapping[str, tuple[str, int]]  # sheet path "/ROOT/SHEET" -> (reference, unit); empty before 20221002
    alternates: Mapping[str, str]  # pin number -> chosen alternate function
    in_bom: bool
    on_board: bool
    dnp: bool
    own_pins: tuple[str, ...] = ()  # numbers that it lists itself; only where the file has no library symbol for it
    variants: Variants = _NO_VARIANTS


class SheetPin(NamedTuple):
    text: str
    shape: str  # input, output, bidirectional, ...
    at: Point


class SheetSymbol(NamedTuple):
    """A sub-sheet as placed in its parent."""

    uuid: str
    at: Point
    size: Point
    name: str
    file: str  # as written
    fields: dict[str, str]
    pins: tuple[SheetPin, ...]
    pages: Mapping[str, str] = _NOTHING  # path of the parent's sheet instance -> page number
    in_bom: bool = True  # these three act on everything inside
    on_board: bool = True
    dnp: bool = False
    variants: Variants = _NO_VARIANTS  # by the path of the parent's sheet instance


class Label(NamedTuple):
    kind: str  # "local", "global", "hierarchical", "directive"
    text: str  # as written, still escaped, variables not expanded; "" for directives
    at: Point
    shape: str
    fields: Mapping[str, str]  # own fields only (no Intersheetrefs)
    uuid: str


class SheetFile(NamedTuple):
    path: str  # absolute
    version: int
    uuid: str
    title_block: Mapping[str, str]  # title, date, rev, company, comment1 ...
    lib_symbols: Mapping[str, LibSymbol]
    symbols: tuple[PlacedSymbol, ...]
    sheets: tuple[SheetSymbol, ...]
    wires: tuple[tuple[Point, Point], ...]
    buses: tuple[tuple[Point, Point], ...]
    junctions: tuple[Point, ...]
    no_connects: tuple[Point, ...]
    bus_entries: tuple[tuple[Point, Point], ...]  # both ends: at, and at + size
    labels: tuple[Label, ...]
    bus_aliases: Mapping[str, tuple[str, ...]]
    symbol_instances: Mapping[
        str, tuple[str, int, str, str]
    ]  # before 20221002: path -> reference, unit, value, footprint
    data: bytes  # the file as it was read; a craft is known by its hash
    pages: Mapping[str, str] = _NOTHING  # KiCad 6: "/SHEET/SHEET" below the root -> page number


class SheetInstance(NamedTuple):
    """One use of a sheet file in the hierarchy."""

    file: SheetFile
    path: str  # KiCad's path of UUIDs: "/ROOT" for the root, "/ROOT/SHEET/..." below it
    names: str  # human path: "/" for the root, "/power/" below it
    depth: int
    symbol: SheetSymbol | None  # its symbol in the parent; None for the root
    parent: int | None  # index into Hierarchy.sheets
    page: str = ""  # page number as written; KiCad goes through all sheets in this order


class Hierarchy(NamedTuple):
    """All sheet instances, depth first and parents first; sheets beside each other in the order of their pages."""

    root_path: str  # absolute path of the root file ("" for an object without a path)
    sheets: tuple[SheetInstance, ...]
    text_variables: Mapping[str, str]  # of the project file
    bus_aliases: Mapping[str, tuple[str, ...]]  # of all files, and of the project file (KiCad 10)
    warnings: tuple[str, ...]
    kicad: int = 9  # whose rules make the nets: 9 (those of 6 to 9 alike) or 10
    variant: str = ""  # the design variant that is read; "" for the drawing as it is without one
