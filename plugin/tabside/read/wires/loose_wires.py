"""What looks joined on a sheet and is not: wires that nearly meet a pin, names that occur once, wires on each other."""

from collections import Counter
from collections.abc import Iterable, Iterator
from typing import NamedTuple

from tabside.model.drawing import LooseKind
from tabside.read.kicad.sheet_file import UNITS_PER_MM, Point, SheetFile
from tabside.read.nets.knots import SheetKnots

_NEAR = int(1.27 * UNITS_PER_MM)  # half of KiCad's usual grid


class LooseSpot(NamedTuple):
    """A place on one sheet."""

    kind: LooseKind
    at: Point
    pin: int | None = None  # place in SheetKnots.pins
    label: int | None = None  # place in SheetFile.labels


def loose_spots(file: SheetFile, sheet: SheetKnots) -> list[LooseSpot]:
    """Those that the drawing of one sheet shows, whatever is on the others."""
    if not file.wires:
        return []
    return [*_Spots(file, sheet).near(), *_overlapping(file, sheet)]


class _Spots:
    def __init__(self, file: SheetFile, sheet: SheetKnots) -> None:
        self.file, self.sheet = file, sheet
        self.ends = Counter(end for wire in file.wires if wire[0] != wire[1] for end in wire)
        self.things = set(_things(file))
        self.pins: dict[Point, list[int]] = {}
        for number, pin in enumerate(sheet.pins):
            if not pin.joins_nothing and pin.power != "pin":  # hidden ones are not drawn
                self.pins.setdefault(pin.at, []).append(number)
        self.cells: dict[tuple[int, int], list[Point]] = {}
        for at in self.pins:
            self.cells.setdefault((at[0] // _NEAR, at[1] // _NEAR), []).append(at)

    def near(self) -> Iterator[LooseSpot]:
        for at, numbers in self.pins.items():
            if at not in self.things and at not in self.ends and self._passes(at):
                yield LooseSpot(LooseKind.OVER_PIN, at, pin=numbers[0])
        for end, count in self.ends.items():
            if count > 1 or end in self.pins or end in self.things:
                continue
            if len([line for line in self.sheet.lines.under(end) if line >= len(self.sheet.buses)]) > 1:
                yield LooseSpot(LooseKind.ON_WIRE, end)
            elif (near := self._nearest(end)) is not None:
                yield LooseSpot(LooseKind.NEAR_PIN, end, pin=self.pins[near][0])

    def _passes(self, at: Point) -> bool:
        """Whether a wire passes without an end there."""
        buses = len(self.sheet.buses)
        return any(line >= buses and at not in self.sheet.wires[line - buses] for line in self.sheet.lines.under(at))

    def _nearest(self, end: Point) -> Point | None:
        column, row = end[0] // _NEAR, end[1] // _NEAR
        around = (at for x in (-1, 0, 1) for y in (-1, 0, 1) for at in self.cells.get((column + x, row + y), ()))
        near = [at for at in around if at not in self.ends and _distance(at, end) <= _NEAR]
        return min(near, key=lambda at: (_distance(at, end), at), default=None)


def _distance(a: Point, b: Point) -> float:
    return float(((a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2) ** 0.5)


def _things(file: SheetFile) -> Iterator[Point]:
    """Points where something other than a wire or a pin ends, or that are marked."""
    yield from file.junctions
    yield from file.no_connects
    yield from (label.at for label in file.labels)
    yield from (pin.at for below in file.sheets for pin in below.pins)
    yield from (end for entry in file.bus_entries for end in entry)


def _overlapping(file: SheetFile, sheet: SheetKnots) -> Iterator[LooseSpot]:
    """Wires on each other that KiCad's editor joins and its command line does not, or the other way round."""
    wires = {(min(wire), max(wire)) for wire in file.wires if wire[0] != wire[1]}
    if len(wires) <= len(sheet.wires) and len(wires) == len(set(sheet.wires)):
        return
    marks = {pin.at for pin in sheet.pins} | set(_things(file))
    ends = Counter(end for wire in wires for end in wire)
    for a, b in _on_each_other(wires):
        shared = set(a) & set(b)
        inner = [end for end in (*a, *b) if end not in shared and _inside(end, a if end in b else b)]
        if not shared or any(end in marks or ends[end] > 1 for end in inner):
            yield LooseSpot(LooseKind.ON_EACH_OTHER, inner[0] if inner else a[0])


def _on_each_other(wires: Iterable[tuple[Point, Point]]) -> Iterator[tuple[tuple[Point, Point], tuple[Point, Point]]]:
    """Neighbours on one straight line that share more than a point; level and upright ones."""
    tracks: dict[tuple[int, int], list[tuple[Point, Point]]] = {}
    for wire in wires:
        for axis in (0, 1):
            if wire[0][1 - axis] == wire[1][1 - axis]:
                tracks.setdefault((axis, wire[0][1 - axis]), []).append(wire)
    for (axis, _), on_track in tracks.items():
        on_track.sort(key=lambda wire: (wire[0][axis], wire[1][axis]))
        last = on_track[0]
        for wire in on_track[1:]:
            if wire[0][axis] < last[1][axis]:
                yield last, wire
            last = max(last, wire, key=lambda piece: piece[1][axis])


def _inside(point: Point, wire: tuple[Point, Point]) -> bool:
    (x1, y1), (x2, y2) = wire
    return point not in wire and x1 <= point[0] <= x2 and min(y1, y2) <= point[1] <= max(y1, y2)
