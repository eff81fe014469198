"""Drawn lines as KiCad's editor has them: lines lying on each other merged, broken where something joins them.

Points are in KiCad's internal units (100 nm).
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Iterator
from math import gcd

from tabside.read.kicad.sheet_file import Point

Line = tuple[Point, Point]
_Track = tuple[int, int, int]  # a straight line without ends: direction (dx, dy) and offset


def _track(line: Line) -> _Track:
    """The endless line on which a line of some length lies; the same for all collinear ones."""
    (x1, y1), (x2, y2) = line
    if y1 == y2:
        return (1, 0, y1)
    if x1 == x2:
        return (0, 1, -x1)
    dx, dy = x2 - x1, y2 - y1
    common = gcd(dx, dy)
    dx, dy = dx // common, dy // common
    if dx < 0:
        dx, dy = -dx, -dy
    return (dx, dy, dx * y1 - dy * x1)


def merge_lines(lines: Iterable[Line]) -> list[Line]:
    """The lines without those of no length, overlapping collinear ones made one; ones that only touch stay two.

    Each starts with its smaller end.  They come in the order in which they were drawn.
    """
    tracks: dict[_Track, list[tuple[Point, Point, int]]] = {}
    for number, (a, b) in enumerate(lines):
        if a != b:
            tracks.setdefault(_track((a, b)), []).append((a, b, number) if a < b else (b, a, number))
    merged: list[tuple[int, Line]] = []
    for on_track in tracks.values():
        if len(on_track) > 1:
            on_track.sort()
        start, end, first = on_track[0]
        for a, b, number in on_track[1:]:
            if a < end:
                end = max(end, b)
                first = min(first, number)
            else:
                merged.append((first, (start, end)))
                start, end, first = a, b, number
        merged.append((first, (start, end)))
    merged.sort()
    return [line for _, line in merged]


def break_lines(lines: Iterable[Line], at: Iterable[Point]) -> list[Line]:
    """The lines, each broken at those of the points that lie inside it."""
    points = set(at)
    rows: dict[int, list[int]] = {}
    columns: dict[int, list[int]] = {}
    for x, y in points:
        rows.setdefault(y, []).append(x)
        columns.setdefault(x, []).append(y)
    for inside in (*rows.values(), *columns.values()):
        inside.sort()
    in_order = sorted(points)
    broken: list[Line] = []
    for a, b in lines:
        cuts = _points_inside((a, b), rows, columns, in_order)
        start = a
        for cut in cuts:
            broken.append((start, cut))
            start = cut
        broken.append((start, b))
    return broken


def _points_inside(
    line: Line, rows: dict[int, list[int]], columns: dict[int, list[int]], in_order: list[Point]
) -> list[Point]:
    """The points strictly inside the line, from its smaller end to its larger one (`line` starts with the smaller)."""
    (x1, y1), (x2, y2) = line
    if y1 == y2:
        row = rows.get(y1)
        return [(x, y1) for x in row[bisect_right(row, x1) : bisect_left(row, x2)]] if row else []
    if x1 == x2:
        column = columns.get(x1)
        return [(x1, y) for y in column[bisect_right(column, y1) : bisect_left(column, y2)]] if column else []
    dx, dy = x2 - x1, y2 - y1
    span = in_order[bisect_right(in_order, line[0]) : bisect_left(in_order, line[1])]
    return [(x, y) for x, y in span if dx * (y - y1) == dy * (x - x1)]


class LineIndex:
    """Finds the lines under a point without looking at all of them."""

    def __init__(self, lines: list[Line]) -> None:
        """Index the lines by their place in the list; lines of one row or column do not overlap (see merge_lines)."""
        self._lines = lines
        self._rows: dict[int, list[tuple[int, int, int]]] = {}
        self._columns: dict[int, list[tuple[int, int, int]]] = {}
        self._slanting: list[tuple[int, int, int]] = []  # (smaller x, larger x, index) by smaller x
        self._reach = 0  # how far the longest slanting line reaches from its smaller x
        for index, ((x1, y1), (x2, y2)) in enumerate(lines):
            if y1 == y2:
                self._rows.setdefault(y1, []).append((min(x1, x2), max(x1, x2), index))
            elif x1 == x2:
                self._columns.setdefault(x1, []).append((min(y1, y2), max(y1, y2), index))
            else:
                self._slanting.append((min(x1, x2), max(x1, x2), index))
                self._reach = max(self._reach, abs(x2 - x1))
        for spans in (*self._rows.values(), *self._columns.values(), self._slanting):
            spans.sort()

    def under(self, point: Point, slack: int = 0) -> list[int]:
        """Indices of the lines through the point, ends included, or at most `slack` units beside it; in list order."""
        found = sorted(self._candidates(point, slack))
        return found

    def _candidates(self, point: Point, slack: int) -> Iterator[int]:
        x, y = point
        for offset in range(-slack, slack + 1):
            yield from _spans_over(self._rows.get(y + offset), x, slack)
            yield from _spans_over(self._columns.get(x + offset), y, slack)
        if self._slanting:
            first = bisect_left(self._slanting, (x - slack - self._reach, 0, 0))
            last = bisect_right(self._slanting, (x + slack, x + slack + self._reach, len(self._lines)))
            for low, high, index in self._slanting[first:last]:
                if low - slack <= x <= high + slack and _near(self._lines[index], point, slack):
                    yield index


def _spans_over(spans: list[tuple[int, int, int]] | None, at: int, slack: int) -> Iterator[int]:
    """Indices of the spans that hold `at`; spans are sorted and touch at most at their ends."""
    if not spans:
        return
    position = bisect_right(spans, (at + slack, 1 << 62, 0)) - 1
    while position >= 0 and spans[position][1] >= at - slack:
        yield spans[position][2]
        position -= 1


def _near(line: Line, point: Point, slack: int) -> bool:
    (x1, y1), (x2, y2) = line
    x, y = point
    if not min(y1, y2) - slack <= y <= max(y1, y2) + slack:
        return False
    dx, dy = x2 - x1, y2 - y1
    across: int = dx * (y - y1) - dy * (x - x1)
    return across * across <= slack * slack * (dx * dx + dy * dy)
