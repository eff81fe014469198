"""Chains of drawn wires that join exactly two pins, with nothing between that could be an end."""

from __future__ import annotations

from tabside.read.kicad.sheet_file import Point, SheetFile
from tabside.read.nets.geometry import PlacedPin
from tabside.read.nets.knots import SheetKnots

_NO_END = "directive"  # label kind that does not break a run: net-class directives


def drawn_runs(file: SheetFile, sheet: SheetKnots, marks: set[int]) -> list[tuple[int, int]]:
    """Pairs of pins (places in `sheet.pins`, smaller first) joined by a chain of wires alone, or lying on each other.

    `marks` are pins that are no ends but lie on a wire like a net-class directive does (pins of power flags).  A pin
    that names its net, as a power symbol's does, counts as a label.
    """
    return _Chains(file, sheet, marks).found()


class _Chains:
    def __init__(self, file: SheetFile, sheet: SheetKnots, marks: set[int]) -> None:
        self.sheet = sheet
        self.ends: dict[Point, list[int]] = {}  # pins that can end a chain
        named = {label.at for label in file.labels if label.kind != _NO_END}
        named.update(pin.at for below in file.sheets for pin in below.pins)
        for number, pin in enumerate(sheet.pins):
            if pin.power:
                named.add(pin.at)
            elif number not in marks and not pin.joins_nothing:
                self.ends.setdefault(pin.at, []).append(number)
        entry_ends = {end for entry in file.bus_entries for end in entry}
        bus_ends = {end for bus in sheet.buses for end in bus}
        self.breaks = named | entry_ends | bus_ends | set(file.junctions)
        self.broken_wires = self._broken_wires(file)
        self.wires_at: dict[Point, list[int]] = {}
        for number, wire in enumerate(sheet.wires):
            for end in wire:
                self.wires_at.setdefault(end, []).append(number)

    def _broken_wires(self, file: SheetFile) -> set[int]:
        """Wires with a label or sheet pin on their middle, or tied to another wire by a directive on a crossing."""
        buses = len(self.sheet.buses)
        broken: set[int] = set()
        for label, lines in self.sheet.labelled_lines.items():
            if file.labels[label].kind == _NO_END:
                if len(lines) > 1 and any(not self._ends_at(line, file.labels[label].at) for line in lines):
                    broken.update(line - buses for line in lines)
            else:
                broken.update(line - buses for line in lines if not self._ends_at(line, file.labels[label].at))
        for below in file.sheets:
            for pin in below.pins:
                broken.update(line - buses for line in self.sheet.lines.under(pin.at))
        return {wire for wire in broken if wire >= 0}

    def _ends_at(self, line: int, point: Point) -> bool:
        buses = self.sheet.buses
        return point in (buses[line] if line < len(buses) else self.sheet.wires[line - len(buses)])

    def found(self) -> list[tuple[int, int]]:
        runs: dict[tuple[int, int], None] = {}
        for point, pins in self.ends.items():
            if pair := self._touching(pins):
                runs[pair] = None
            start = self._one_end(pins)
            if start is None:
                continue
            for wire in self.wires_at.get(point, ()):
                end = self._follow(point, wire)
                if end is not None and end != start:
                    runs[min(start, end), max(start, end)] = None
        return sorted(runs)

    def _touching(self, pins: list[int]) -> tuple[int, int] | None:
        """Two pins of different symbols lying on each other, and no third symbol's."""
        firsts: dict[int, int] = {}
        for pin in pins:
            firsts.setdefault(self._pin(pin).symbol, pin)
        return (min(firsts.values()), max(firsts.values())) if len(firsts) == 2 else None

    def _one_end(self, pins: list[int]) -> int | None:
        """The pin for all at one point: pins of one symbol stacked there are one end, others are several."""
        return pins[0] if len({self._pin(pin).symbol for pin in pins}) == 1 else None

    def _pin(self, pin: int) -> PlacedPin:
        return self.sheet.pins[pin]

    def _follow(self, start: Point, wire: int) -> int | None:
        """The pin at the other end of the chain that begins with this wire, None when something else ends it."""
        point = start
        seen: set[int] = set()
        while wire not in seen and wire not in self.broken_wires:
            seen.add(wire)
            a, b = self.sheet.wires[wire]
            point = b if point == a else a
            if point in self.ends:
                return self._one_end(self.ends[point])
            onward = self.wires_at[point]
            if point in self.breaks or len(onward) != 2:
                return None
            wire = onward[0] if onward[1] == wire else onward[1]
        return None
