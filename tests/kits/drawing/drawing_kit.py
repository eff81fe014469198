"""Draws schematics for tests: `.kicad_sch` text that real KiCad opens.

    root = Sheet("boat")
    pilot = root.place(connector(["5V", "TX", "RX", "GND"]), (50.8, 50.8), reference="J1", fields={"Board": "pilot"})
    drive = root.place(connector(["5V", "TX", "RX", "GND"]), (50.8, 101.6), reference="J2", fields={"Board": "drive"})
    root.wire(pilot.pin("2"), drive.pin("3"))
    root.label("global", "+5V", pilot.pin("1"))
    path = root.write(tmp_path)

Lengths are in mm (times `grid`), y downwards.  A sub-sheet is a `Sheet` of its own, placed with `root.sheet(child,
"name", ...)` as often as wanted.  The n-th use of a sheet adds n * 100 to the numbers of its references, or `add`.
UUIDs follow from file, item and `seed`, so the same calls give the same bytes.  `turned` gives the whole drawing
rotated or mirrored, `nested` puts it into sheets of a new root.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from pathlib import Path

from drawing.drawing_items import (
    BusEntry,
    Item,
    Label,
    Line,
    Placed,
    Raw,
    RuleArea,
    Spot,
    Use,
    Writing,
    at_text,
    renumbered,
)
from drawing.drawing_symbols import (
    ORIENTATIONS,
    Pin,
    Point,
    Symbol,
    apply,
    connector,
    effects,
    multi_unit,
    multiply,
    part,
    power,
    power_flag,
    probe,
    quoted,
    two_pin,
)

__all__ = [
    "KICAD_6",
    "KICAD_7",
    "KICAD_8",
    "KICAD_9",
    "KICAD_10",
    "Pin",
    "Placed",
    "Sheet",
    "Symbol",
    "Use",
    "connector",
    "multi_unit",
    "nested",
    "part",
    "power",
    "power_flag",
    "probe",
    "turned",
    "two_pin",
]

KICAD_6, KICAD_7, KICAD_8, KICAD_9, KICAD_10 = 20211123, 20230121, 20231120, 20250114, 20260306
PROGRAM = {KICAD_6: "6.0", KICAD_7: "7.0", KICAD_8: "8.0", KICAD_9: "9.0", KICAD_10: "10.0"}


@dataclass(frozen=True)
class SheetUse:
    """One use of a sheet in the whole drawing."""

    sheet: Sheet
    path: str  # of UUIDs, the root's included
    names: str  # "/" for the root
    add: int  # to the numbers of references


class Sheet:
    """One schematic file, drawn call by call.  Positions are given in multiples of `grid` from `origin_mm`."""

    def __init__(self, name: str = "drawing", *, grid: float = 1.0, origin_mm: Point = (0.0, 0.0)) -> None:
        self.name = name  # file name without suffix, may hold folders
        self.grid = grid
        self.origin_mm = origin_mm
        self.items: list[Item] = []
        self.title_block: dict[str, str] = {}
        self.lib_text: list[str] = []  # further entries of lib_symbols, as they stand
        self.hidden_from_library: set[str] = set()  # lib_ids whose entry is left out
        self._keys = 0

    @property
    def file(self) -> str:
        return f"{self.name}.kicad_sch"

    def _mm(self, point: Point) -> Point:
        return (self.origin_mm[0] + point[0] * self.grid, self.origin_mm[1] + point[1] * self.grid)

    def _key(self) -> int:
        self._keys += 1
        return self._keys

    @property
    def _frame(self) -> tuple[float, Point]:
        return (self.grid, self.origin_mm)

    def place(
        self,
        symbol: Symbol,
        at: Point,
        angle: int = 0,
        mirror: str = "",
        *,
        reference: str | None = None,
        value: str | None = None,
        footprint: str = "",
        fields: Mapping[str, str] | None = None,
        unit: int = 1,
        style: int = 1,
        references: Mapping[int, str] | None = None,
        units: Mapping[int, int] | None = None,
        instances: bool = True,
        alternates: Mapping[str, str] | None = None,
        in_bom: bool = True,
        on_board: bool = True,
        dnp: bool = False,
        lib_id: str = "",
        lib_name: str = "",
        extra: str = "",
        instance_extra: str = "",
        pin_entries: bool = True,
    ) -> Placed:
        """Place a symbol.  Without a reference it is numbered by its prefix when the drawing is written.

        `references` and `units` are for single uses of the sheet, counted from 0; `instances=False` leaves the
        references out of the file, as in a drawing that was never annotated for this sheet path; `pin_entries=False`
        leaves the symbol's own list of its pins out.
        """
        flags = " ".join(
            f"({key} {'yes' if on else 'no'})" for key, on in (("in_bom", in_bom), ("on_board", on_board), ("dnp", dnp))
        )
        item = Placed(
            self._key(),
            symbol,
            self._mm(at),
            angle,
            mirror,
            reference,
            symbol.name if value is None else value,
            footprint,
            dict(fields or {}),
            unit,
            style,
            dict(references or {}),
            dict(units or {}),
            instances,
            dict(alternates or {}),
            flags,
            lib_id,
            lib_name,
            self._frame,
            extra,
            instance_extra,
            pin_entries,
        )
        self.items.append(item)
        return item

    def probes(self, **at: Point) -> None:
        """One-pin parts by reference: ``probes(P1=(0, 0), P2=(4, 0))``."""
        for reference, point in at.items():
            self.place(probe(), point, reference=reference)

    def wire(self, *points: Point) -> None:
        """Wires from point to point, one for each pair, as KiCad draws them."""
        self._lines("wire", points)

    def bus(self, *points: Point) -> None:
        self._lines("bus", points)

    def _lines(self, kind: str, points: Sequence[Point]) -> None:
        for a, b in pairwise(points):
            self.items.append(Line(self._key(), kind, (self._mm(a), self._mm(b))))

    def polyline(self, *points: Point) -> None:
        """A graphic line, which joins nothing."""
        self.items.append(Line(self._key(), "polyline", tuple(map(self._mm, points))))

    def rule_area(self, *points: Point) -> None:
        self.items.append(RuleArea(self._key(), "rule_area", tuple(map(self._mm, points))))

    def junction(self, *at: Point) -> None:
        self.items.extend(Spot(self._key(), "junction", self._mm(p)) for p in at)

    def no_connect(self, *at: Point) -> None:
        self.items.extend(Spot(self._key(), "no_connect", self._mm(p)) for p in at)

    def bus_entry(self, at: Point, end: Point) -> None:
        self.items.append(BusEntry(self._key(), self._mm(at), self._mm(end)))

    def label(
        self, kind: str, name: str, *at: Point, shape: str = "input", fields: Mapping[str, str] | None = None
    ) -> None:
        """A label of kind "local", "global" or "hierarchical" at each of the points."""
        for point in at:
            self.items.append(Label(self._key(), kind, name, self._mm(point), shape, dict(fields or {})))

    def directive(self, at: Point, net_class: str = "", fields: Mapping[str, str] | None = None) -> None:
        """A net-class directive, with fields of our own if wanted."""
        own = ({"Netclass": net_class} if net_class else {}) | dict(fields or {})
        self.items.append(Label(self._key(), "directive", "", self._mm(at), "round", own))

    def power(self, name: str, *at: Point, angle: int = 0) -> None:
        """A power symbol of this name at each of the points."""
        for point in at:
            self.place(power(name), point, angle, value=name)

    def text(self, words: str, at: Point) -> None:
        self.raw(f'(text {quoted(words)} (at {at_text(self._mm(at))} 0) {effects()} (uuid "{{uuid}}"))')

    def bus_alias(self, name: str, members: Iterable[str]) -> None:
        self.raw(f"(bus_alias {quoted(name)} (members {' '.join(map(quoted, members))}))")

    def raw(self, list_text: str) -> None:
        """Any list, as it stands in the file; `{uuid}` becomes a UUID."""
        self.items.append(Raw(self._key(), list_text))

    def sheet(
        self,
        child: Sheet,
        name: str,
        at: Point = (0.0, 0.0),
        size: Point = (20.0, 10.0),
        *,
        left: Sequence[str] = (),
        right: Sequence[str] = (),
        pins: Mapping[str, Point] | None = None,
        shapes: Mapping[str, str] | None = None,
        fields: Mapping[str, str] | None = None,
        file: str | None = None,
        add: int | None = None,
        flags: str = "",
    ) -> Use:
        """Place a sub-sheet.  Its pins lie on the edges, one step (2.54 mm, or `grid`) apart, or where `pins` says.

        `file` is written as the sheet's file in place of the child's own name; `add` is added to all references below.
        """
        step = 2.54 if self.grid == 1.0 else 1.0
        where = {n: (at[0], at[1] + step * (k + 1)) for k, n in enumerate(left)}
        where |= {n: (at[0] + size[0], at[1] + step * (k + 1)) for k, n in enumerate(right)}
        where |= dict(pins or {})
        placed = {n: (self._mm(p), (shapes or {}).get(n, "bidirectional")) for n, p in where.items()}
        item = Use(
            self._key(),
            child,
            name,
            self._mm(at),
            (size[0] * self.grid, size[1] * self.grid),
            placed,
            dict(fields or {}),
            child.file if file is None else file,
            add,
            self._frame,
            flags,
        )
        self.items.append(item)
        return item

    @property
    def children(self) -> list[Use]:
        return [item for item in self.items if isinstance(item, Use)]

    def lib_symbols(self, version: int) -> str:
        wanted: dict[str, str] = {}
        for item in self.items:
            if isinstance(item, Placed):
                name = item.lib_name or item.lib_id or item.symbol.lib_id
                if name not in self.hidden_from_library:
                    text = item.symbol.text(version, name if name != item.symbol.lib_id else None)
                    assert wanted.setdefault(name, text) == text, f"two symbols are called {name}"
        return "\n    ".join([*wanted.values(), *self.lib_text])

    def text_of(self, writing: Writing, root: bool, tail: str) -> str:
        """The file's text."""
        version = writing.version
        head = [
            f"(kicad_sch (version {version}) (generator {'eeschema' if version <= 20230221 else quoted('eeschema')})"
        ]
        if version >= 20231120:
            head.append(f"(generator_version {quoted(PROGRAM.get(version, '9.0'))})")
        head.append(f'(uuid {writing.quoted_uuid("file")})\n  (paper "A3")')
        if self.title_block:
            lines = [
                f"(comment {key[7:]} {quoted(value)})" if key.startswith("comment") else f"({key} {quoted(value)})"
                for key, value in self.title_block.items()
            ]
            head.append(f"(title_block {' '.join(lines)})")
        head.append(f"(lib_symbols {self.lib_symbols(version)})")
        body = [item.text(writing) for item in self.items]
        if root:
            body.append(tail)
        return "\n  ".join([*head, *(line for line in body if line)]) + "\n)\n"

    def uses(self, seed: str = "kit") -> list[SheetUse]:
        """All uses of all sheets of the drawing, this one as root, parents first."""
        counts: dict[int, int] = {}

        def walk(sheet: Sheet, path: str, names: str, added: int | None, depth: int) -> Iterator[SheetUse]:
            turn = counts.get(id(sheet), 0)
            counts[id(sheet)] = turn + 1
            yield SheetUse(sheet, path, names, 100 * turn if added is None else added)
            assert depth < 30, "a sheet holds itself"
            for use in sheet.children:
                below = f"{path}/{Writing(0, sheet.file, seed).uuid(use.key)}"
                more = added if use.add is None else (added or 0) + use.add
                yield from walk(use.child, below, f"{names}{use.name}/", more, depth + 1)

        return list(walk(self, "/" + Writing(0, self.file, seed).uuid("file"), "/", None, 0))

    def write(
        self,
        folder: Path,
        *,
        version: int = KICAD_9,
        seed: str = "kit",
        project: Mapping[str, object] | None = None,
        order: object = None,
    ) -> Path:
        """Write the drawing with all its sheets into a folder; the path of the root file.

        `project`: content of the project file, which is written only when this is given.  `order`: a function that
        takes a file's items and gives them in another order.
        """
        uses = self.uses(seed)
        auto = _numbered(uses)
        tail = _instances_text(self, uses, version, seed, auto)
        for sheet in {id(u.sheet): u.sheet for u in uses}.values():
            paths = tuple((u.path, u.add) for u in uses if u.sheet is sheet)
            writing = Writing(version, sheet.file, seed, paths, Path(self.name).name, auto)
            kept = sheet.items
            if callable(order):
                sheet.items = list(order(kept))
            path = folder / sheet.file
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(sheet.text_of(writing, sheet is self, tail), encoding="utf-8", newline="\n")
            sheet.items = kept
        if project is not None:
            (folder / f"{self.name}.kicad_pro").write_text(json.dumps(project, indent=2), encoding="utf-8")
        return folder / self.file


