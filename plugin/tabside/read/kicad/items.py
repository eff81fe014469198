"""From the lists of a schematic file to plain data: symbols, sheets, wires and labels."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from tabside.read.kicad.library_symbol import TILDE_IS_TEXT
from tabside.read.kicad.sheet_file import Label, PlacedSymbol, Point, SheetPin, SheetSymbol, VariantChange, Variants
from tabside.read.kicad.text.sexpr import (
    Atom,
    Node,
    WrongContent,
    find,
    head_of,
    point,
    point_of,
    right_angle,
    text_at,
    text_of,
    truth,
)
from tabside.read.kicad.text.sexpr import whole_number as number_at

LABEL_KINDS = {
    "label": "local",
    "global_label": "global",
    "hierarchical_label": "hierarchical",
    "netclass_flag": "directive",
    "directive_label": "directive",  # read by kicad too
}
_NOT_OF_A_LABEL = ("Intersheetrefs", "Intersheet References")  # written by kicad, not by the person


def fields_of(node: Node, version: int) -> dict[str, str]:
    """The `property` lists of a symbol, sheet or label by name, in file order; of equal names the last one counts.

    Raises: WrongContent.
    """
    fields: dict[str, str] = {}
    for child in node:
        if isinstance(child, list) and child and child[0] == "property":
            at = 2 if len(child) > 3 and isinstance(child[1], Atom) and child[1] == "private" else 1
            fields[text_at(child, at)] = text_at(child, at + 1)
    return without_tildes(fields, version)


def without_tildes(fields: dict[str, str], version: int) -> dict[str, str]:
    """The same fields with `~`, which older files write for an empty value, as empty."""
    if version < TILDE_IS_TEXT and "~" in fields.values():
        return {name: "" if value == "~" else value for name, value in fields.items()}
    return fields


def placed_symbol(node: Node, fields: dict[str, str], version: int) -> PlacedSymbol:
    """The symbol in `(symbol (lib_id "LIB:NAME") (at X Y ANGLE) ...)`.  Raises: WrongContent."""
    texts = {"uuid": "", "lib_id": "", "lib_name": ""}
    flags = {"in_bom": True, "on_board": True, "dnp": False}
    unit = style = 1
    mirror = ""
    at: Node | None = None
    instances: Mapping[str, tuple[str, int]] = {}
    variants: Variants = {}
    alternates: dict[str, str] = {}
    for child in node:
        head = head_of(child)
        if head in texts:
            texts[head] = text_at(child, 1)
        elif head in flags:
            flags[head] = truth(child, head)
        elif head == "at":
            at = child
        elif head == "unit":
            unit = number_at(child, 1)
        elif head in ("convert", "body_style"):
            style = number_at(child, 1)
        elif head == "mirror":
            mirror = _mirror(child)
        elif head == "instances":
            instances = _instances(child)
            variants = _variants(child)
        elif head == "pin" and (alternate := find(child, "alternate")) is not None:
            alternates[text_at(child, 1)] = text_at(alternate, 1)
    if at is None:
        raise WrongContent("a symbol has no place (at X Y ANGLE)", node)
    return PlacedSymbol(
        uuid=texts["uuid"],
        lib_id=texts["lib_id"],
        lib_name=texts["lib_name"],
        at=point(at),
        angle=right_angle(at, 3),
        mirror=mirror,
        unit=unit,
        style=style,
        fields=fields,
        instances=instances,
        alternates=alternates,
        in_bom=flags["in_bom"],
        on_board=flags["on_board"],
        dnp=flags["dnp"],
        variants=variants,
    )


def own_pins(node: Node) -> tuple[str, ...]:
    """Numbers of the pins that a placed symbol lists itself, `(pin "1" (uuid ...))`.  Raises: WrongContent."""
    return tuple(text_at(child, 1) for child in node if head_of(child) == "pin")


def sheet_symbol(node: Node, version: int) -> SheetSymbol:
    """The sub-sheet in `(sheet (at X Y) (size W H) ...)`.  Raises: WrongContent."""
    fields = fields_of(node, version)
    pins = [
        SheetPin(text_at(child, 1), text_at(child, 2), point_of(child, "at"))
        for child in node
        if head_of(child) == "pin"
    ]
    flags = {
        head: truth(child, head) for head in ("in_bom", "on_board", "dnp") if (child := find(node, head)) is not None
    }
    return SheetSymbol(
        uuid=text_of(node, "uuid"),
        at=point_of(node, "at"),
        size=point_of(node, "size"),
        # KiCad 6 writes the names with a blank.
        name=fields.get("Sheetname", fields.get("Sheet name", "")),
        file=fields.get("Sheetfile", fields.get("Sheet file", "")),
        fields=fields,
        pins=tuple(pins),
        pages={text_at(path, 1): text_of(path, "page") for path in _paths(find(node, "instances") or [])},
        variants=_variants(find(node, "instances") or []),
        **flags,
    )


def label(node: Node, version: int) -> Label:
    """A label of any kind, net-class directives included.  Raises: WrongContent."""
    kind = LABEL_KINDS[node[0]]
    fields = fields_of(node, version)
    return Label(
        kind=kind,
        text="" if kind == "directive" else text_at(node, 1),
        at=point_of(node, "at"),
        shape=text_of(node, "shape"),
        fields={name: value for name, value in fields.items() if name not in _NOT_OF_A_LABEL},
        uuid=text_of(node, "uuid"),
    )


def line(node: Node) -> tuple[Point, Point]:
    """The ends of a wire or bus `(wire (pts (xy X Y) (xy X Y)))`.  Raises: WrongContent."""
    points = find(node, "pts")
    ends = [child for child in points if head_of(child) == "xy"] if points is not None else []
    if len(ends) != 2:
        raise WrongContent(f"a {node[0]} has two ends, (pts (xy X Y) (xy X Y)); this one has {len(ends)}", node)
    return (point(ends[0]), point(ends[1]))


def bus_entry(node: Node) -> tuple[Point, Point]:
    """Both ends of `(bus_entry (at X Y) (size W H))`.  Raises: WrongContent."""
    x, y = point_of(node, "at")
    width, height = point_of(node, "size")
    return ((x, y), (x + width, y + height))


def bus_alias(node: Node) -> tuple[str, tuple[str, ...]]:
    """Name and members of `(bus_alias "NAME" (members "A" "B"))`.  Raises: WrongContent."""
    members = find(node, "members") or []
    return (text_at(node, 1), tuple(text_at(members, index) for index in range(1, len(members))))


def symbol_instances(node: Node, version: int) -> dict[str, tuple[str, int, str, str]]:
    """KiCad 6's table in the root file: path -> reference, unit, value, footprint.  Raises: WrongContent."""
    table: dict[str, tuple[str, int, str, str]] = {}
    for child in node:
        if head_of(child) == "path":
            unit = find(child, "unit")
            texts = without_tildes({head: text_of(child, head) for head in ("value", "footprint")}, version)
            table[text_at(child, 1)] = (
                text_of(child, "reference"),
                1 if unit is None else number_at(unit, 1),
                texts["value"],
                texts["footprint"],
            )
    return table


