"""The items of a drawn sheet and how each stands in a `.kicad_sch` file.  Positions are in mm, y downwards."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING
from uuid import NAMESPACE_OID, uuid5

from drawing.drawing_symbols import ORIENTATIONS, Matrix, Point, Symbol, apply, effects, multiply, number, quoted

if TYPE_CHECKING:
    from drawing.drawing_kit import Sheet

LABEL_LISTS = {
    "local": "label",
    "global": "global_label",
    "hierarchical": "hierarchical_label",
    "directive": "netclass_flag",
}


@dataclass(frozen=True)
class Writing:
    """What the text of an item depends on beside the item: file version and the uses of its sheet."""

    version: int
    sheet: str  # file name, for UUIDs
    seed: str
    paths: tuple[tuple[str, int], ...] = ()  # (path of UUIDs, number added to references), one per use
    project: str = "kit"
    auto: Mapping[tuple[str, int], str] = field(default_factory=dict)  # (path, item) -> reference given by the kit

    def uuid(self, *key: object) -> str:
        return str(uuid5(NAMESPACE_OID, "/".join([self.seed, self.sheet, *map(str, key)])))

    def quoted_uuid(self, *key: object) -> str:
        return self.uuid(*key) if self.version <= 20230221 else quoted(self.uuid(*key))

    def property(self, name: str, value: str, at: Point, index: int = 0, hide: bool = False) -> str:
        ident = f" (id {index})" if self.version < 20220914 else ""
        look = effects(hide, self.version < 20241004)
        return f"(property {quoted(name)} {quoted(value)}{ident} (at {at_text(at)} 0) {look})"


def at_text(point: Point) -> str:
    return f"{number(point[0])} {number(point[1])}"


def renumbered(reference: str, add: int) -> str:
    """J1 and 100 give J101; what has no number stays."""
    found = re.fullmatch(r"(.*?)(\d+)", reference)
    return f"{found[1]}{int(found[2]) + add}" if found and add else reference


@dataclass
class Item:
    key: int

    def moved(self, matrix: Matrix, by: Point) -> Item:
        raise NotImplementedError

    def text(self, writing: Writing) -> str:
        raise NotImplementedError


def _moved(point: Point, matrix: Matrix, by: Point) -> Point:
    x, y = apply(matrix, point)
    return (x + by[0], y + by[1])


@dataclass
class Line(Item):
    kind: str  # wire, bus, polyline
    points: tuple[Point, ...]

    def moved(self, matrix: Matrix, by: Point) -> Line:
        return replace(self, points=tuple(_moved(p, matrix, by) for p in self.points))

    def text(self, writing: Writing) -> str:
        points = " ".join(f"(xy {at_text(p)})" for p in self.points)
        return f"({self.kind} (pts {points}) (stroke (width 0) (type default)) (uuid {writing.quoted_uuid(self.key)}))"


@dataclass
class RuleArea(Line):
    def text(self, writing: Writing) -> str:
        outline = Line(self.key, "polyline", self.points).text(writing)
        outline = outline.replace(" (uuid", " (fill (type none)) (uuid")
        return f"(rule_area {outline})"


@dataclass
class Spot(Item):
    kind: str  # junction, no_connect
    at: Point

    def moved(self, matrix: Matrix, by: Point) -> Spot:
        return replace(self, at=_moved(self.at, matrix, by))

    def text(self, writing: Writing) -> str:
        look = " (diameter 0) (color 0 0 0 0)" if self.kind == "junction" else ""
        return f"({self.kind} (at {at_text(self.at)}){look} (uuid {writing.quoted_uuid(self.key)}))"


@dataclass
class BusEntry(Item):
    at: Point
    end: Point

    def moved(self, matrix: Matrix, by: Point) -> BusEntry:
        return replace(self, at=_moved(self.at, matrix, by), end=_moved(self.end, matrix, by))

    def text(self, writing: Writing) -> str:
        size = (self.end[0] - self.at[0], self.end[1] - self.at[1])
        return (
            f"(bus_entry (at {at_text(self.at)}) (size {at_text(size)}) (stroke (width 0) (type default))"
            f" (uuid {writing.quoted_uuid(self.key)}))"
        )


@dataclass
class Label(Item):
    kind: str
    name: str
    at: Point
    shape: str
    fields: Mapping[str, str]
    angle: int = 0

    def moved(self, matrix: Matrix, by: Point) -> Label:
        x, y = apply(matrix, (1, 0))
        angle = {(1, 0): 0, (0, -1): 90, (-1, 0): 180, (0, 1): 270}[(round(x), round(y))]
        return replace(self, at=_moved(self.at, matrix, by), angle=(self.angle + angle) % 360)

    def text(self, writing: Writing) -> str:
        shape = "" if self.kind == "local" else f" (shape {self.shape})"
        length = " (length 2.54)" if self.kind == "directive" else ""
        fields = dict(self.fields)
        if self.kind == "global":
            fields = {"Intersheetrefs": "${INTERSHEET_REFS}"} | fields
        lines = "".join(
            "\n    " + writing.property(key, value, self.at, index, key == "Intersheetrefs")
            for index, (key, value) in enumerate(fields.items())
        )
        return (
            f"({LABEL_LISTS[self.kind]} {quoted(self.name)}{length}{shape} (at {at_text(self.at)} {self.angle})"
            f" {effects(justify='left bottom')} (uuid {writing.quoted_uuid(self.key)}){lines})"
        )


@dataclass
class Raw(Item):
    """A list as it stands, for what the kit does not draw.  `{uuid}` in it becomes one."""

    list_text: str

    def moved(self, matrix: Matrix, by: Point) -> Raw:
        return self

    def text(self, writing: Writing) -> str:
        return self.list_text.replace("{uuid}", writing.uuid(self.key))


@dataclass
class Placed(Item):
    """A placed symbol.  `pin` gives the sheet position of one of its pins, in the sheet's own units."""

    symbol: Symbol
    at: Point
    angle: int
    mirror: str
    reference: str | None
    value: str
    footprint: str
    fields: Mapping[str, str]
    unit: int
    style: int
    references: Mapping[int, str]  # use of the sheet, counted from 0 -> reference
    units: Mapping[int, int]  # use of the sheet -> unit
    instances: bool
    alternates: Mapping[str, str]
    flags: str
    lib_id: str
    lib_name: str
    frame: tuple[float, Point] = (1.0, (0.0, 0.0))
    extra: str = ""
    instance_extra: str = ""
    pin_entries: bool = True

    def pin(self, pin_number: str | int, nth: int = 0) -> Point:
        found = [p for p in self.symbol.pins_of(self.unit, self.style) if p.number == str(pin_number)][nth]
        x, y = apply(ORIENTATIONS[self.angle, self.mirror], found.at)
        grid, origin = self.frame
        return ((self.at[0] + x - origin[0]) / grid, (self.at[1] + y - origin[1]) / grid)

    def moved(self, matrix: Matrix, by: Point) -> Placed:
        wanted = multiply(matrix, ORIENTATIONS[self.angle, self.mirror])
        angle, mirror = next(key for key, value in ORIENTATIONS.items() if value == wanted)
        return replace(self, at=_moved(self.at, matrix, by), angle=angle, mirror=mirror)

    def reference_in(self, writing: Writing, use: int) -> str:
        path, add = writing.paths[use]
        if use in self.references:
            return self.references[use]
        if self.reference is None:
            return writing.auto.get((path, self.key), f"{self.symbol.prefix}?")
        return renumbered(self.reference, add)

    def text(self, writing: Writing) -> str:
        first = self.reference_in(writing, 0) if writing.paths else self.reference or "?"
        lines = [
            "(symbol",
            f"(lib_name {quoted(self.lib_name)})" if self.lib_name else "",
            f"(lib_id {quoted(self.lib_id or self.symbol.lib_id)}) (at {at_text(self.at)} {self.angle})",
            f"(mirror {self.mirror})" if self.mirror else "",
            f"(unit {self.unit})",
            f"({'body_style' if writing.version >= 20250827 else 'convert'} {self.style})" if self.style != 1 else "",
            self.flags if writing.version >= 20220914 else re.sub(r"\(dnp \w+\)", "", self.flags),
            f"(uuid {writing.quoted_uuid(self.key)})",
        ]
        own = {"Reference": first, "Value": self.value, "Footprint": self.footprint, "Datasheet": "~"}
        for index, (key, value) in enumerate((own | dict(self.fields)).items()):
            at = (self.at[0] + 2.54, self.at[1] - 2.54 - 1.27 * index)
            lines.append(writing.property(key, value, at, index, index > 1))
        pins = dict.fromkeys(p.number for p in self.symbol.pins)
        for digit in pins if self.pin_entries else ():
            chosen = f" (alternate {quoted(self.alternates[digit])})" if digit in self.alternates else ""
            lines.append(f"(pin {quoted(digit)} (uuid {writing.quoted_uuid(self.key, 'pin', digit)}){chosen})")
        if writing.version >= 20221002 and self.instances:
            uses = " ".join(
                f"(path {quoted(path)} (reference {quoted(self.reference_in(writing, use))})"
                f" (unit {self.units.get(use, self.unit)}){self.instance_extra})"
                for use, (path, _) in enumerate(writing.paths)
            )
            lines.append(f"(instances (project {quoted(writing.project)} {uses}))")
        return "\n    ".join(line for line in [*lines, self.extra] if line) + ")"


