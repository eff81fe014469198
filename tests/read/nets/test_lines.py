"""Merging and breaking lines, as KiCad's editor does when it loads a file (seen in 9.0.8)."""

from __future__ import annotations

import random

import pytest

from tabside.read.nets.lines import LineIndex, break_lines, merge_lines


@pytest.mark.parametrize(
    ("lines", "merged"),
    [
        pytest.param([((0, 0), (0, 0))], [], id="no length"),
        pytest.param([((0, 0), (5, 0)), ((5, 0), (0, 0))], [((0, 0), (5, 0))], id="same line twice, turned round"),
        pytest.param([((0, 0), (5, 0)), ((3, 0), (9, 0))], [((0, 0), (9, 0))], id="overlap"),
        pytest.param([((0, 0), (9, 0)), ((3, 0), (5, 0))], [((0, 0), (9, 0))], id="one inside the other"),
        pytest.param([((0, 0), (4, 0)), ((4, 0), (9, 0))], [((0, 0), (4, 0)), ((4, 0), (9, 0))], id="only touching"),
        pytest.param([((0, 0), (4, 2)), ((2, 1), (8, 4))], [((0, 0), (8, 4))], id="slanting overlap"),
        pytest.param([((0, 0), (4, 4)), ((0, 4), (4, 0))], [((0, 0), (4, 4)), ((0, 4), (4, 0))], id="crossing"),
        pytest.param([((0, 9), (0, 2)), ((0, 4), (0, -3))], [((0, -3), (0, 9))], id="upright overlap"),
    ],
)
def test_lines_on_each_other_become_one(lines, merged):
    assert merge_lines(lines) == merged


def test_lines_break_at_points_inside_but_not_at_their_ends_or_beside():
    lines = [((0, 0), (9, 0)), ((0, 0), (0, 9)), ((0, 0), (6, 6))]
    at = [(0, 0), (3, 0), (9, 0), (0, 4), (2, 2), (2, 3), (12, 0)]
    assert break_lines(lines, at) == [
        ((0, 0), (3, 0)),
        ((3, 0), (9, 0)),
        ((0, 0), (0, 4)),
        ((0, 4), (0, 9)),
        ((0, 0), (2, 2)),
        ((2, 2), (6, 6)),
    ]


@pytest.mark.parametrize("seed", range(20))
def test_the_index_finds_what_looking_at_each_line_finds(seed):
    chance = random.Random(seed)

    def point():
        return (chance.randrange(12), chance.randrange(12))

    lines = merge_lines([(point(), point()) for _ in range(25)])
    index = LineIndex(lines)
    for x in range(12):
        for y in range(12):
            assert index.under((x, y)) == [n for n, line in enumerate(lines) if holds(line, x, y)]


def holds(line, x, y):
    (x1, y1), (x2, y2) = line
    on_track = (x2 - x1) * (y - y1) == (y2 - y1) * (x - x1)
    return on_track and min(x1, x2) <= x <= max(x1, x2) and min(y1, y2) <= y <= max(y1, y2)


@pytest.mark.parametrize(
    ("point", "found"),
    [
        ((500, 1), [0]),
        ((500, -1), [0]),
        ((500, 2), []),
        ((1001, 0), [0]),
        ((1002, 0), []),
        ((2500, 1251), [1]),
        ((2500, 1253), []),
    ],
)
def test_a_label_may_lie_one_unit_beside_a_line(point, found):
    # Seen in KiCad 9.0.8: 100 nm across or past the end still connects, 200 nm does not.
    index = LineIndex([((0, 0), (1000, 0)), ((2000, 1000), (3000, 1500))])
    assert index.under(point, 1) == found
