"""All plugs of a board on one schematic sheet: the content of a design block, or a sheet file to place."""

from __future__ import annotations

import uuid
from collections.abc import Iterator, Mapping, Sequence
from typing import NamedTuple

from msgspec import Struct

from tabside.boards.parts.names import library_name, plain
from tabside.boards.parts.plug_symbol import REACH, STEP, PlugSymbol, symbol_node
from tabside.boards.views import BoardView
from tabside.kicad.symbol_nodes import effects_node, number_node, pair_node, symbol_format
from tabside.kicad.versions import Version
from tabside.read.kicad.text.sexpr import Atom, Node, laid_out

# Formats of schematic files; source: files saved by each version.
FORMATS: Mapping[int, int] = {6: 20211123, 7: 20230121, 8: 20231120, 9: 20250114}
_LEFT, _TOP = 50.8, 50.8  # where the frame begins
_GAP = STEP * 5  # between two plugs of a column: room for their texts
_MIDDLE = STEP * 4  # between the bodies of the two columns
_LETTER = 1.2  # mm: width of a letter of the heading, generously
BOARD_OF_SHEET = "${SHEETNAME}"  # a sheet placed twice is two boards


class Placed(NamedTuple):
    """A plug on the sheet; y downwards."""

    symbol: PlugSymbol
    at: tuple[float, float]
    mirrored: bool  # pins to the right


class Layout(Struct, frozen=True):
    placed: tuple[Placed, ...]
    frame: tuple[float, float, float, float]  # left, top, right, bottom


def sheet_text(view: BoardView, symbols: Sequence[PlugSymbol], version: Version, *, as_block: bool) -> str:
    """The schematic file.

    `as_block`: for a design block, its Board filled in; else a sheet file, whose Board is the name that the sheet is
    given where it is placed, with a label at each contact to wire it from the sheet above.
    """
    file_format = FORMATS[min(max(version[0], min(FORMATS)), max(FORMATS))]
    writer = _Writer(view, version, file_format, as_block)
    return laid_out(writer.tree(symbols, layout(symbols, view.heading))) + "\n"


def layout(symbols: Sequence[PlugSymbol], heading: str = "") -> Layout:
    """Plugs in two columns at the edges of one frame under its heading, their pins outwards."""
    half = (len(symbols) + 1) // 2
    columns = (symbols[:half], symbols[half:])
    widths = [max((symbol.right for symbol in column), default=0.0) for column in columns]
    left = _LEFT + STEP
    right = _grid(max(left + widths[0] + _MIDDLE + widths[1], _LEFT + len(heading) * _LETTER))
    placed: list[Placed] = []
    depths = []
    for column, x, mirrored in zip(columns, (left, right), (False, True), strict=True):
        y = _TOP + STEP * 3
        for symbol in column:
            y = round(y + _GAP, 4)
            placed.append(Placed(symbol, (x, round(y + symbol.top, 4)), mirrored))
            y = round(y + symbol.top - symbol.bottom, 4)
        depths.append(y)
    edge = right + STEP if columns[1] else max(left + widths[0], _LEFT + len(heading) * _LETTER) + STEP
    return Layout(tuple(placed), (_LEFT, _TOP, _grid(edge), round(max(depths) + STEP * 3, 4)))