def sheet_pages(node: Node) -> dict[str, str]:
    """The table `(sheet_instances (path "/SHEET" (page "2")) ...)` of the root file.  Raises: WrongContent."""
    return {text_at(child, 1): text_of(child, "page") for child in node if head_of(child) == "path"}


def title_block(node: Node) -> dict[str, str]:
    """Title, date, rev, company and comment1 to comment9.  Raises: WrongContent."""
    block: dict[str, str] = {}
    for child in node:
        head = head_of(child)
        if head == "comment":
            block[f"comment{text_at(child, 1)}"] = text_at(child, 2)
        elif head in ("title", "date", "rev", "company"):
            block[head] = text_at(child, 1)
    return block


def _instances(node: Node) -> dict[str, tuple[str, int]]:
    """Sheet path -> reference and unit, of all projects: a path begins with the root's uuid."""
    found: dict[str, tuple[str, int]] = {}
    for path in _paths(node):
        reference, unit = "", 1
        for child in path:
            if (word := head_of(child)) == "reference":
                reference = text_at(child, 1)
            elif word == "unit":
                unit = number_at(child, 1)
        found[text_at(path, 1)] = (reference, unit)
    return found


def _variants(instances: Node) -> Variants:
    """Sheet path -> variant's name -> what it changes (KiCad 10)."""
    found: dict[str, dict[str, VariantChange]] = {}
    for path in _paths(instances):
        for child in path:
            if head_of(child) == "variant":
                found.setdefault(text_at(path, 1), {})[text_of(child, "name")] = _variant_change(child)
    return found


def _variant_change(node: Node) -> VariantChange:
    flags: dict[str, bool] = {}
    fields: dict[str, str] = {}
    for child in node:
        head = head_of(child)
        if head in ("in_bom", "on_board", "dnp"):
            flags[head] = truth(child, head)
        elif head == "field":
            fields[text_of(child, "name")] = text_of(child, "value")
    return VariantChange(flags, fields)


def _paths(instances: Node) -> Iterator[Node]:
    """The `path` lists of `(instances (project "NAME" (path ...) ...) ...)`."""
    for project in instances:
        head = head_of(project)
        if head == "project":
            yield from (path for path in project if head_of(path) == "path")
        elif head == "path":  # early files of KiCad 7 have no project around them
            yield project


def _mirror(node: Node) -> str:
    if len(node) == 2 and node[1] in ("x", "y"):
        return str(node[1])
    raise WrongContent("a symbol is mirrored by (mirror x) or by (mirror y)", node)