def _numbered(uses: Sequence[SheetUse]) -> dict[tuple[str, int], str]:
    """References for symbols that were placed without one, over the whole drawing."""
    symbols = [(u, item) for u in uses for item in u.sheet.items if isinstance(item, Placed)]
    taken = {renumbered(item.reference, u.add) for u, item in symbols if item.reference is not None}
    out: dict[tuple[str, int], str] = {}
    counts: dict[str, int] = {}
    for use, item in sorted(symbols, key=lambda pair: pair[1].key):
        if item.reference is not None:
            continue
        prefix = item.symbol.prefix
        while True:
            counts[prefix] = counts.get(prefix, 0) + 1
            name = f"{prefix}{counts[prefix]:02d}" if prefix.startswith("#") else f"{prefix}{counts[prefix]}"
            if name not in taken:
                break
        out[use.path, item.key] = name
    return out


def _instances_text(
    root: Sheet, uses: Sequence[SheetUse], version: int, seed: str, auto: Mapping[tuple[str, int], str]
) -> str:
    """The lists of pages and, before 20221002, of references at the end of the root file."""
    if version >= 20221002:
        return '(sheet_instances (path "/" (page "1")))'
    start = len(uses[0].path)
    pages = " ".join(f'(path {quoted(u.path[start:] or "/")} (page "{k}"))' for k, u in enumerate(uses, 1))
    rows = []
    for sheet in {id(u.sheet): u.sheet for u in uses}.values():
        own = [u for u in uses if u.sheet is sheet]
        writing = Writing(version, sheet.file, seed, tuple((u.path, u.add) for u in own), auto=auto)
        for item in sheet.items:
            if isinstance(item, Placed) and item.instances:
                rows.extend(
                    f"(path {quoted(f'{u.path[start:]}/{writing.uuid(item.key)}')}"
                    f" (reference {quoted(item.reference_in(writing, k))}) (unit {item.units.get(k, item.unit)})"
                    f" (value {quoted(item.value)}) (footprint {quoted(item.footprint)}))"
                    for k, u in enumerate(own)
                )
    return f"(sheet_instances {pages})\n  (symbol_instances\n    " + "\n    ".join(rows) + ")"


