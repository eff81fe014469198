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
    "light": {"line": (52, 60, 70), "paper": (250, 250, 247), "lead": (196, 70, 30), "good": (24, 128, 74)},
    "dark": {"line": (214, 220, 226), "paper": (58, 64, 72), "lead": (242, 142, 86), "good": (92, 206, 142)},
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


def _sheet(left: float, top: float) -> list[Shape]:
    return [
        (box(left, top, left + 0.58, top + 0.74), "line"),
        (box(left + 0.06, top + 0.06, left + 0.52, top + 0.68), "paper"),
    ]


def _row(y: float, colour: str) -> Shape:
    return (stroke([(0.42, y), (0.8, y)], 0.07), colour)


def _arrow(y: float, from_x: float, to_x: float) -> Shape:
    head = 0.14 if from_x < to_x else -0.14
    line = stroke([(from_x, y), (to_x, y)], 0.08)
    point = stroke([(to_x - head, y - 0.14), (to_x, y), (to_x - head, y + 0.14)], 0.08)
    return (lambda a, b: line(a, b) or point(a, b), "lead")


ICONS: dict[str, list[Shape]] = {
    "check": [*_plug(), (stroke([(0.46, 0.72), (0.64, 0.9), (0.94, 0.5)], 0.13), "good")],
    "documents": [*_sheet(0.06, 0.04), *_sheet(0.32, 0.2), _row(0.4, "lead"), _row(0.57, "line"), _row(0.74, "line")],
    "compare": [
        (box(0.06, 0.06, 0.42, 0.94), "line"),
        (box(0.12, 0.12, 0.36, 0.88), "paper"),
        (box(0.58, 0.06, 0.94, 0.94), "line"),
        (box(0.64, 0.12, 0.88, 0.88), "paper"),
        _arrow(0.34, 0.2, 0.8),
        _arrow(0.68, 0.8, 0.2),
    ],
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


def drawings() -> dict[str, list[bytes]]:
    """Path below this folder -> rows of the picture, for all icons."""
    drawn = {
        f"loaded/icons/{name}-{theme}-{size}.png": pixels(shapes, size, colours)
        for name, shapes in ICONS.items()
        for theme, colours in THEMES.items()
        for size in BUTTON_SIZES
    }
    return drawn | {"package_icon.png": pixels(ICONS["check"], PACKAGE_SIZE, THEMES["light"])}


if __name__ == "__main__":
    for path, rows in drawings().items():
        file = Path(__file__).parent / path
        file.parent.mkdir(exist_ok=True)
        file.write_bytes(png(rows))
