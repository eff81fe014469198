"""What is joined on one sheet by drawing alone: wires, pins and labels that touch, before any name counts.

KiCad's rules, seen in 9.0.8:

* wire ends, pins, sheet pins, labels, junctions and no-connect flags join at a common point; the end of a wire and the
  end of a bus do so only if one of the others lies there too;
* a label with no pin, other label or flag at its point joins the one line under it, a bus before a wire; where two or
  more lines pass or end at its point it joins them all;
* a pin of type no_connect joins nothing;
* a bus entry is a short wire whose end on a bus touches nothing.
"""

from typing import NamedTuple

from tabside.model.groups import Numbered
from tabside.read.kicad.sheet_file import LibSymbol, Point, SheetFile
from tabside.read.nets.geometry import PlacedPin, lib_symbol, placed_pins, refuse_too_many
from tabside.read.nets.lines import Line, LineIndex, break_lines, merge_lines

_LABEL_SLACK = 1  # a label holds to a line one unit (100 nm) beside it


class Knot:
    """Things of one sheet that are joined by drawing."""

    __slots__ = ("flagged", "labels", "pins", "sheet_pins")

    def __init__(self) -> None:
        self.pins: list[int] = []  # places in SheetKnots.pins
        self.labels: list[int] = []  # places in SheetFile.labels, directives included
        self.sheet_pins: list[tuple[int, int]] = []  # places in SheetFile.sheets and its pins
        self.flagged = False  # a no-connect flag is joined to it


class SheetKnots(NamedTuple):
    """One sheet file drawn with one choice of units."""

    pins: list[PlacedPin]
    pins_of: list[list[int]]  # for each symbol of the file its pins
    knots: list[Knot]  # each pin, label and sheet pin is in exactly one
    wires: list[Line]  # merged and broken at what joins
    buses: list[Line]
    lines: LineIndex  # buses first, then wires
    held_lines: dict[int, list[int]]  # label, or behind all labels sheet pin -> lines (as `lines` has them) under it


def tie(file: SheetFile, units: tuple[int, ...], kicad: int = 9) -> SheetKnots:
    """The knots of a sheet file by the rules of this KiCad; `units` says for each symbol which unit is placed."""
    entry_ends = [end for entry in file.bus_entries for end in entry]
    breaks = [*file.junctions, *entry_ends]
    wires = break_lines(merge_lines(file.wires), breaks)
    buses = break_lines(merge_lines(file.buses), breaks)
    pins: list[PlacedPin] = []
    pins_of: list[list[int]] = []
    for index, unit in enumerate(units):
        here = placed_pins(file, index, unit, kicad)
        pins_of.append(list(range(len(pins), len(pins) + len(here))))
        pins += here
        refuse_too_many(len(pins), file)
    return _Tying(file, wires, buses, pins, pins_of).tied(parts_join=kicad >= 10)


def ties_alike(file: SheetFile) -> bool:
    """Whether KiCad 9 and 10 make the same knots of it: no numbers like [1-3], nothing joined inside a part."""
    numbers = [pin.number for symbol in file.lib_symbols.values() for pin in symbol.pins]
    numbers += [number for symbol in file.symbols for number in symbol.own_pins]
    joining = any(symbol.jumper_groups or symbol.duplicate_numbers_join for symbol in file.lib_symbols.values())
    return not joining and not any(number.startswith("[") for number in numbers)


