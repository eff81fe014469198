"""The symbol of a plug: its signals' names at its pins, and every field that the board file fills."""

from __future__ import annotations

from collections.abc import Mapping

from msgspec import Struct

from tabside.boards.views import BoardView, PlugView
from tabside.facts import families
from tabside.kicad.symbol_nodes import effects_node, field_node, line_node, number_node, pair_node, rectangle_node
from tabside.model.board import BoardPlug
from tabside.model.craft import Kind
from tabside.read.kicad.text.sexpr import Atom, Node

STEP = 2.54  # mm: KiCad's grid of pins
REACH = 5.08  # from the symbol's middle line to where its pins end
_PIN = 3.81
_LETTER = 1.3  # mm: width of a letter of the usual size, generously
_OFFSET = 0.762  # from the pin's root to its name
_DESCRIBED_AS_FIELD = 20231120  # from this format on, description and keywords have the names of fields
_FONTS_SINCE = 20241209


class PlugSymbol(Struct, frozen=True):
    """What a plug's symbol is made of; lengths in mm, y upwards as in libraries."""

    name: str
    plug: PlugView
    letters: str
    description: str
    fields: Mapping[str, str]

    @property
    def ways(self) -> int:
        return len(self.plug.contacts)

    @property
    def top(self) -> float:
        """The height of contact 1, on the grid of pins."""
        return round(STEP * ((self.ways - 1) // 2), 4)

    @property
    def bottom(self) -> float:
        return round(self.top - STEP * (self.ways - 1), 4)

    @property
    def right(self) -> float:
        """Where the body ends, so that the longest name fits."""
        longest = max(len(signal) for _, signal in self.plug.contacts)
        return max(3.81, round(STEP * -(-(longest * _LETTER + 2 * _OFFSET - 1.27) // STEP), 4))

    def shown(self) -> Mapping[str, tuple[float, float]]:
        """The fields that are seen, and where."""
        middle = round((self.right - 1.27) / 2, 4)
        return {
            "Reference": (middle, round(self.top + 5.08, 4)),
            "Value": (middle, round(self.top + 2.54, 4)),
            "Board": (middle, round(self.bottom - 2.54, 4)),
        }


def plug_symbol(view: BoardView, plug: PlugView, said: BoardPlug, name: str) -> PlugSymbol:
    """The symbol of one plug.  `Board` stays empty in the library, so that an update from it keeps the drawing's."""
    names = [pin_name(signal) for _, signal in plug.contacts]
    listed = {
        "Board": "",
        "Kind": plug.kind,
        "Family": said.fields.get("Family", "") or family_written(plug.family),
        "Signals": ", ".join(names) + ("," if len(names) == 1 else ""),
        **{field: said.fields.get(field, "") for field in ("Gives", "Takes", "Either", "Level", "Level max")},
        "Contact 1": plug.contact_1 or "",
        "Entry": plug.entry or "",
        "Tabs": plug.tabs_face or "",
        "Leads max": said.fields.get("Leads max", ""),
        "Isolated": said.fields.get("Isolated", ""),
        "Board file": view.board.name,
    }
    letters = "X" if plug.kind == Kind.SPLICE else "J"
    return PlugSymbol(name, plug, letters, f"{plug.name} of {view.heading}: {plug.what}", listed)


def family_written(family: str | None) -> str:
    """A family as a field says it."""
    if family is None:
        return ""
    known = families.family(family)
    return known.title if families.family_by_text(known.title) is known else known.id


def pin_name(signal: str) -> str:
    """KiCad's pins have no blanks in their names: it puts underscores there when it reads a file."""
    return "_".join(signal.split())


def symbol_node(symbol: PlugSymbol, lib_id: str, file_format: int) -> Node:
    """The symbol as a library writes it; in a schematic `lib_id` has the library's name in front."""
    node: Node = [Atom("symbol"), lib_id]
    node.append([Atom("pin_names"), [Atom("offset"), number_node(_OFFSET)]])
    node += [pair_node("exclude_from_sim", "no")] if file_format >= _DESCRIBED_AS_FIELD else []
    node += [pair_node("in_bom", "yes"), pair_node("on_board", "yes")]
    node += [field_node(field, k, file_format) for k, field in enumerate(_fields(symbol, file_format))]
    node.append([Atom("symbol"), f"{symbol.name}_0_1", *_body(symbol)])
    node.append([Atom("symbol"), f"{symbol.name}_1_1", *(_pin(symbol, k) for k in range(symbol.ways))])
    node += [pair_node("embedded_fonts", "no")] if file_format >= _FONTS_SINCE else []
    return node


def _fields(symbol: PlugSymbol, file_format: int) -> list[tuple[str, str, tuple[float, float], bool]]:
    described = "Description" if file_format >= _DESCRIBED_AS_FIELD else "ki_description"
    values = {
        "Reference": symbol.letters,
        "Value": symbol.plug.name,
        "Footprint": "",
        "Datasheet": "~",
        **symbol.fields,
        described: symbol.description,
        "ki_keywords": f"board {symbol.fields['Board file']} {symbol.plug.name}",
    }
    shown = symbol.shown()
    return [(name, text, shown.get(name, (0.0, 0.0)), name not in shown) for name, text in values.items()]


def _body(symbol: PlugSymbol) -> list[Node]:
    top, bottom = round(symbol.top + 1.27, 4), round(symbol.bottom - 1.27, 4)
    mark = [(-1.27, top), (-0.508, top), (-1.27, round(top - 0.762, 4)), (-1.27, top)]  # clear of the first name
    outline = rectangle_node((-1.27, top), (symbol.right, bottom), 0.254)
    return [outline, line_node(mark, 0.0, "outline")]


def _pin(symbol: PlugSymbol, k: int) -> Node:
    number, signal = symbol.plug.contacts[k]
    height = round(symbol.top - STEP * k, 4)
    place: Node = [Atom("at"), number_node(-REACH), number_node(height), Atom("0")]
    node: Node = [Atom("pin"), Atom("passive"), Atom("line"), place, [Atom("length"), number_node(_PIN)]]
    return [*node, [Atom("name"), pin_name(signal) or "~", effects_node()], [Atom("number"), number, effects_node()]]
