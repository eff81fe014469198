"""Draws the icons of the buttons and of the package: `python -m tabside.kicad.icons` renews them.

Each icon is a few shapes on a square of one unit; a point's darkness is the share of its samples that lie inside.
"""

from __future__ import annotations

import struct
import zlib
from collections.abc import Callable, Sequence
from itertools import pairwise
from pathlib import Path

Colour = tuple[int, int, int]
Inside = Callable[[float, float], bool]
Shape = tuple[Inside, str]  # which points, and the colour's name; later shapes lie on top

SAMPLES = 4  # in each direction, for each point
BUTTON_SIZES = (24, 48)  # KiCad takes the larger one on screens of high resolution
PACKAGE_SIZE = 64

# The colours of lines and marks on KiCad's light and dark toolbars; our own choice.
THEMES: dict[str, dict[str, Colour]] = {
    "light": {
        "line": (52, 60, 70),
        "paper": (250, 250, 247),
        "lead": (196, 70, 30),
        "good": (24, 128, 74),
        "sign": (36, 88, 184),
    },
    "dark": {
        "line": (214, 220, 226),
        "paper": (58, 64, 72),
        "lead": (242, 142, 86),
        "good": (92, 206, 142),
        "sign": (126, 176, 255),
    },
}


def box(left: float, top: float, right: float, bottom: float) -> Inside:
    return lambda x, y: left <= x <= right and top <= y <= bottom


def stroke(points: Sequence[tuple[float, float]], width: float) -> Inside:
    """A line through the points, with round ends and corners."""
    pieces = list(pairwise(points))
    return lambda x, y: any(_distance_squared(x, y, *a, *b) <= width * width / 4 for a, b in pieces)


def _distance_squared(x: float, y: float, ax: float, ay: float, bx: float, by: float) -> float:
    dx, dy = bx - ax, by - ay
    length = dx * dx + dy * dy
    share = max(0.0, min(1.0, ((x - ax) * dx + (y - ay) * dy) / length)) if length else 0.0
    return (x - ax - share * dx) ** 2 + (y - ay - share * dy) ** 2


def _plug() -> list[Shape]:
    """A plug of three cavities with its leads hanging down."""
    leads: list[Shape] = [(stroke([(x, 0.44), (x, 0.94)], 0.07), "lead") for x in (0.2, 0.4, 0.6)]
    cavities: list[Shape] = [(box(x - 0.055, 0.16, x + 0.055, 0.32), "line") for x in (0.2, 0.4, 0.6)]
    return [*leads, (box(0.04, 0.06, 0.76, 0.48), "line"), (box(0.1, 0.12, 0.7, 0.42), "paper"), *cavities]


def _table() -> list[Shape]:
    """A sheet with a folded corner; on it a table of three rows and two columns, its head in colour."""
    corner: list[Shape] = [
        (_below_fold(0.12, 0.02, 0.88, 0.98, 0.2), "line"),
        (_below_fold(0.17, 0.07, 0.83, 0.93, 0.17), "paper"),
        (stroke([(0.68, 0.06), (0.68, 0.22), (0.84, 0.22)], 0.05), "line"),
    ]
    lines: list[Shape] = [(box(0.25, y, 0.75, y + 0.05), "line") for y in (0.5, 0.65, 0.8)]
    upright: list[Shape] = [(box(x, 0.32, x + 0.05, 0.85), "line") for x in (0.25, 0.45, 0.7)]
    return [*corner, (box(0.25, 0.32, 0.75, 0.5), "lead"), *lines, *upright]


def _below_fold(left: float, top: float, right: float, bottom: float, fold: float) -> Inside:
    """A box without its upper right corner."""
    return lambda x, y: left <= x <= right and top <= y <= bottom and (x - (right - fold)) <= (y - top)