def _grid(mm: float) -> float:
    return round(STEP * -(-mm // STEP), 4)


class _Writer(Struct, frozen=True):
    view: BoardView
    version: Version
    file_format: int
    as_block: bool

    def tree(self, symbols: Sequence[PlugSymbol], layout: Layout) -> Node:
        library = library_name(self.view)
        symbols_format = symbol_format(self.version)
        newer = self.file_format >= 20231120
        tree: Node = [Atom("kicad_sch"), pair_node("version", str(self.file_format))]
        tree.append([Atom("generator"), "tabside" if newer else Atom("tabside")])
        tree += [[Atom("generator_version"), f"{min(self.version[0], 9)}.0"]] if newer else []
        tree += [self._uuid("root"), [Atom("paper"), "A3"]]
        tree.append([Atom("lib_symbols"), *(symbol_node(s, f"{library}:{s.name}", symbols_format) for s in symbols)])
        tree += self._frame(layout)
        for placed in layout.placed:
            tree += [] if self.as_block else list(self._labels(placed))
            tree.append(self._symbol(placed, f"{library}:{placed.symbol.name}"))
        if self.file_format >= 20230121:
            tree.append([Atom("sheet_instances"), [Atom("path"), "/", [Atom("page"), "1"]]])
        return tree

    def _frame(self, layout: Layout) -> Iterator[Node]:
        left, top, right, bottom = layout.frame
        corners = [(left, top), (right, top), (right, bottom), (left, bottom), (left, top)]
        points: Node = [Atom("pts"), *([Atom("xy"), number_node(x), number_node(y)] for x, y in corners)]
        stroke: Node = [Atom("stroke"), [Atom("width"), number_node(0.254)], pair_node("type", "solid")]
        stroke += [[Atom("color"), *(Atom("0") for _ in range(4))]]
        yield [Atom("polyline"), points, stroke, self._uuid("frame")]
        lines = [(self.view.heading, 3.81)]
        if not self.as_block:
            lines.append(("Its Board is the name that you give this sheet.", 7.62))
        for text, down in lines:
            yield self._text(text, (left + STEP, round(top + down, 4)))

    def _text(self, text: str, at: tuple[float, float]) -> Node:
        node: Node = [Atom("text"), text]
        node += [pair_node("exclude_from_sim", "no")] if self.file_format >= 20231120 else []
        look = [*effects_node(), [Atom("justify"), Atom("left"), Atom("bottom")]]
        return [
            *node,
            [Atom("at"), number_node(at[0]), number_node(at[1]), Atom("0")],
            look,
            self._uuid(f"text {text}"),
        ]

    def _symbol(self, placed: Placed, lib_id: str) -> Node:
        symbol, (x, y) = placed.symbol, placed.at
        node: Node = [Atom("symbol"), [Atom("lib_id"), lib_id], [Atom("at"), number_node(x), number_node(y), Atom("0")]]
        node += [pair_node("mirror", "y")] if placed.mirrored else []
        node.append(pair_node("unit", "1"))
        node += [pair_node("exclude_from_sim", "no")] if self.file_format >= 20231120 else []
        node += [pair_node("in_bom", "yes"), pair_node("on_board", "yes")]
        node += [pair_node("dnp", "no")] if self.file_format >= 20230121 else []
        node.append(self._uuid(f"symbol {symbol.name}"))
        node += [self._field(k, name, text, placed) for k, (name, text) in enumerate(self._values(symbol).items())]
        node += [[Atom("pin"), number, self._uuid(f"pin {symbol.name} {number}")] for number, _ in symbol.plug.contacts]
        if self.file_format >= 20230121:
            path: Node = [Atom("path"), f"/{self._id('root')}", [Atom("reference"), f"{symbol.letters}?"]]
            node.append([Atom("instances"), [Atom("project"), "", [*path, pair_node("unit", "1")]]])
        return node

    def _values(self, symbol: PlugSymbol) -> Mapping[str, str]:
        board = self.view.board.name if self.as_block else BOARD_OF_SHEET
        own = {"Reference": f"{symbol.letters}?", "Value": symbol.plug.name, "Footprint": "", "Datasheet": "~"}
        described = {"Description": symbol.description} if self.file_format >= 20231120 else {}
        return {**own, **described, **symbol.fields, "Board": board}

    def _field(self, k: int, name: str, text: str, placed: Placed) -> Node:
        shown = placed.symbol.shown().get(name)
        dx, dy = shown or (0.0, 0.0)
        x = round(placed.at[0] + (-dx if placed.mirrored else dx), 4)
        node: Node = [Atom("property"), name, text]
        node += [pair_node("id", str(k))] if self.file_format < 20230121 else []
        node.append([Atom("at"), number_node(x), number_node(round(placed.at[1] - dy, 4)), Atom("0")])
        hide = Atom("hide") if self.file_format < 20250114 else pair_node("hide", "yes")
        return [*node, effects_node(None if shown else hide)]

    def _labels(self, placed: Placed) -> Iterator[Node]:
        """A label of the sheet above at each contact, named so that no two contacts are joined."""
        out = 1 if placed.mirrored else -1
        x = round(placed.at[0] + out * REACH, 4)
        for k, (number, signal) in enumerate(placed.symbol.plug.contacts):
            y = round(placed.at[1] - placed.symbol.top + STEP * k, 4)
            text = plain(f"{placed.symbol.plug.name}_{number}_{signal}")
            place: Node = [Atom("at"), number_node(x), number_node(y), Atom("180" if out < 0 else "0")]
            look = [*effects_node(), [Atom("justify"), Atom("right" if out < 0 else "left")]]
            yield [
                Atom("hierarchical_label"),
                text,
                pair_node("shape", "passive"),
                place,
                look,
                self._uuid(f"label {placed.symbol.name} {number}"),
            ]

    def _id(self, what: str) -> str:
        return str(uuid.uuid5(uuid.NAMESPACE_URL, f"tabside/boards/{self.view.board.name}/{what}"))

    def _uuid(self, what: str) -> Node:
        ident = self._id(what)
        return [Atom("uuid"), ident if self.file_format >= 20231120 else Atom(ident)]
