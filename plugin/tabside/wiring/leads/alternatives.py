"""Which other leads would have connected a net as well as those that were chosen."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence, Set
from itertools import combinations

from tabside.model.craft import ContactKey
from tabside.model.groups import Groups
from tabside.wiring.leads.lead_tree import LeadEnds, Pair, Spot, contact_order, ends_of, lead_order, pair_of

MOST_SHOWN = 3
LEADS_MAX, SPOTS_MAX = 60, 120  # beyond them none is looked for
SPOTS_MAX_FOR_TWO = 12  # up to them two leads are changed at a time for any others


class Weights:
    """What the choice of a tree goes by before length and natural order: new pairs, and pairs that want this net."""

    def __init__(self, joined: Set[Pair], wanting: Set[Pair]) -> None:
        self.joined, self.wanting = joined, wanting

    def of(self, leads: Sequence[LeadEnds]) -> tuple[int, int]:
        pairs = Counter(pair_of(a[0], b[0]) for a, b in leads)
        return (sum(1 for pair in pairs if pair not in self.joined), -sum(1 for pair in pairs if pair in self.wanting))


def others_as_good(
    spots: Sequence[Spot], leads: Sequence[LeadEnds], weights: Weights
) -> Mapping[LeadEnds, tuple[LeadEnds, ...]]:
    """Each lead that another could stand in for, with up to three such; one or two leads changed at a time."""
    if len(leads) > LEADS_MAX or len(spots) > SPOTS_MAX:
        return {}
    search = _Others(spots, leads, weights)
    found: dict[LeadEnds, tuple[LeadEnds, ...]] = {}
    for lead in leads:
        others: list[LeadEnds] = []
        for other in search.instead_of(lead):
            if other not in others:
                others.append(other)
            if len(others) == MOST_SHOWN:
                break
        if others:
            found[lead] = tuple(sorted(others, key=lead_order))
    return found


class _Others:
    def __init__(self, spots: Sequence[Spot], leads: Sequence[LeadEnds], weights: Weights) -> None:
        self.spots = sorted(spots, key=lambda spot: contact_order(spot.key))
        self.island = {spot.key: spot.island for spot in spots}
        self.room = {spot.key: spot.room for spot in spots}
        self.leads, self.weights = leads, weights
        self.worth = weights.of(leads)
        self.firsts: dict[int, ContactKey] = {}
        for spot in self.spots:
            self.firsts.setdefault(spot.island, spot.key)

    def instead_of(self, lead: LeadEnds) -> Iterator[LeadEnds]:
        rest = [other for other in self.leads if other != lead]
        pieces = self._pieces(rest)
        used = Counter(key for ends in rest for key in ends)
        free = [spot.key for spot in self.spots if spot.room is None or spot.room > used[spot.key]]
        for number, a in enumerate(free):
            for b in free[number + 1 :]:
                other = ends_of(a, b)
                if other != lead and not pieces.together(a, b) and self.weights.of([*rest, other]) == self.worth:
                    yield other
        for partner in rest:
            yield from self._exchanged(lead, partner, [other for other in rest if other != partner])
        if len(self.spots) <= SPOTS_MAX_FOR_TWO:
            yield from self._two_others(lead, rest)

    def _exchanged(self, lead: LeadEnds, partner: LeadEnds, rest: Sequence[LeadEnds]) -> Iterator[LeadEnds]:
        """The two leads with one end of each exchanged."""
        (p, q), (r, s) = lead, partner
        for new in (((p, s), (r, q)), ((p, r), (q, s))):
            if any(self.island[a] == self.island[b] for a, b in new):
                continue
            one, two = (ends_of(*ends) for ends in new)
            if {one, two} & {lead, partner}:
                continue
            pieces = self._pieces(rest)
            if pieces.together(*one):
                continue
            pieces.join(*one)
            if not pieces.together(*two) and self.weights.of([*rest, one, two]) == self.worth:
                yield one
                yield two

    def _two_others(self, lead: LeadEnds, rest: Sequence[LeadEnds]) -> Iterator[LeadEnds]:
        """Two leads instead of this one and one of the rest; for small nets, where a single change is not enough."""
        for partner in rest:
            kept = [other for other in rest if other != partner]
            used = Counter(key for ends in kept for key in ends)
            free = [spot.key for spot in self.spots if spot.room is None or spot.room > used[spot.key]]
            found = [ends_of(a, b) for a, b in combinations(free, 2) if self.island[a] != self.island[b]]
            for one, two in combinations([other for other in found if other != lead], 2):
                if self._replaces(kept, one, two):
                    yield one
                    yield two

    def _replaces(self, kept: Sequence[LeadEnds], one: LeadEnds, two: LeadEnds) -> bool:
        pieces = self._pieces(kept)
        if pieces.together(*one):
            return False
        pieces.join(*one)
        if pieces.together(*two):
            return False
        used = Counter(key for ends in (*kept, one, two) for key in ends)
        fits = all(room is None or used[key] <= room for key, room in self.room.items())
        return fits and self.weights.of([*kept, one, two]) == self.worth

    def _pieces(self, leads: Sequence[LeadEnds]) -> Groups[ContactKey]:
        pieces = Groups(self.island)
        for spot in self.spots:
            pieces.join(spot.key, self.firsts[spot.island])
        for a, b in leads:
            pieces.join(b, a)
        return pieces
