"""What becomes of each cable: kept, plugged in elsewhere, re-pinned, used on another link, retired, or made new.

The list of leads and the list of cables are one plan: which old wire becomes which new one is decided here, cable by
cable, and both lists say it.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from typing import NamedTuple

from tabside.compare.fates.cable_fate import KEEP, CableFate, ends_moved, wires_of
from tabside.compare.fates.decision import Decision
from tabside.compare.fates.leads import LeadFates, moves_between, with_made, with_moved, with_pairs
from tabside.compare.fates.not_used import with_reasons
from tabside.compare.fates.sharing import shared_out
from tabside.compare.fates.single_wires import single_wires
from tabside.compare.fates.turned import with_turned
from tabside.compare.matched.matching import Matching
from tabside.compare.reuse.wires import Ends, another_plug
from tabside.compare.side import Side
from tabside.highs import best_pairs
from tabside.model.craft import Cable
from tabside.model.natural import natural

Becomes = dict[str, tuple[Cable, dict[str, str]]]  # old cable -> new cable, and where its plugs and joints go
_LEAST_SHARE = 0.5  # of the wires of a link that an old cable from elsewhere must bring; common practice, no source


class Cables(NamedTuple):
    """The plan for all cables, and the leads as it uses them."""

    fates: tuple[CableFate, ...]
    leads: LeadFates


def fates_of_cables(old: Side, new: Side, matching: Matching, leads: LeadFates) -> Cables:
    """Each cable of both builds once; old cables that no link keeps are offered to the links that need one."""
    stays = dict((*leads.kept, *leads.altered))
    owner = {ends: cable.mark for cable in new.craft.cables for ends in wires_of(new, cable)}
    pairs = _paired(old, new, matching, stays, owner)
    if not (leads.altered or leads.removed or leads.added):
        return _all_kept(old, new, matching, leads, {now.mark: mark for mark, (now, _) in pairs.items()})
    first: dict[str, CableFate] = {}  # by old cable, each for itself
    for cable in old.craft.cables:
        if cable.mark not in pairs:
            continue
        wanted, places = pairs[cable.mark]
        here, there = wires_of(old, cable), wires_of(new, wanted)
        moved = moves_between(
            old,
            new,
            places,
            [e for e in leads.removed if e in here],
            [e for e in leads.added if e in there],
        )
        leads = with_moved(leads, moved)
        first[cable.mark] = Decision(old, new, matching, leads, cable, wanted, places).fate()
        leads = with_made(leads, first[cable.mark].made)
    leads = _used_elsewhere(old, new, matching, leads, pairs, first)
    leads, fates = shared_out(old, new, matching, leads, pairs, first)
    leads, single = single_wires(old, new, matching, leads)
    leads, turned = with_turned(old, new, matching, leads, (*fates, *single))
    return Cables(tuple(sorted(with_reasons(old, new, matching, leads, turned), key=_in_order)), leads)


def _used_elsewhere(
    old: Side, new: Side, matching: Matching, leads: LeadFates, pairs: Becomes, first: dict[str, CableFate]
) -> LeadFates:
    """The leads where an old cable, of which nothing will do between its own places, serves as another new one.

    `pairs` and `first` are changed so: the new cable between its places is made.
    """
    served = {pairs[mark][0].mark for mark, fate in first.items() if fate.wires}
    free = [c for c in old.craft.cables if (c.mark not in first or not first[c.mark].wires) and _is_whole(old, c)]
    wanted = [c for c in new.craft.cables if c.mark not in served and not new.live.keys() & set(c.leads)]
    theirs = {mark: now.mark for mark, (now, _) in pairs.items()}
    worth = [
        [0.0 if theirs.get(cable.mark) == other.mark else _worth(old, new, matching, cable, other) for other in wanted]
        for cable in free
    ]
    for row, column in best_pairs(worth):
        cable, other = free[row], wanted[column]
        if not worth[row][column]:
            continue
        places = _places(old, new, matching, cable, other)
        moved = moves_between(
            old,
            new,
            places,
            sorted(wires_of(old, cable), key=sorted),
            sorted(wires_of(new, other), key=sorted),
        )
        used = with_pairs(leads, moved)
        fate = Decision(old, new, matching, used, cable, other, places).fate()
        if fate.wires:
            leads = with_made(used, fate.made)
            for mark in (mark for mark, now in theirs.items() if now == other.mark):
                del pairs[mark], first[mark]
            pairs[cable.mark], first[cable.mark] = (other, places), fate
            theirs = {mark: now.mark for mark, (now, _) in pairs.items()}
    return leads


def _is_whole(old: Side, cable: Cable) -> bool:
    """Whether it goes into the drawer as it is: no part's own wires, and nothing soldered."""
    plugged = old.plugged(cable.leads)
    return set(cable.ends) <= plugged and not any(map(old.is_own, wires_of(old, cable)))


