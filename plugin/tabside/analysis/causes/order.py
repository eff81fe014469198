"""The order in which a link joins the contacts of its two ends, and the single cause that explains its clashes."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import combinations

from msgspec import Struct
from msgspec.structs import replace

from tabside.analysis.meeting.outcome import Agreement

Joined = tuple[int, int]  # contact of the first end, contact of the second
Judge = Callable[[int, int], Agreement]  # of a contact of the first end and one of the second

LEAST_AGREEMENTS = 2
LEAST_SHARE = 0.6  # of the leads that were judged as drawn


class LinkOrder(Struct, frozen=True):
    """ "straight" (n to n), "reversed" (n to N+1-n), "shifted" (n to n+shift, modulo N), or "mixed"."""

    name: str
    shift: int = 0
    exchanged: tuple[Joined, ...] = ()  # mixed: pairs of contacts that cross over each other, 2 to 3 and 3 to 2


def order_of(joined: Sequence[Joined], ways_a: int | None, ways_b: int | None) -> LinkOrder:
    """The order of a link's leads.  Contacts that are not joined do not count."""
    if all(a == b for a, b in joined):
        return LinkOrder("straight")
    if any(ways is not None and all(a + b == ways + 1 for a, b in joined) for ways in (ways_a, ways_b)):
        return LinkOrder("reversed")
    steps = {b - a for a, b in joined}
    if ways_a is not None and ways_a == ways_b:
        steps = {step % ways_a for step in steps}
    if len(steps) == 1:
        return LinkOrder("shifted", shift=steps.pop())
    there = set(joined)
    return LinkOrder("mixed", exchanged=tuple(sorted((a, b) for a, b in there if a < b and (b, a) in there)))


class SingleCause(Struct, frozen=True):
    """One slip of the pencil that would explain every clash of a link."""

    rule: str  # "swapped-pair", "mirrored", "shifted"
    end: int | None  # 0 or 1: the end that it concerns; None for exchanged leads
    moved: int  # leads that it moves
    shift: int = 0  # shifted: contacts by which the end is read too far
    exchanged: tuple[int, int] = (0, 0)  # swapped-pair: the two leads, by position
    ways: int = 0  # of the end

    def intended(self, number: int) -> int:
        """The contact whose place contact `number` of the mirrored or shifted end took in the drawing."""
        if self.rule == "mirrored":
            return self.ways + 1 - number
        return (number - 1 + self.shift) % self.ways + 1

    def moves(self, joined: Sequence[Joined]) -> list[Joined]:
        """The link's leads without the slip, in the same order."""
        if self.rule == "swapped-pair":
            moved, (k, m) = list(joined), self.exchanged
            moved[k], moved[m] = (joined[k][0], joined[m][1]), (joined[m][0], joined[k][1])
            return moved
        return [(self.intended(a), b) if self.end == 0 else (a, self.intended(b)) for a, b in joined]

    @property
    def shift_size(self) -> int:
        return min(self.shift, self.ways - self.shift) if self.ways else 0


def single_causes(joined: Sequence[Joined], judge: Judge, ways: tuple[int | None, int | None]) -> list[SingleCause]:
    """All causes that hold, the likeliest first: fewest leads moved, then exchanged, mirrored, shifted by the least.

    A cause holds when it removes every clash, with at least two agreements and at least 60 % of the leads judged as
    drawn.  `ways` is None for an end without a row of numbered contacts (pads): it cannot be mirrored or shifted.
    Nothing is tried for a link without a clash.
    """
    drawn = [judge(a, b) for a, b in joined]
    clashing = {k for k, meeting in enumerate(drawn) if meeting.clashes}
    if not clashing:
        return []
    needed = max(LEAST_AGREEMENTS, LEAST_SHARE * sum(1 for outcome in drawn if outcome.judged))
    tried = []
    if len(clashing) <= 2:  # an exchange touches two leads, and has to mend them all
        pairs = (pair for pair in combinations(range(len(joined)), 2) if clashing <= set(pair))
        tried += [SingleCause("swapped-pair", end=None, moved=2, exchanged=pair) for pair in pairs]
    tried += [turned for end in (0, 1) for turned in _turned(joined, end, ways[end])]
    found = [cause for cause in tried if _holds(cause.moves(joined), judge, needed)]
    rank = {"swapped-pair": 0, "mirrored": 1, "shifted": 2}
    return sorted(found, key=lambda cause: (cause.moved, rank[cause.rule], cause.shift_size))


def _holds(moved: Sequence[Joined], judge: Judge, needed: float) -> bool:
    agreements = 0
    for a, b in moved:
        found = judge(a, b)
        if found.clashes:
            return False
        agreements += found.agrees
    return agreements >= needed - 1e-9


def _turned(joined: Sequence[Joined], end: int, ways: int | None) -> list[SingleCause]:
    """One end read in mirror image, and shifted by every step."""
    if ways is None or ways < 2 or any(not 1 <= pair[end] <= ways for pair in joined):
        return []
    causes = [SingleCause("mirrored", end, ways=ways, moved=0)]
    causes += [SingleCause("shifted", end, ways=ways, moved=0, shift=step) for step in range(1, ways)]
    return [replace(cause, moved=_count_moved(joined, cause.moves(joined))) for cause in causes]


def _count_moved(joined: Sequence[Joined], moved: Sequence[Joined]) -> int:
    return sum(1 for before, after in zip(joined, moved, strict=True) if before != after)