def turned(sheet: Sheet, angle: int = 0, mirror: str = "", *, by_mm: Point = (0.0, 0.0), name: str = "") -> Sheet:
    """The whole drawing, sub-sheets too, turned counter-clockwise about its origin, then mirrored, then moved.

    Files get `name` as a prefix (by default one that says what was done), so that they can stand beside the old ones.
    """
    matrix = multiply(ORIENTATIONS[angle, mirror], ((1, 0), (0, -1)))
    prefix = name or f"{'moved' if by_mm != (0.0, 0.0) else 'turned'}_{angle}{mirror}_"
    done: dict[int, Sheet] = {}

    def copy(old: Sheet) -> Sheet:
        if id(old) in done:
            return done[id(old)]
        new = Sheet(prefix + old.name, grid=old.grid, origin_mm=old.origin_mm)
        done[id(old)] = new
        new.title_block, new.lib_text = dict(old.title_block), list(old.lib_text)
        new.hidden_from_library, new._keys = set(old.hidden_from_library), old._keys
        ox, oy = apply(matrix, old.origin_mm)
        by = (old.origin_mm[0] - ox + by_mm[0], old.origin_mm[1] - oy + by_mm[1])
        for item in old.items:
            moved = item.moved(matrix, by)
            if isinstance(moved, Use):
                file = moved.file if moved.file != moved.child.file else prefix + moved.file
                moved = replace(moved, child=copy(moved.child), file=file)
            new.items.append(moved)
        return new

    return copy(sheet)


def nested(children: Mapping[str, Sheet], *, name: str = "root", add: Mapping[str, int] | None = None) -> Sheet:
    """A root that holds nothing but sheets without pins, by name; the same Sheet may stand under several names."""
    root = Sheet(name)
    for k, (label, child) in enumerate(children.items()):
        root.sheet(child, label, (25.4, 25.4 + 25.4 * k), (25.4, 12.7), add=(add or {}).get(label))
    return root
