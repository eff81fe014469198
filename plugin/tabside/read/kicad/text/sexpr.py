"""S-expressions as nested lists, and typed access to them that says what is wrong where.

A tree is a list of `Atom` (a bare word or number, as written), `str` (quoted text) and lists.  Numbers stay text until
they are used, so that `007` and `1_000` are not taken for something else.
"""

from __future__ import annotations

import math
import re
from typing import Any

from tabside.read.kicad.sheet_file import UNITS_PER_MM, Point

Node = list[Any]

# kicad draws at most 0.7071 of what its 32-bit internal units hold, about 151 m; it clamps beyond, we refuse.
_FARTHEST = int(2_147_483_647 * 0.7071)
_NUMBER = re.compile(r"[+-]?(?:\d++\.?+\d*+|\.\d++)(?:[eE][+-]?\d++)?+", re.ASCII)


class Atom(str):
    """A bare word or number."""

    __slots__ = ()


class WrongContent(Exception):  # noqa: N818 - it becomes a TabsideError as soon as the place is known
    """A list that does not hold what a schematic must hold there."""

    def __init__(self, what: str, node: Node | None = None, index: int | None = None) -> None:
        super().__init__(what)
        self.what = what
        self.node = node
        self.index = index  # of the element of `node` that is wrong; None: the whole list


class BadBrackets(Exception):  # noqa: N818 - as above
    """Text that is no single, closed S-expression."""


def find(node: Node, head: str) -> Node | None:
    """The first list in `node` that begins with the word `head`."""
    for child in node:
        if isinstance(child, list) and child and child[0] == head:
            return child
    return None


def head_of(node: object) -> str:
    """The word that a list begins with; "" for anything else."""
    if isinstance(node, list) and node and isinstance(node[0], Atom):
        return node[0]
    return ""


def text_at(node: Node, index: int) -> str:
    """The text (quoted or bare) at `index` of a list.  Raises: WrongContent."""
    if index < len(node):
        value = node[index]
        if isinstance(value, str):
            return str(value)
    raise WrongContent(f"text is missing in {_shown(node)}", node, index)


def text_of(node: Node, head: str, absent: str = "") -> str:
    """The text in the child list `head`, `absent` without one.  Raises: WrongContent."""
    child = find(node, head)
    return absent if child is None else text_at(child, 1)


def whole_number(node: Node, index: int) -> int:
    """The whole number at `index` of a list.  Raises: WrongContent."""
    value = node[index] if index < len(node) else None
    if isinstance(value, Atom) and value.isascii() and value.removeprefix("-").isdigit() and len(value) < 12:
        return int(value)
    raise WrongContent(f"a whole number is expected in {_shown(node)}", node, index)


def truth(child: Node, head: str) -> bool:
    """Whether a list such as `(hide yes)`, `(hide)` or `(hide no)` says yes.  Raises: WrongContent."""
    if len(child) < 2:
        return True
    word = child[1] if isinstance(child[1], Atom) else ""
    if word in ("yes", "true"):
        return True
    if word in ("no", "false"):
        return False
    raise WrongContent(f"yes or no is expected in {_shown(child)}", child, 1)


class _Units(dict[str, int]):
    """Millimetres as written -> internal units of 100 nm, half away from zero as kicad rounds.  Remembers."""

    def __missing__(self, written: str) -> int:
        if not _NUMBER.fullmatch(written):
            raise ValueError(f"{written[:40]!r} is not a number")
        scaled = float(written) * UNITS_PER_MM
        if not abs(scaled) <= _FARTHEST:
            raise ValueError(f"{written[:40]} mm is farther out than a sheet can be (about 151 m)")
        units = math.floor(abs(scaled) + 0.5)
        if len(self) > 100_000:
            self.clear()
        self[written] = value = -units if scaled < 0 else units
        return value


_units = _Units()


def units_at(node: Node, index: int) -> int:
    """The length in mm at `index` of a list, in internal units of 100 nm.  Raises: WrongContent."""
    if index >= len(node) or not isinstance(node[index], Atom):
        raise WrongContent(f"a number is expected in {_shown(node)}", node, min(index, len(node)))
    try:
        return _units[node[index]]
    except ValueError as e:
        raise WrongContent(f"{e}, in {_shown(node)}", node, index) from None


def point(node: Node) -> Point:
    """The two lengths behind the head of a list such as `(at 10 20 90)`, in internal units.  Raises: WrongContent."""
    if len(node) > 2:
        x, y = node[1], node[2]
        if isinstance(x, Atom) and isinstance(y, Atom):
            try:
                return (_units[x], _units[y])
            except ValueError:
                pass  # said below, with the place
    return (units_at(node, 1), units_at(node, 2))


def point_of(node: Node, head: str) -> Point:
    """The point in the child list `head`.  Raises: WrongContent, also when there is no such list."""
    child = find(node, head)
    if child is None:
        raise WrongContent(f"({head} ...) is missing in {_shown(node)}", node)
    return point(child)


def right_angle(node: Node, index: int) -> int:
    """The angle at `index` of a list, one of 0, 90, 180, 270.  Raises: WrongContent."""
    value = node[index] if index < len(node) else None
    if isinstance(value, Atom) and _NUMBER.fullmatch(value):
        degrees = float(value)
        if degrees in (0.0, 90.0, 180.0, 270.0):
            return int(degrees)
        raise WrongContent(f"the angle is {value[:40]}; a symbol stands at 0, 90, 180 or 270", node, index)
    raise WrongContent(f"an angle is expected in {_shown(node)}", node, index if value is not None else None)


def _shown(node: Node) -> str:
    """The beginning of a list, short, for a message."""
    words = []
    for part in node[:3]:
        if isinstance(part, Atom):
            words.append(part[:30])
        elif isinstance(part, str):
            words.append('"' + part[:30] + '"')
        else:
            words.append("...")
            break
    return "(" + " ".join(words) + (" ...)" if len(node) > 3 and words[-1] != "..." else ")")


def laid_out(node: Node, depth: int = 0) -> str:
    """The text of a list as KiCad lays it out: each list in it on a line of its own, the innermost whole."""
    tabs = "\t" * depth
    words = [
        "\n" + laid_out(child, depth + 1)
        if isinstance(child, list)
        else f" {child if isinstance(child, Atom) else quoted(child)}"
        for child in node
    ]
    broken = any(isinstance(child, list) for child in node)
    return f"{tabs}({''.join(words).lstrip()}" + (f"\n{tabs})" if broken else ")")


def quoted(text: str) -> str:
    """A text as KiCad writes it, in quotes."""
    return '"' + text.replace("\\", "\\\\").replace('"', '\\"').replace("\n", "\\n").replace("\r", "\\r") + '"'