def _in_order(fate: CableFate) -> tuple[object, ...]:
    """By number, single wires as they are."""
    return (not fate.mark, natural(fate.mark))


def _all_kept(old: Side, new: Side, matching: Matching, leads: LeadFates, mains: Mapping[str, str]) -> Cables:
    """Every lead stays, or is one that the drawing leaves to choice: then cables stay, whatever ties them together."""
    by_mark = {cable.mark: cable for cable in old.craft.cables}
    fates = []
    for cable in new.craft.cables:
        was = by_mark.get(mains.get(cable.mark, ""))
        places = _places(old, new, matching, was, cable) if was is not None else {}
        fate = Decision(old, new, matching, leads, was, cable, places).fate() if was is not None else None
        if fate is None or fate.made or fate.gone:
            there = wires_of(new, cable)
            wires = tuple((a, b) for a, b in leads.kept if b in there)
            fate = CableFate(KEEP, was, cable, "", wires, places=tuple(places.items()))
        fates.append(fate)
    leads, single = single_wires(old, new, matching, leads)
    ordered = sorted(fates, key=lambda fate: natural(fate.mark))
    return Cables((*ordered, *single), leads)


def _paired(old: Side, new: Side, matching: Matching, stays: Mapping[Ends, Ends], owner: Mapping[Ends, str]) -> Becomes:
    """Old cable -> the new one that it becomes, and where each of its plugs goes."""
    by_mark = {cable.mark: cable for cable in new.craft.cables}
    free = dict(by_mark)
    found: Becomes = {}
    shared = []
    for cable in old.craft.cables:
        votes = Counter(owner[stays[e]] for e in wires_of(old, cable) if e in stays and stays[e] in owner)
        shared += [(-count, natural(cable.mark), cable, mark) for mark, count in votes.items()]
    for _, _, cable, mark in sorted(shared, key=lambda option: option[:2]):
        if cable.mark not in found and mark in free:
            found[cable.mark] = (free.pop(mark), _places(old, new, matching, cable, by_mark[mark]))
    rest = [cable for cable in old.craft.cables if cable.mark not in found]
    wanted = sorted(free.values(), key=lambda cable: natural(cable.mark))
    worth = [[_worth(old, new, matching, cable, other) for other in wanted] for cable in rest]
    for row, column in best_pairs(worth):
        if worth[row][column]:
            cable, other = rest[row], wanted[column]
            found[cable.mark] = (other, _places(old, new, matching, cable, other))
    return found


def _worth(old: Side, new: Side, matching: Matching, cable: Cable, wanted: Cable) -> float:
    """How well an old cable serves another link; 0 when it does not."""
    places = _places(old, new, matching, cable, wanted)
    stay = sum(matching.pairs.get(reference) == now for reference, now in places.items())
    if len(places) == len(cable.ends) == len(wanted.ends) == stay:
        return 2000.0  # between the same places
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
    return 1000.0 + 10.0 * stay + near - hands


def _unknown_plug(side: Side, reference: str) -> bool:
    termination = side.terminations[reference]
    return termination.takes_plug and (termination.family is None or termination.ways is None)


def _places(old: Side, new: Side, matching: Matching, cable: Cable, wanted: Cable) -> dict[str, str]:
    """Where each end of an old cable goes: where it is now, else to an end where such a plug is drawn."""
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
