"""A file's tree with the marks in it, and whether two trees say the same."""

from __future__ import annotations

import re
from collections.abc import Mapping
from decimal import Decimal

from tabside.read.kicad.text.escapes import plain
from tabside.read.kicad.text.parsing import parse
from tabside.read.kicad.text.sexpr import Atom, BadBrackets, Node, find, head_of, text_at
from tabside.stamping.wanted import Values, same_field

_IDS_UNTIL = 20220914  # KiCad 6 numbers the fields of a symbol
_BARE_HIDE_UNTIL = 20231120  # KiCad 7 writes `hide`, 8 and later `(hide yes)`
_NUMBER = re.compile(r"[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?")


def tree_of(text: str) -> Node | None:
    """The tree of a file's text; None when it is not one closed list."""
    try:
        return parse(plain(text))
    except BadBrackets:
        return None


def with_marks(tree: Node, symbols: Mapping[str, Values], version: int) -> Node:
    """The same tree of file format `version`, in which the placed symbols of these uuids have these values."""
    return [
        symbol_with_marks(node, symbols[uuid_of(node)], version)
        if head_of(node) == "symbol" and uuid_of(node) in symbols
        else node
        for node in tree
    ]


def uuid_of(symbol: Node) -> str:
    """The uuid of a placed symbol, "" without one."""
    found = find(symbol, "uuid")
    return text_at(found, 1) if found is not None and len(found) > 1 else ""


def symbol_with_marks(symbol: Node, values: Values, version: int) -> Node:
    """A placed symbol with these values: set where it has the field, else in new hidden fields behind its others."""
    changed = [_set(child, values) if head_of(child) == "property" else child for child in symbol]
    names = [field_name(child) for child in changed if head_of(child) == "property"]
    missing = [name for name in values if values[name] and not any(same_field(name, known) for known in names)]
    behind = 1 + max(index for index, child in enumerate(changed) if head_of(child) in ("property", "uuid", "at"))
    at = find(symbol, "at") or [Atom("at"), Atom("0"), Atom("0")]
    new = [_field(name, values[name], at, version, len(names) + number) for number, name in enumerate(missing)]
    return [*changed[:behind], *new, *changed[behind:]]


def field_name(field: Node) -> str:
    return text_at(field, _first(field))


def value_index(field: Node) -> int:
    """Where the value of a `property` list stands in it."""
    return _first(field) + 1


def same(a: object, b: object) -> bool:
    """Whether two trees are equal; numbers count by their value (`0.0000` is `0.0`)."""
    if isinstance(a, list):
        return isinstance(b, list) and len(a) == len(b) and all(map(same, a, b))
    if isinstance(a, Atom) or isinstance(b, Atom):
        if not (isinstance(a, Atom) and isinstance(b, Atom)):
            return False
        return str(a) == str(b) or (_is_number(a) and _is_number(b) and Decimal(a) == Decimal(b))
    return a == b


def _first(field: Node) -> int:
    """KiCad 9 may put the word `private` before the name."""
    return 2 if len(field) > 3 and isinstance(field[1], Atom) and field[1] == "private" else 1


def _set(field: Node, values: Values) -> Node:
    name = field_name(field)
    value = next((value for known, value in values.items() if same_field(known, name)), None)
    if value is None:
        return field
    at = value_index(field)
    return [*field[:at], value, *field[at + 1 :]]


def _field(name: str, value: str, at: Node, version: int, number: int) -> Node:
    hide: object = Atom("hide") if version < _BARE_HIDE_UNTIL else [Atom("hide"), Atom("yes")]
    size = [Atom("size"), Atom("1.27"), Atom("1.27")]
    ident = [[Atom("id"), Atom(str(number))]] if version < _IDS_UNTIL else []
    place = [Atom("at"), at[1], at[2], Atom("0")]
    return [Atom("property"), name, value, *ident, place, [Atom("effects"), [Atom("font"), size], hide]]


def _is_number(word: str) -> bool:
    return _NUMBER.fullmatch(word) is not None
