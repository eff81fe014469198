"""What becomes of each cable: kept, plugged in elsewhere, re-pinned, used on another link, retired, or made new.

The list of leads and the list of cables are one plan: which old wire becomes which new one is decided here, cable by
cable, and both lists say it.
"""

from __future__ import annotations

from typing import NamedTuple

from tabside.compare.fates.cable_fate import KEEP, CableFate, wires_of
from tabside.compare.fates.conversions import Becomes, Conversion, conversion, conversions, worth_of
from tabside.compare.fates.decided import decided
from tabside.compare.fates.leads import LeadFates, moves_between, with_pairs
from tabside.compare.fates.not_used import with_reasons
from tabside.compare.fates.sharing import Alone, shared_out
from tabside.compare.fates.single_wires import single_wires
from tabside.compare.fates.turned import with_turned
from tabside.compare.matched.rebuild import Rebuild
from tabside.compare.reuse.wires import Ends
from tabside.compare.side import Side
from tabside.highs import best_pairs
from tabside.model.craft import Cable
from tabside.model.natural import natural


class Cables(NamedTuple):
    """The plan for all cables, and the leads as it uses them."""

    fates: tuple[CableFate, ...]
    leads: LeadFates


def fates_of_cables(rebuild: Rebuild, leads: LeadFates) -> Cables:
    """Each cable of both builds once; old cables that no link keeps are offered to the links that need one."""
    becomes = conversions(rebuild, dict((*leads.kept, *leads.altered)))
    if not (leads.altered or leads.removed or leads.added):
        return _all_kept(rebuild, leads, becomes)
    alone = _used_elsewhere(rebuild, _each_alone(rebuild, leads, becomes))
    leads, fates = shared_out(rebuild, alone)
    leads, single = single_wires(rebuild, leads)
    leads, turned = with_turned(rebuild, leads, (*fates, *single))
    return Cables(tuple(sorted(with_reasons(rebuild, leads, turned), key=_in_order)), leads)


def _each_alone(rebuild: Rebuild, leads: LeadFates, becomes: Becomes) -> Alone:
    old, new = rebuild.old, rebuild.new
    fates: dict[str, CableFate] = {}
    for cable in old.craft.cables:
        to = becomes.get(cable.mark)
        if to is None:
            continue
        here, there = wires_of(old, cable), wires_of(new, to.now)
        left_old = [wire for wire in leads.removed if wire in here]
        left_new = [wire for wire in leads.added if wire in there]
        leads = with_pairs(leads, moves_between(old, new, to.places, left_old, left_new))
        fates[cable.mark], leads = decided(rebuild, leads, to)
    return Alone(becomes, fates, leads)


def _used_elsewhere(rebuild: Rebuild, alone: Alone) -> Alone:
    """The same where an old cable, of which nothing will do between its own places, serves as another new one.

    The new cable between its places is made.
    """
    becomes, fates, leads = dict(alone.becomes), dict(alone.fates), alone.leads
    free, wanted = _unused(rebuild, alone), _unserved(rebuild, alone)
    theirs = {mark: to.now.mark for mark, to in becomes.items()}
    worth = [
        [0.0 if theirs.get(cable.mark) == other.mark else worth_of(rebuild, cable, other) for other in wanted]
        for cable in free
    ]
    for row, column in best_pairs(worth):
        cable, other = free[row], wanted[column]
        if not worth[row][column]:
            continue
        serves = conversion(rebuild, cable, other)
        fate, used = decided(rebuild, with_pairs(leads, _moves(rebuild, serves)), serves)
        if fate.wires:
            leads = used
            for mark in [mark for mark, instead in becomes.items() if instead.now.mark == other.mark]:
                del becomes[mark], fates[mark]
            becomes[cable.mark], fates[cable.mark] = serves, fate
    return Alone(becomes, fates, leads)


def _unused(rebuild: Rebuild, alone: Alone) -> list[Cable]:
    """Old cables that are whole and of which nothing is used between their own places."""
    cables = rebuild.old.craft.cables
    used = {mark for mark, fate in alone.fates.items() if fate.wires}
    return [cable for cable in cables if cable.mark not in used and _is_whole(rebuild.old, cable)]


def _unserved(rebuild: Rebuild, alone: Alone) -> list[Cable]:
    """New cables that no old one serves; a pack's own wires are never taken from elsewhere."""
    new = rebuild.new
    served = {alone.becomes[mark].now.mark for mark, fate in alone.fates.items() if fate.wires}
    return [cable for cable in new.craft.cables if cable.mark not in served and not new.live.keys() & set(cable.leads)]


def _moves(rebuild: Rebuild, serves: Conversion) -> list[tuple[Ends, Ends]]:
    """Old and new ends of the wires of a cable that serves elsewhere."""
    old, new = rebuild.old, rebuild.new
    here, there = wires_of(old, serves.was), wires_of(new, serves.now)
    return moves_between(old, new, serves.places, sorted(here, key=sorted), sorted(there, key=sorted))


def _is_whole(old: Side, cable: Cable) -> bool:
    """Whether it goes into the drawer as it is: no part's own wires, and nothing soldered."""
    plugged = old.plugged(cable.leads)
    return set(cable.ends) <= plugged and not any(map(old.is_own, wires_of(old, cable)))


def _in_order(fate: CableFate) -> tuple[object, ...]:
    """By number, single wires as they are."""
    return (not fate.mark, natural(fate.mark))


def _all_kept(rebuild: Rebuild, leads: LeadFates, becomes: Becomes) -> Cables:
    """Every lead stays, or is one that the drawing leaves to choice: then cables stay, whatever ties them together."""
    mains = {to.now.mark: to.was for to in becomes.values()}
    fates = [_kept(rebuild, leads, mains.get(cable.mark), cable) for cable in rebuild.new.craft.cables]
    leads, single = single_wires(rebuild, leads)
    ordered = sorted(fates, key=lambda fate: natural(fate.mark))
    return Cables((*ordered, *single), leads)


def _kept(rebuild: Rebuild, leads: LeadFates, was: Cable | None, now: Cable) -> CableFate:
    there = wires_of(rebuild.new, now)
    wires = tuple((before, after) for before, after in leads.kept if after in there)
    if was is None:
        return CableFate(KEEP, None, now, "", wires)
    stays = conversion(rebuild, was, now)
    fate, _ = decided(rebuild, leads, stays)
    if fate.made or fate.gone:
        return CableFate(KEEP, was, now, "", wires, places=tuple(stays.places.items()))
    return fate