@dataclass
class Use(Item):
    """A sub-sheet's symbol.  `pin` gives the position of one of its sheet pins."""

    child: Sheet
    name: str
    at: Point
    size: Point
    pins: Mapping[str, tuple[Point, str]]  # name -> position, shape
    fields: Mapping[str, str]
    file: str
    add: int | None
    frame: tuple[float, Point] = (1.0, (0.0, 0.0))
    flags: str = ""

    def pin(self, name: str) -> Point:
        (x, y), _ = self.pins[name]
        grid, origin = self.frame
        return ((x - origin[0]) / grid, (y - origin[1]) / grid)

    def moved(self, matrix: Matrix, by: Point) -> Use:
        corners = [
            _moved(self.at, matrix, by),
            _moved((self.at[0] + self.size[0], self.at[1] + self.size[1]), matrix, by),
        ]
        low = (min(c[0] for c in corners), min(c[1] for c in corners))
        high = (max(c[0] for c in corners), max(c[1] for c in corners))
        pins = {name: (_moved(at, matrix, by), shape) for name, (at, shape) in self.pins.items()}
        return replace(self, at=low, size=(high[0] - low[0], high[1] - low[1]), pins=pins)

    def _side(self, at: Point) -> int:
        """The angle KiCad writes for a pin on this edge of the sheet."""
        distances = {
            0: abs(at[0] - self.at[0] - self.size[0]),
            90: abs(at[1] - self.at[1]),
            180: abs(at[0] - self.at[0]),
            270: abs(at[1] - self.at[1] - self.size[1]),
        }
        return min(distances, key=distances.__getitem__)

    def text(self, writing: Writing) -> str:
        old = writing.version < 20220914
        own = {"Sheet name" if old else "Sheetname": self.name, "Sheet file" if old else "Sheetfile": self.file}
        lines = [
            f"(sheet (at {at_text(self.at)}) (size {at_text(self.size)}) {self.flags if not old else ''}",
            "(stroke (width 0.1524) (type solid)) (fill (color 0 0 0 0.0000))",
            f"(uuid {writing.quoted_uuid(self.key)})",
        ]
        for index, (key, value) in enumerate((own | dict(self.fields)).items()):
            lines.append(writing.property(key, value, (self.at[0], self.at[1] - 1.27 * (index + 1)), index))
        for name, (at, shape) in self.pins.items():
            lines.append(
                f"(pin {quoted(name)} {shape} (at {at_text(at)} {self._side(at)}) {effects()}"
                f" (uuid {writing.quoted_uuid(self.key, 'pin', name)}))"
            )
        if not old and writing.paths:
            uses = " ".join(f'(path {quoted(path)} (page "{2 + k}"))' for k, (path, _) in enumerate(writing.paths))
            lines.append(f"(instances (project {quoted(writing.project)} {uses}))")
        return "\n    ".join(lines) + ")"
