"""The least tree over islands whose nodes have limited room, by branch and bound over least trees without limits.

Costs are whole numbers, compared in the order new pairs, unserved leads, length, and folded into one number.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence

from msgspec import Struct

from tabside.model.groups import Groups
from tabside.wiring.leads.lead_tree import Node

BUDGET = 600_000  # edges looked at before the search settles for what it has; about a quarter of a second
DEPTH_MAX = 150  # decisions on one way down
_SCALE = 16  # prices of room are whole numbers, in sixteenths of a cost
_ROUNDS = 40  # of setting the prices
_FREE, _FORCED, _FORBIDDEN = 0, 1, 2


class Edge(Struct, frozen=True):
    """A possible lead between two nodes of different islands."""

    x: int
    y: int
    pair: tuple[str, str]  # of terminations that it joins
    new: int  # 1 when the pair has no lead yet
    unwanted: int  # 0 when the pair wants this net's lead
    length: int  # µm; 0 for all when lengths do not count
    shared: bool  # other edges join the same pair: it is new, or served, only once


class OutOfBudgetError(Exception):
    """The search looked at more edges than it may."""


class TreeSearch:
    """Least trees over `count` islands.  A tree is a list of indexes of edges."""

    def __init__(self, nodes: Sequence[Node], count: int, edges: Sequence[Edge], budget: int, *, lengths: bool) -> None:
        self._count = count
        self._edges = edges
        self._left = budget
        self._island = [node.island for node in nodes]
        self._room = [node.room for node in nodes]
        self._lengths = [edge.length if lengths else 0 for edge in edges]
        self._base = 1 + (count - 1) * max(self._lengths)
        # A pair that several edges may join counts as if it were not new: the bound stays below the truth.
        self._weight = [
            self._fold(0 if edge.shared else edge.new, edge.unwanted, length)
            for edge, length in zip(edges, self._lengths, strict=True)
        ]
        self._order = sorted(range(len(edges)), key=self._weight.__getitem__)
        self._status = bytearray(len(edges))
        self._forced: list[int] = []
        self._depth = 0
        self._set_prices([0] * len(nodes))

    def cost(self, tree: Iterable[int]) -> int:
        """What a tree costs: a pair is new once, and served once, however many of its edges are in it."""
        new, served, leads, length = set(), set(), 0, 0
        for index in tree:
            edge = self._edges[index]
            leads += 1
            length += self._lengths[index]
            if edge.new:
                new.add(edge.pair)
            if not edge.unwanted:
                served.add(edge.pair)
        return self._fold(len(new), leads - len(served), length)

    def parts(self, cost: int) -> tuple[int, int, int]:
        """New pairs, unserved leads and length (µm) of a cost."""
        return (cost // self._base // self._count, cost // self._base % self._count, cost % self._base)

    def best(self, start: Sequence[int]) -> tuple[list[int], int]:
        """The best tree, and a bound below which no tree costs; equal to its cost when it is proven best.

        `start`: any tree that keeps to the room.
        """
        best = list(start)
        bound = 0
        try:
            bound = self._find_prices(self.cost(best))
            while (better := self.within(self.cost(best) - 1)) is not None:
                best = better
        except OutOfBudgetError:
            return best, min(bound, self.cost(best))
        return best, self.cost(best)

    def within(self, limit: int, forced: Collection[int] = (), forbidden: Collection[int] = ()) -> list[int] | None:
        """A tree that costs at most `limit`, has all the forced edges and none of the forbidden; None if there is none.

        Raises: OutOfBudgetError.
        """
        for index in forbidden:
            self._status[index] = _FORBIDDEN
        for index in forced:
            self._force(index)
        try:
            return self._tree(limit)
        finally:
            self._depth = 0
            self._forced.clear()
            self._status = bytearray(len(self._edges))

    def _fold(self, new: int, unserved: int, length: int) -> int:
        return (new * self._count + unserved) * self._base + length

    def _tree(self, limit: int) -> list[int] | None:
        if self._depth > DEPTH_MAX:
            raise OutOfBudgetError
        tree = self._least(self._order)
        if tree is None:
            return None
        excess = self.cost(self._forced) - sum(map(self._weight.__getitem__, self._forced))
        if sum(map(self._weight.__getitem__, tree)) + excess > limit:
            return None
        crowded = self._crowded(tree)
        if crowded is None and self.cost(tree) <= limit:
            return tree
        if self._priced and self._priced_bound() + excess > limit:
            return None
        if crowded is not None:
            return self._branch(crowded, limit, all_of_them=False)
        open_edge = next(i for i in tree if self._edges[i].shared and self._status[i] == _FREE)
        return self._branch([open_edge], limit, all_of_them=True)

    def _branch(self, edges: Sequence[int], limit: int, *, all_of_them: bool) -> list[int] | None:
        """Every tree lacks a first one of these edges; or, where allowed, none of them."""
        found = None
        forced = 0
        self._depth += 1
        for index in edges:
            self._status[index] = _FORBIDDEN
            found = self._tree(limit)
            if found is not None:
                break
            self._force(index)
            forced += 1
        else:
            if all_of_them:
                found = self._tree(limit)
        self._depth -= 1
        for _ in range(forced):
            self._forced.pop()
        for index in edges:
            self._status[index] = _FREE
        return found

    def _force(self, index: int) -> None:
        self._status[index] = _FORCED
        self._forced.append(index)

    def _crowded(self, tree: Sequence[int]) -> list[int] | None:
        """Free edges of a node that has more of them than room, one more than fit; None when there is no such node."""
        edges, room = self._edges, self._room[:]
        for index in tree:
            edge = edges[index]
            room[edge.x] -= 1
            room[edge.y] -= 1
        worst = min(range(len(room)), key=room.__getitem__)
        if room[worst] >= 0:
            return None
        free = [i for i in tree if self._status[i] == _FREE and worst in (edges[i].x, edges[i].y)]
        return free[: len(free) + room[worst] + 1]

    def _least(self, order: Sequence[int]) -> list[int] | None:
        """The least tree with the forced edges and without the forbidden ones, whatever room it takes."""
        edges, island, status = self._edges, self._island, self._status
        joined = Groups(range(self._count))
        room = self._room[:]
        tree = list(self._forced)
        for index in tree:
            edge = edges[index]
            room[edge.x] -= 1
            room[edge.y] -= 1
            a, b = joined.root(island[edge.x]), joined.root(island[edge.y])
            if a == b or room[edge.x] < 0 or room[edge.y] < 0:
                return None
            joined.join(b, a)
        missing = self._count - 1 - len(tree)
        for looked, index in enumerate(order, start=1):
            if not missing:
                self._spend(looked)
                return tree
            if status[index] == _FREE:
                edge = edges[index]
                if room[edge.x] > 0 and room[edge.y] > 0:
                    a, b = joined.root(island[edge.x]), joined.root(island[edge.y])
                    if a != b:
                        joined.join(b, a)
                        tree.append(index)
                        missing -= 1
        self._spend(len(order))
        return None if missing else tree

    def _spend(self, looked: int) -> None:
        self._left -= looked
        if self._left < 0:
            raise OutOfBudgetError

    def _set_prices(self, price: list[int]) -> None:
        self._price = price
        self._priced = any(price)
        self._cost_with_price = [
            weight * _SCALE + price[edge.x] + price[edge.y]
            for weight, edge in zip(self._weight, self._edges, strict=True)
        ]
        self._priced_order = sorted(self._order, key=self._cost_with_price.__getitem__)

    def _priced_bound(self) -> int:
        """What no tree within the room can undercut: the least tree when room has a price, less the worth of all room.

        Any prices give a valid bound.
        """
        tree = self._least(self._priced_order)
        return self._fold(self._count, self._count, self._base) if tree is None else self._worth(tree)

    def _worth(self, tree: Sequence[int]) -> int:
        total = sum(map(self._cost_with_price.__getitem__, tree))
        total -= sum(price * room for price, room in zip(self._price, self._room, strict=True))
        return -(-total // _SCALE)

    def _find_prices(self, known_cost: int) -> int:
        """Raise the price of room where least trees want more than there is; keep the prices of the best bound."""
        best_bound, best_price = 0, self._price
        step = 1.0
        for _ in range(_ROUNDS):
            tree = self._least(self._priced_order)
            if tree is None:
                break
            bound = self._worth(tree)
            if bound > best_bound:
                best_bound, best_price = bound, self._price
            else:
                step *= 0.7
            lack = self._lack(tree)
            length = sum(x * x for x, price in zip(lack, self._price, strict=True) if x > 0 or price)
            if bound >= known_cost or not length:
                break
            rate = step * (known_cost - bound + 1) * _SCALE / length
            self._spend(len(self._edges))
            self._set_prices([max(0, price + round(rate * x)) for price, x in zip(self._price, lack, strict=True)])
        self._set_prices(best_price)
        return best_bound

    def _lack(self, tree: Sequence[int]) -> list[int]:
        """How much more room than there is each node would need."""
        lack = [-room for room in self._room]
        for index in tree:
            lack[self._edges[index].x] += 1
            lack[self._edges[index].y] += 1
        return lack