def _small_plug(left: float, top: float) -> list[Shape]:
    """A plug of two cavities, its leads down."""
    middles = [left + 0.12, left + 0.27]
    leads: list[Shape] = [(stroke([(x, top + 0.3), (x, top + 0.5)], 0.07), "lead") for x in middles]
    frame: list[Shape] = [
        (box(left, top, left + 0.39, top + 0.34), "line"),
        (box(left + 0.05, top + 0.05, left + 0.34, top + 0.29), "paper"),
    ]
    cavities: list[Shape] = [(box(x - 0.045, top + 0.09, x + 0.045, top + 0.25), "line") for x in middles]
    return [*leads, *frame, *cavities]


def _unequal() -> list[Shape]:
    """The sign of what is not equal, between and below the two plugs."""
    bars: list[Shape] = [(stroke([(0.3, y), (0.7, y)], 0.09), "sign") for y in (0.7, 0.86)]
    return [*bars, (stroke([(0.4, 0.98), (0.6, 0.58)], 0.09), "sign")]


def _listed() -> list[Shape]:
    """A list: three marks, each with a line."""
    marks: list[Shape] = [(box(0.08, y - 0.08, 0.24, y + 0.08), "lead") for y in (0.2, 0.5, 0.8)]
    return [*marks, *[(stroke([(0.38, y), (0.9, y)], 0.1), "line") for y in (0.2, 0.5, 0.8)]]


ICONS: dict[str, list[Shape]] = {
    "check": [*_plug(), (stroke([(0.46, 0.72), (0.64, 0.9), (0.94, 0.5)], 0.13), "good")],
    "documents": _table(),
    "compare": [*_small_plug(0.02, 0.04), *_small_plug(0.59, 0.04), *_unequal()],
    "index": _listed(),
}


def pixels(shapes: Sequence[Shape], size: int, colours: dict[str, Colour]) -> list[bytes]:
    """Rows of red, green, blue and opacity."""
    return [b"".join(_pixel(shapes, x, y, size, colours) for x in range(size)) for y in range(size)]


def _pixel(shapes: Sequence[Shape], x: int, y: int, size: int, colours: dict[str, Colour]) -> bytes:
    hits: list[Colour] = []
    for sample in range(SAMPLES * SAMPLES):
        at_x = (x + (sample % SAMPLES + 0.5) / SAMPLES) / size
        at_y = (y + (sample // SAMPLES + 0.5) / SAMPLES) / size
        names = [name for inside, name in shapes if inside(at_x, at_y)]
        if names:
            hits.append(colours[names[-1]])
    if not hits:
        return bytes(4)
    mean = [round(sum(colour[part] for colour in hits) / len(hits)) for part in range(3)]
    return bytes([*mean, round(255 * len(hits) / (SAMPLES * SAMPLES))])


def png(rows: Sequence[bytes]) -> bytes:
    """Rows of red, green, blue and opacity as a PNG file.  Source: ISO/IEC 15948 (PNG)."""
    header = struct.pack(">IIBBBBB", len(rows[0]) // 4, len(rows), 8, 6, 0, 0, 0)  # 8 bits, colour with opacity
    unfiltered = b"".join(b"\0" + row for row in rows)
    chunks = ((b"IHDR", header), (b"IDAT", zlib.compress(unfiltered, 9)), (b"IEND", b""))
    return b"\x89PNG\r\n\x1a\n" + b"".join(
        struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data)) for kind, data in chunks
    )


# Path below this folder -> the icon, its size and its colours.
PICTURES: dict[str, tuple[str, int, dict[str, Colour]]] = {
    "package_icon.png": ("check", PACKAGE_SIZE, THEMES["light"]),
    **{
        f"loaded/icons/{name}-{theme}-{size}.png": (name, size, colours)
        for name in ICONS
        for theme, colours in THEMES.items()
        for size in BUTTON_SIZES
    },
}


def drawn(path: str) -> list[bytes]:
    """Rows of the picture."""
    name, size, colours = PICTURES[path]
    return pixels(ICONS[name], size, colours)


if __name__ == "__main__":
    for path in PICTURES:
        file = Path(__file__).parent / path
        file.parent.mkdir(exist_ok=True)
        file.write_bytes(png(drawn(path)))
