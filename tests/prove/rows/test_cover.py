"""The smallest set of rows, against brute force and against problems whose smallest answer is known.

Lines of the affine space over three elements: what meets every line is what a largest cap set leaves.  Largest cap
sets have 2, 4 and 9 points in 1, 2 and 3 dimensions (from memory).  In two and three dimensions these are the Steiner
triple coverings of 9 and 27 points, with smallest covers of 5 and 18 (Fulkerson, Nemhauser and Trotter 1974, from
memory).
"""

import random
from itertools import chain, combinations, product

import pytest

from tabside.prove.rows.cover import smallest_cover


def lines_of(dimensions):
    points = list(product(range(3), repeat=dimensions))
    number = {point: n for n, point in enumerate(points)}
    lines = set()
    for a, b in combinations(points, 2):
        third = tuple(-(x + y) % 3 for x, y in zip(a, b, strict=True))
        lines.add(frozenset(number[point] for point in (a, b, third)))
    return lines, len(points)


@pytest.mark.parametrize(("dimensions", "smallest"), [(1, 1), (2, 5), (3, 18)])
def test_the_smallest_set_that_meets_every_line(dimensions, smallest):
    lines, points = lines_of(dimensions)
    cover = smallest_cover(lines, [1.0] * points)
    assert len(cover.chosen) == smallest and cover.optimal
    assert all(line & set(cover.chosen) for line in lines)


def by_brute_force(needs, weights):
    rows = range(len(weights))
    sets = chain.from_iterable(combinations(rows, size) for size in range(len(weights) + 1))
    return min(sum(weights[row] for row in chosen) for chosen in sets if all(need & set(chosen) for need in needs))


@pytest.mark.parametrize("seed", range(40))
def test_as_light_as_brute_force_finds(seed):
    dice = random.Random(seed)
    weights = [dice.choice((1.0, 1.3, 1.6, 2.0)) for _ in range(dice.randint(2, 10))]
    rows = range(len(weights))
    needs = [frozenset(dice.sample(rows, dice.randint(1, min(4, len(weights))))) for _ in range(dice.randint(1, 14))]
    cover = smallest_cover(needs, weights)
    assert all(need & set(cover.chosen) for need in needs)
    assert cover.weight == pytest.approx(by_brute_force(needs, weights))
    assert cover.bound == pytest.approx(cover.weight)


def test_nothing_to_find_needs_no_row():
    assert smallest_cover([], [1.0]).chosen == ()


def test_the_same_answer_for_any_order_of_the_questions():
    lines, points = lines_of(2)
    answers = set()
    for seed in range(5):
        order = random.Random(seed).sample(sorted(map(sorted, lines)), len(lines))
        answers.add(smallest_cover(map(frozenset, order), [1.0] * points).chosen)
    assert len(answers) == 1
