"""KiCad's footprints as their files have them: pads, and where the opening of a side-entry receptacle lies.

Source: KiCad's footprint library.  A body drawn on F.Fab reaches out from the row of pads towards the opening.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import sexpdata

Point = tuple[float, float]  # mm, y downwards


def lists(text: str, head: str) -> Iterator[list]:
    """All lists of a footprint file that begin with this word, parsed."""
    for found in re.finditer(rf"\({head}\s", text):
        depth = 0
        for letter in re.finditer(r'"(?:[^"\\]|\\.)*"|[()]', text[found.start() :]):
            depth += {"(": 1, ")": -1}.get(letter.group(), 0)
            if depth == 0:
                yield sexpdata.loads(text[found.start() : found.start() + letter.end()])
                break


def child(node: list, name: str) -> list:
    return next(item for item in node if isinstance(item, list) and str(item[0]) == name)


def numbered_pads(path: Path) -> dict[int, Point]:
    pads = {}
    for node in lists(path.read_text("utf-8"), "pad"):
        if str(node[1]).isdigit():
            at = child(node, "at")
            pads.setdefault(int(str(node[1])), (float(at[1]), float(at[2])))
    return pads


def row_with_opening_below(path: Path, pads: dict[int, Point]) -> list[int] | None:
    """Pad numbers from left to right, looking at the board with the opening turned towards the reader.

    None where the body shows no opening, or where there is no row.
    """
    body = [
        (float(point[1]), float(point[2]))
        for node in lists(path.read_text("utf-8"), "fp_(?:line|rect)")
        if str(child(node, "layer")[1]) == "F.Fab"
        for point in (child(node, "start"), child(node, "end"))
    ]
    if not body or len(pads) < 2:
        return None
    centre = [(min(axis) + max(axis)) / 2 for axis in zip(*body, strict=True)]
    row = [(min(axis) + max(axis)) / 2 for axis in zip(*pads.values(), strict=True)]
    first, last = pads[1], pads[max(pads)]
    along_x = abs(first[0] - last[0]) > abs(first[1] - last[1])
    across = centre[1] - row[1] if along_x else centre[0] - row[0]
    if not across:
        return None
    # Turned in the plane until the opening points down: (x, y) -> where x then lies.
    if along_x:
        turned = {n: x if across > 0 else -x for n, (x, _) in pads.items()}
    else:
        turned = {n: -y if across > 0 else y for n, (_, y) in pads.items()}
    return sorted(turned, key=turned.__getitem__)


def contact_1_side(path: Path, pads: dict[int, Point]) -> str | None:
    """Where pad 1 lies when the opening is turned towards the reader."""
    order = row_with_opening_below(path, pads)
    if order is None:
        return None
    return "left" if order.index(1) < order.index(max(pads)) else "right"
