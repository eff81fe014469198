"""HiGHS through its one door.  Brute force judges it: all pairings, all whole numbers."""

import random
import subprocess
import sys
from itertools import permutations, product

import pytest

from tabside.highs import Row, best_pairs, least_cost


@pytest.mark.parametrize("seed", range(40))
def test_pairs_are_worth_what_brute_force_finds(seed):
    dice = random.Random(seed)
    height, width = dice.randint(1, 5), dice.randint(1, 5)
    worth = [[dice.choice((0.0, 0.5, 1.0, 3.25, 7.0)) for _ in range(width)] for _ in range(height)]
    pairs = best_pairs(worth)
    assert len(pairs) == len({r for r, _ in pairs}) == len({c for _, c in pairs}) == min(height, width)
    turned = worth if height <= width else [list(column) for column in zip(*worth, strict=True)]
    best = max(
        sum(row[c] for row, c in zip(turned, order, strict=True))
        for order in permutations(range(len(turned[0])), len(turned))
    )
    assert sum(worth[r][c] for r, c in pairs) == pytest.approx(best)


def test_pairs_of_an_empty_table():
    assert best_pairs([]) == [] and best_pairs([[], []]) == []


def test_the_same_table_has_the_same_pairs_every_time():
    level = [[1.0] * 6 for _ in range(6)]
    assert len({tuple(best_pairs(level)) for _ in range(5)}) == 1


@pytest.mark.parametrize("seed", range(40))
def test_whole_numbers_cost_what_brute_force_finds(seed):
    dice = random.Random(seed)
    costs = [float(dice.randint(-3, 9)) for _ in range(4)]
    rows = [
        Row(float(dice.randint(0, 4)), float(dice.randint(4, 9)), {c: float(dice.randint(-2, 3)) for c in range(4)})
        for _ in range(3)
    ]
    solved = least_cost(costs, [3.0] * 4, rows, whole=True, seconds=10.0)
    allowed = [
        sum(map(float.__mul__, costs, map(float, values)))
        for values in product(range(4), repeat=4)
        if all(row.least <= sum(a * values[c] for c, a in row.amounts.items()) <= row.most for row in rows)
    ]
    if not allowed:
        assert solved is None
        return
    assert solved is not None and solved.optimal
    assert solved.bound == pytest.approx(min(allowed))
    assert sum(map(float.__mul__, costs, solved.values)) == pytest.approx(min(allowed))


def test_the_solver_prints_nothing():
    script = (
        "from tabside.highs import Row, best_pairs, least_cost\n"
        "best_pairs([[1.0, 2.0], [2.0, 1.0]])\n"
        "least_cost([1.0, 2.0], [5.0, 5.0], [Row(3.0, 9.0, {0: 1.0, 1: 2.0})], whole=True, seconds=5.0)\n"
    )
    ran = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True)
    assert ran.stdout == "" and ran.stderr == ""
