"""Stretches of drawn wire: everything that touches along wires and junctions without crossing the point of a pin.

Names do not cut a stretch, nor join two; a sheet pin and the labels that it means in the sheet below are one point.
"""

from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple

from tabside.model.groups import Numbered
from tabside.read.kicad.sheet_file import Point, SheetFile
from tabside.read.nets.knots import SheetKnots

Joint = tuple[int, ...]  # pins (places in SheetKnots.pins) that lie on one point


class SheetStretches(NamedTuple):
    """The stretches of one sheet, numbered; names of the sheet's borders and of what carries notes say which."""

    joints: list[list[Joint]]  # of each stretch, those at which it ends or that lie on it
    sheet_pins: dict[tuple[int, int], int]  # (place in SheetFile.sheets, its pin) -> stretch
    hier_labels: dict[int, int]  # place in SheetFile.labels -> stretch
    under_labels: dict[int, list[int]]  # every label -> the stretches that touch its point


def stretches_of(file: SheetFile, sheet: SheetKnots, names: set[int]) -> SheetStretches:
    """`names` are pins that name a net and are no ends: those of power symbols and flags."""
    return _Stretching(file, sheet, names).found()


class _Stretching:
    """Nodes are wires, then bus entries that are wires, then labels to the sheet above and sheet pins."""

    def __init__(self, file: SheetFile, sheet: SheetKnots, names: set[int]) -> None:
        self.file, self.sheet = file, sheet
        self.forest = Numbered(range(len(sheet.wires)))
        self.branches: dict[Point, list[int]] = {}  # nodes that touch a point
        self.ends: dict[Point, list[int]] = {}
        for number, pin in enumerate(sheet.pins):
            if number not in names and not pin.joins_nothing:
                self.ends.setdefault(pin.at, []).append(number)

    def found(self) -> SheetStretches:
        for wire, ends in enumerate(self.sheet.wires):
            self._touch(wire, ends)
        for entry in self.file.bus_entries:
            self._touch(self.forest.add(), [end for end in entry if not self._on_bus(end)])
        hier_labels = {}
        for number, label in enumerate(self.file.labels):
            if label.kind == "hierarchical":
                hier_labels[number] = self.forest.add()
                self._touch(hier_labels[number], [label.at])
        sheet_pins = {}
        for number, below in enumerate(self.file.sheets):
            for place, pin in enumerate(below.pins):
                sheet_pins[number, place] = self.forest.add()
                self._touch(sheet_pins[number, place], [pin.at])
        self._touch_held_lines()
        joints = self._joined()
        order = {root: number for number, root in enumerate(joints)}
        number_of = {node: order[root] for root, (nodes, _) in joints.items() for node in nodes}
        listed = [found for _, found in joints.values()]
        listed += [[joint] for joint in self._lying_on_each_other()]
        return SheetStretches(
            listed,
            {key: number_of[node] for key, node in sheet_pins.items()},
            {key: number_of[node] for key, node in hier_labels.items()},
            {n: sorted({number_of[node] for node in self._under(n)}) for n in range(len(self.file.labels))},
        )

    def _touch(self, node: int, points: Iterable[Point]) -> None:
        for point in points:
            touching = self.branches.setdefault(point, [])
            if node not in touching:
                touching.append(node)

    def _on_bus(self, point: Point) -> bool:
        buses = len(self.sheet.buses)
        return any(line < buses for line in self.sheet.lines.under(point))

    def _wires(self, lines: Sequence[int]) -> list[int]:
        buses = len(self.sheet.buses)
        return [line - buses for line in lines if line >= buses]

    def _touch_held_lines(self) -> None:
        """Labels and sheet pins on the middle of a wire touch it, as KiCad has it."""
        labels = self.file.labels
        pins = [pin for below in self.file.sheets for pin in below.pins]
        for number, lines in self.sheet.held_lines.items():
            at = labels[number].at if number < len(labels) else pins[number - len(labels)].at
            for wire in self._wires(lines):
                self._touch(wire, [at])

    def _joined(self) -> dict[int, tuple[list[int], list[Joint]]]:
        """Root -> its nodes and joints."""
        met: list[tuple[int, Joint]] = []
        for point, nodes in self.branches.items():
            pins = self.ends.get(point)
            if pins is None:
                for node in nodes[1:]:
                    self.forest.join(node, nodes[0])
            else:
                met += [(node, tuple(pins)) for node in nodes]
        found: dict[int, tuple[list[int], list[Joint]]] = {}
        nodes_in_all = {node: None for nodes in self.branches.values() for node in nodes}
        for node in sorted(nodes_in_all):
            found.setdefault(self.forest.root(node), ([], []))[0].append(node)
        for node, joint in met:
            joints = found[self.forest.root(node)][1]
            if joint not in joints:
                joints.append(joint)
        return found

    def _lying_on_each_other(self) -> Iterator[Joint]:
        """Points on which pins of several symbols lie: joined without a wire."""
        for pins in self.ends.values():
            if len({self.sheet.pins[pin].symbol for pin in pins}) > 1:
                yield tuple(pins)

    def _under(self, label: int) -> list[int]:
        return self.branches.get(self.file.labels[label].at, [])
