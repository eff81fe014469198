"""Which new cable each old one is to become, and where its plugs and joints go then."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from typing import NamedTuple

from tabside.compare.fates.cable_fate import ends_moved, wires_of
from tabside.compare.fates.leads import moves_between
from tabside.compare.matched.rebuild import Rebuild
from tabside.compare.reuse.wires import Ends, another_plug
from tabside.compare.side import Side
from tabside.highs import best_pairs
from tabside.model.craft import Cable
from tabside.model.natural import natural

_LEAST_SHARE = 0.5  # of the wires of a link that an old cable from elsewhere must bring; common practice, no source
_SAME_PLACES, _ELSEWHERE = 2000.0, 1000.0  # what it is worth that an old cable serves there


class Conversion(NamedTuple):
    """One old cable and the new one that it is to become; a cable without a mark stands for single wires."""

    was: Cable
    now: Cable
    places: dict[str, str]  # where each of its plugs and joints goes: old termination -> new one


Becomes = Mapping[str, Conversion]  # by the old cable's number


def conversions(rebuild: Rebuild, stays: Mapping[Ends, Ends]) -> dict[str, Conversion]:
    """By the old cable's number: where most of its wires stay, else where it serves best.

    `stays`: old and new ends of each wire that stays where it is.
    """
    old, new = rebuild.old, rebuild.new
    by_mark = {cable.mark: cable for cable in new.craft.cables}
    owner = {wire: cable.mark for cable in new.craft.cables for wire in wires_of(new, cable)}
    free = dict(by_mark)
    found: dict[str, Conversion] = {}
    shared = []
    for cable in old.craft.cables:
        here = (stays[wire] for wire in wires_of(old, cable) if wire in stays)
        votes = Counter(owner[wire] for wire in here if wire in owner)
        shared += [(-count, natural(cable.mark), cable, mark) for mark, count in votes.items()]
    for _, _, cable, mark in sorted(shared, key=lambda option: option[:2]):
        if cable.mark not in found and mark in free:
            found[cable.mark] = conversion(rebuild, cable, free.pop(mark))
    rest = [cable for cable in old.craft.cables if cable.mark not in found]
    wanted = sorted(free.values(), key=lambda cable: natural(cable.mark))
    worth = [[worth_of(rebuild, cable, other) for other in wanted] for cable in rest]
    for row, column in best_pairs(worth):
        if worth[row][column]:
            found[rest[row].mark] = conversion(rebuild, rest[row], wanted[column])
    return found


def conversion(rebuild: Rebuild, cable: Cable, wanted: Cable) -> Conversion:
    """Each end of an old cable stays where it is, else goes to an end where such a plug is drawn."""
    return Conversion(cable, wanted, _places(rebuild, cable, wanted))


def worth_of(rebuild: Rebuild, cable: Cable, wanted: Cable) -> float:
    """How well an old cable serves another link; 0 when it does not."""
    old, new, matching = rebuild
    places = _places(rebuild, cable, wanted)
    stay = sum(matching.pairs.get(reference) == now for reference, now in places.items())
    if len(places) == len(cable.ends) == len(wanted.ends) == stay:
        return _SAME_PLACES
    if len(places) < min(len(cable.ends), len(wanted.ends)):
        return 0.0
    if any(another_plug(old, reference, new, now) for reference, now in places.items()):
        return 0.0
    if any(_unknown_plug(old, reference) or _unknown_plug(new, now) for reference, now in places.items()):
        return 0.0
    drawn = wires_of(new, wanted)
    moved = moves_between(old, new, places, sorted(wires_of(old, cable), key=sorted), sorted(drawn, key=sorted))
    if not moved or len(moved) < _LEAST_SHARE * len(drawn) or (stay == 0 and len(moved) < len(drawn)):
        return 0.0
    hands = sum(len(ends_moved(places, *pair)) for pair in moved) + 3 * (len(drawn) - len(moved))
    near = sum(old.board(reference) == new.board(now) != "" for reference, now in places.items())
    return _ELSEWHERE + 10.0 * stay + near - hands


def _unknown_plug(side: Side, reference: str) -> bool:
    termination = side.terminations[reference]
    return termination.takes_plug and (termination.family is None or termination.ways is None)


def _places(rebuild: Rebuild, cable: Cable, wanted: Cable) -> dict[str, str]:
    """Where each end of an old cable goes: where it is now, else to an end where such a plug is drawn."""
    old, new, matching = rebuild
    found = {ref: matching.pairs[ref] for ref in cable.ends if matching.pairs.get(ref) in wanted.ends}
    rest_old = [ref for ref in cable.ends if ref not in found and ref in old.plugged(cable.leads)]
    rest_new = [ref for ref in wanted.ends if ref not in found.values() and ref in new.plugged(wanted.leads)]
    options = [found]
    if rest_old and rest_new:
        options = [
            found | {a: b for a, b in zip(rest_old, order, strict=False) if not another_plug(old, a, new, b)}
            for order in (rest_new, rest_new[::-1])
        ]

    def fits(places: dict[str, str]) -> int:
        drawn = wires_of(new, wanted)
        mapped = (frozenset((places.get(key[0], ""), key[1]) for key in ends) for ends in wires_of(old, cable))
        return sum(ends in drawn for ends in mapped)

    return max(options, key=lambda option: (len(option), fits(option)))
