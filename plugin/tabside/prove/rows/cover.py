"""The smallest weighed set of rows that finds every mistake that some row finds."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import chain, combinations

from msgspec import Struct

from tabside.highs import Row, least_cost
from tabside.model.groups import Groups

_FEW = 4  # rows: there are so few sets of them that all are tried sooner than a solver is asked
EXACT_SECONDS = 10.0  # for one knot of rows that share mistakes; a craft's cables need some milliseconds each


class Cover(Struct, frozen=True):
    """Which rows, what they weigh together, and what no set can weigh less than."""

    chosen: tuple[int, ...]
    weight: float
    bound: float

    @property
    def optimal(self) -> bool:
        return self.weight <= self.bound + 1e-6


def smallest_cover(found_by: Iterable[frozenset[int]], weights: Sequence[float]) -> Cover:
    """Rows by number so that each set of `found_by` holds a chosen one; sets must not be empty.

    Sets that share no row are solved apart from each other.
    """
    needs = _needed(found_by)
    chosen: list[int] = []
    bound = 0.0
    for knot in _knots(needs):
        rows, least = _solved(knot, weights)
        chosen += rows
        bound += least
    return Cover(tuple(sorted(chosen)), sum(weights[row] for row in chosen), bound)


def _needed(found_by: Iterable[frozenset[int]]) -> list[frozenset[int]]:
    """Only sets that no other set lies in: who fulfils the smaller one fulfils the larger one."""
    kept: list[frozenset[int]] = []
    by_row: dict[int, list[frozenset[int]]] = {}
    for rows in sorted(set(found_by), key=lambda rows: (len(rows), sorted(rows))):
        if not any(other <= rows for row in rows for other in by_row.get(row, ())):
            kept.append(rows)
            by_row.setdefault(min(rows), []).append(rows)
    return kept


def _knots(needs: Iterable[frozenset[int]]) -> list[list[frozenset[int]]]:
    groups: Groups[int] = Groups()
    needs = list(needs)
    for rows in needs:
        low = min(rows)
        for row in rows:
            groups.join(row, low)
    knots: dict[int, list[frozenset[int]]] = {}
    for rows in needs:
        knots.setdefault(groups.root(min(rows)), []).append(rows)
    return list(knots.values())


def _solved(needs: Sequence[frozenset[int]], weights: Sequence[float]) -> tuple[list[int], float]:
    forced = {row for rows in needs if len(rows) == 1 for row in rows}
    left = [rows for rows in needs if not rows & forced]
    weight = sum(weights[row] for row in forced)
    if not left:
        return sorted(forced), weight
    columns = sorted({row for rows in left for row in rows})
    by_hand = len(columns) <= _FEW
    chosen, bound = (_by_trying_all if by_hand else _by_solver)(left, columns, weights)
    return sorted(forced | set(chosen)), weight + bound


def _by_trying_all(
    needs: Sequence[frozenset[int]], columns: Sequence[int], weights: Sequence[float]
) -> tuple[list[int], float]:
    """Of sets that weigh the same the smallest one, with the earliest rows."""

    def weight(rows: Iterable[int]) -> float:
        return round(sum(weights[row] for row in rows), 9)

    sets = chain.from_iterable(combinations(columns, size) for size in range(1, len(columns) + 1))
    chosen = min((rows for rows in sets if all(need.intersection(rows) for need in needs)), key=weight)
    return list(chosen), weight(chosen)


def _by_solver(
    needs: Sequence[frozenset[int]], columns: Sequence[int], weights: Sequence[float]
) -> tuple[list[int], float]:
    position = {row: n for n, row in enumerate(columns)}
    costs = [weights[row] for row in columns]
    conditions = [Row(1.0, float("inf"), {position[row]: 1.0 for row in sorted(rows)}) for rows in needs]
    solved = least_cost(costs, [1.0] * len(columns), conditions, whole=True, seconds=EXACT_SECONDS)
    if solved is None:
        return _greedy(needs, weights), 0.0
    chosen = [row for row, value in zip(columns, solved.values, strict=True) if value > 0.5]
    weight = sum(weights[row] for row in chosen)
    return chosen, weight if solved.optimal else min(weight, solved.bound)


def _greedy(needs: Sequence[frozenset[int]], weights: Sequence[float]) -> list[int]:
    """Always the row that finds most for its weight."""
    left, chosen = list(needs), []
    while left:
        count: dict[int, int] = {}
        for rows in left:
            for row in rows:
                count[row] = count.get(row, 0) + 1
        best = max(sorted(count), key=lambda row: count[row] / weights[row])
        chosen.append(best)
        left = [rows for rows in left if best not in rows]
    return chosen
