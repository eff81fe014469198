"""The parts of a symbol as KiCad's files write them, in the format of each version."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from tabside.kicad.versions import Version
from tabside.read.kicad.text.sexpr import Atom, Node, laid_out

# Formats of symbol files; source: KiCad's own libraries of each version.
FORMATS: Mapping[int, int] = {6: 20211014, 7: 20220914, 8: 20231120, 9: 20241209}
IDS_UNTIL, UNQUOTED_UNTIL, BARE_HIDE_UNTIL = 20220914, 20231119, 20241004


def symbol_format(version: Version) -> int:
    """The format of a version of KiCad, or of the newest one known here."""
    return FORMATS[min(max(version[0], min(FORMATS)), max(FORMATS))]


def library_text_of(symbols: Iterable[Node], version: Version) -> str:
    """A symbol library of these symbols, in the format of a version of KiCad, or of the newest one known here."""
    file_format = symbol_format(version)
    tree: Node = [Atom("kicad_symbol_lib"), pair_node("version", str(file_format))]
    tree.append([Atom("generator"), "tabside" if file_format > UNQUOTED_UNTIL else Atom("tabside")])
    if file_format > UNQUOTED_UNTIL:
        tree.append([Atom("generator_version"), f"{min(version[0], 9)}.0"])
    return laid_out([*tree, *symbols]) + "\n"


def field_node(field: tuple[str, str, tuple[float, float], bool], number: int, file_format: int) -> Node:
    name, value, at, hidden = field
    node: Node = [Atom("property"), name, value]
    if file_format < IDS_UNTIL:
        node.append(pair_node("id", str(number)))
    node.append([Atom("at"), number_node(at[0]), number_node(at[1]), Atom("0")])
    return [*node, effects_node(hide_node(file_format) if hidden else None)]


def rectangle_node(start: tuple[float, float], end: tuple[float, float], width: float) -> Node:
    corners: Node = [Atom("rectangle"), point_node("start", start), point_node("end", end)]
    return [*corners, stroke_node(width), fill_node("background")]


def circle_node(centre: tuple[float, float], radius: float, fill: str) -> Node:
    shape: Node = [Atom("circle"), point_node("center", centre), [Atom("radius"), number_node(radius)]]
    return [*shape, stroke_node(0.254), fill_node(fill)]


def line_node(points: Sequence[tuple[float, float]], width: float, fill: str = "none") -> Node:
    through: Node = [Atom("pts"), *(point_node("xy", point) for point in points)]
    return [Atom("polyline"), through, stroke_node(width), fill_node(fill)]


def point_node(head: str, at: tuple[float, float]) -> Node:
    return [Atom(head), number_node(at[0]), number_node(at[1])]


def stroke_node(width: float) -> Node:
    return [Atom("stroke"), [Atom("width"), number_node(width)], pair_node("type", "default")]


def fill_node(kind: str) -> Node:
    return [Atom("fill"), pair_node("type", kind)]


def effects_node(hide: object = None) -> Node:
    size = [Atom("size"), Atom("1.27"), Atom("1.27")]
    return [Atom("effects"), [Atom("font"), size], *([] if hide is None else [hide])]


def hide_node(file_format: int) -> object:
    return Atom("hide") if file_format < BARE_HIDE_UNTIL else pair_node("hide", "yes")


def pair_node(head: str, word: str) -> Node:
    return [Atom(head), Atom(word)]


def number_node(value: float) -> Atom:
    return Atom(f"{value:.4f}".rstrip("0").rstrip(".") if value else "0")
