"""Two ways to write a file with marks, which know nothing of each other: kicad-skip, and in place.

Neither is believed: what they give is read again and held against the tree that it should give.  kicad-skip lays the
whole file out anew, and some drawings it cannot load or write (a unit above the eleventh; a text that holds `(wire`).
In place, every other byte stays.
"""

from __future__ import annotations

import io
import logging
import re
from collections.abc import Iterator, Mapping
from contextlib import redirect_stdout
from typing import Any

import sexpdata

from tabside.read.kicad.text.parsing import parse
from tabside.read.kicad.text.sexpr import Atom, BadBrackets, Node, head_of, laid_out, quoted
from tabside.read.kicad.text.trimming import STRING, NotSeen, lists_in, lists_of
from tabside.stamping.tree import field_name, symbol_with_marks, uuid_of
from tabside.stamping.wanted import Values, same_field

_VALUE = re.compile(rf"(\(\s*+property\s++(?:private\s++)?{STRING}\s*+)({STRING})", re.ASCII)


def write_with_skip(source: str, target: str, symbols: Mapping[str, Values], version: int) -> bool:
    """Write the file at `source` with the marks to `target`; False when kicad-skip cannot."""
    import skip

    logging.getLogger("skip").addHandler(logging.NullHandler())  # it logs and prints what it cannot parse
    try:
        with redirect_stdout(io.StringIO()):
            schematic = skip.Schematic(source)
            for symbol in schematic.symbol:
                if symbol.uuid.value in symbols:
                    _set_fields(symbol, symbols[symbol.uuid.value], version)
            schematic.write(target)
    except Exception:  # whatever it stumbles over: then it is not the way
        return False
    return True


def _set_fields(symbol: Any, values: Values, version: int) -> None:
    for field in symbol.property:
        for name, value in values.items():
            if same_field(field_name(_own(field.raw)), name):  # its own `name` has blanks replaced
                field.value = value
    tree = symbol.raw
    for index, child in _new_fields(_own(tree), symbol_with_marks(_own(tree), values, version)):
        tree.insert(index, _theirs(child))


def _new_fields(before: Node, grown: Node) -> Iterator[tuple[int, Node]]:
    """(place in `grown`, field) of the fields that a symbol did not have."""
    known = {field_name(child) for child in before if head_of(child) == "property"}
    for index, child in enumerate(grown):
        if head_of(child) == "property" and field_name(child) not in known:
            yield index, child


def _own(node: list[Any]) -> Node:
    """sexpdata's lists as our own nodes."""
    return [_own_value(value) for value in node]


def _own_value(value: object) -> object:
    if isinstance(value, list):
        return _own(value)
    if isinstance(value, sexpdata.Symbol):
        return Atom(value.value())
    return value if isinstance(value, str) else Atom(str(value))


def _theirs(node: object) -> object:
    if isinstance(node, list):
        return [_theirs(child) for child in node]
    if isinstance(node, Atom):
        try:
            return float(node) if "." in node else int(node)
        except ValueError:
            return sexpdata.Symbol(str(node))
    return node


def text_in_place(text: str, symbols: Mapping[str, Values], version: int) -> str | None:
    """The file's text with the marks put into it, all other bytes as they are; None when its layout is not followed."""
    pieces, done = [], 0
    try:
        for head, written in lists_in(text):
            if head != "symbol" or (values := symbols.get(uuid_of(parse(written)))) is None:
                continue
            start = text.index(written, done)
            pieces += [text[done:start], _symbol_in_place(written, values, version)]
            done = start + len(written)
    except (NotSeen, BadBrackets):
        return None
    return "".join([*pieces, text[done:]])


def _symbol_in_place(written: str, values: Values, version: int) -> str:
    out, done, last = [], 0, 0
    for head, child in lists_of(written):
        start = written.index(child, done)
        out += [written[done:start], _field_in_place(child, values) if head == "property" else child]
        done = start + len(child)
        if head in ("property", "uuid", "at"):
            last = len(out)
    newline = "\r\n" if "\r\n" in written else "\n"
    grown = symbol_with_marks(parse(written), values, version)
    new = [f"\n{laid_out(node, 2)}".replace("\n", newline) for _, node in _new_fields(parse(written), grown)]
    return "".join([*out[:last], *new, *out[last:], written[done:]])


def _field_in_place(written: str, values: Values) -> str:
    name = field_name(parse(written))
    value = next((value for known, value in values.items() if same_field(known, name)), None)
    if value is None:
        return written
    return _VALUE.sub(lambda found: found[1] + quoted(value), written, count=1)