class _Tying:
    """Nodes are numbered as they come up; `groups` says which are joined."""

    def __init__(
        self, file: SheetFile, wires: list[Line], buses: list[Line], pins: list[PlacedPin], pins_of: list[list[int]]
    ) -> None:
        self.file, self.wires, self.buses, self.pins, self.pins_of = file, wires, buses, pins, pins_of
        self.groups = Numbered()
        self.wire_ends: dict[Point, int] = {}
        self.bus_ends: dict[Point, int] = {}
        self.spots: dict[Point, int] = {}  # whatever is not a line
        self.flags = set(file.no_connects)
        self.index = LineIndex([*buses, *wires])

    def tied(self, *, parts_join: bool) -> SheetKnots:
        self._add_lines()
        self._add_entries()
        pin_nodes = self._pin_nodes()
        sheet_pin_nodes = [
            (s, p, self._spot(pin.at)) for s, sh in enumerate(self.file.sheets) for p, pin in enumerate(sh.pins)
        ]
        for point in (*self.file.junctions, *self.flags):
            self._spot(point)
        label_nodes = [self._spot(label.at) for label in self.file.labels]
        for point, node in self.spots.items():
            for ends in (self.wire_ends, self.bus_ends):
                if point in ends:
                    self.groups.join(ends[point], node)
        labelled = self._hold_to_lines()
        if parts_join:
            self._join_inside_parts(pin_nodes)
        return SheetKnots(
            self.pins,
            self.pins_of,
            self._knots(pin_nodes, label_nodes, sheet_pin_nodes),
            self.wires,
            self.buses,
            self.index,
            labelled,
        )

    def _pin_nodes(self) -> list[int]:
        nodes: list[int] = []
        for pin in self.pins:
            if pin.joins_nothing:
                nodes.append(nodes[-1] if pin.stacked else self.groups.add())
            else:
                nodes.append(self._spot(pin.at))
        return nodes

    def _node(self, at: dict[Point, int], point: Point) -> int:
        node = at.get(point)
        if node is None:
            node = at[point] = self.groups.add()
        return node

    def _join_ends(self, at: dict[Point, int], a: Point, b: Point) -> None:
        first = self._node(at, a)
        self.groups.join(self._node(at, b), first)

    def _spot(self, point: Point) -> int:
        return self._node(self.spots, point)

    # Lines

    def _add_lines(self) -> None:
        for a, b in self.buses:
            self._join_ends(self.bus_ends, a, b)
        for a, b in self.wires:
            self._join_ends(self.wire_ends, a, b)

    def _add_entries(self) -> None:
        for entry in self.file.bus_entries:
            nodes = [self.groups.add() if self._on_bus(end) else self._node(self.wire_ends, end) for end in entry]
            self.groups.join(nodes[1], nodes[0])

    def _on_bus(self, point: Point) -> bool:
        return point in self.bus_ends or any(n < len(self.buses) for n in self.index.under(point))

    def _line_node(self, line: int) -> int:
        if line < len(self.buses):
            return self.bus_ends[self.buses[line][0]]
        return self.wire_ends[self.wires[line - len(self.buses)][0]]

    def _hold_to_lines(self) -> dict[int, list[int]]:
        """Join labels and sheet pins to the lines under them; returns which holds to which lines."""
        crowd: dict[Point, int] = {}
        things = [*(label.at for label in self.file.labels), *(p.at for s in self.file.sheets for p in s.pins)]
        for point in (*things, *self.flags, *(pin.at for pin in self.pins)):
            crowd[point] = crowd.get(point, 0) + 1
        held_by: dict[int, list[int]] = {}
        for number, point in enumerate(things):
            is_label = number < len(self.file.labels)
            lines = self.index.under(point)
            if is_label and len(lines) > 1:
                held = lines
            elif crowd[point] == 1:
                held = (lines or self.index.under(point, _LABEL_SLACK))[:1]
            else:
                held = []
            for line in held:
                self.groups.join(self._line_node(line), self.spots[point])
            if held:
                held_by[number] = held
        return held_by

    # KiCad 10

    def _join_inside_parts(self, pin_nodes: list[int]) -> None:
        """Join what a part joins inside itself, by its library symbol's word: KiCad 10 counts that as drawn."""
        for symbol, pins in zip(self.file.symbols, self.pins_of, strict=True):
            library = lib_symbol(self.file, symbol)
            if library is None or not (library.jumper_groups or library.duplicate_numbers_join):
                continue
            for group in _groups_inside(library, [self.pins[pin] for pin in pins], pins):
                for other in group[1:]:
                    self.groups.join(pin_nodes[other], pin_nodes[group[0]])

    # Result

    def _knots(
        self, pin_nodes: list[int], label_nodes: list[int], sheet_pin_nodes: list[tuple[int, int, int]]
    ) -> list[Knot]:
        knots: dict[int, Knot] = {}

        def knot(node: int) -> Knot:
            root = self.groups.root(node)
            if root not in knots:
                knots[root] = Knot()
            return knots[root]

        for pin, node in enumerate(pin_nodes):
            knot(node).pins.append(pin)
        for label, node in enumerate(label_nodes):
            knot(node).labels.append(label)
        for sheet, pin, node in sheet_pin_nodes:
            knot(node).sheet_pins.append((sheet, pin))
        for point in self.flags:
            root = self.groups.root(self.spots[point])
            if root in knots:
                knots[root].flagged = True
        return list(knots.values())


def _groups_inside(library: LibSymbol, pins: list[PlacedPin], numbers: list[int]) -> list[list[int]]:
    """Pins (by their place in the sheet) that the part joins; pins of type no_connect stay alone."""
    by_number: dict[str, list[int]] = {}
    for pin, number in zip(pins, numbers, strict=True):
        if not pin.joins_nothing:
            by_number.setdefault(pin.number, []).append(number)
    groups = [[n for number in group for n in by_number.get(number, ())] for group in library.jumper_groups]
    if library.duplicate_numbers_join:
        groups += by_number.values()
    return [group for group in groups if len(group) > 1]
