"""Wires that enter no plug: soldered at both ends, or a part's own."""

from __future__ import annotations

from collections.abc import Iterable

from tabside.compare.fates.cable_fate import MAKE, MAKE_WORDS, RETIRE, CableFate
from tabside.compare.fates.conversions import Conversion
from tabside.compare.fates.decided import decided
from tabside.compare.fates.leads import LeadFates, moves_between, with_pairs
from tabside.compare.matched.matching import Matching
from tabside.compare.matched.rebuild import Rebuild
from tabside.compare.reuse.wires import Ends, as_cable
from tabside.compare.side import Side
from tabside.model.natural import natural

Link = tuple[str, ...]


def single_wires(rebuild: Rebuild, leads: LeadFates) -> tuple[LeadFates, list[CableFate]]:
    """What is done with them, by the two places that they join; and the leads as it uses them."""
    old, new, matching = rebuild
    loose = [{ends for ends, lead in side.leads.items() if lead.cable is None} for side in (old, new)]
    moved = moves_between(
        old,
        new,
        matching.pairs,
        [wire for wire in leads.removed if wire in loose[0]],
        [wire for wire in leads.added if wire in loose[1]],
    )
    leads = with_pairs(leads, [pair for pair in moved if one_end_stays(matching, *pair)])
    known = (*leads.kept, *leads.altered, *leads.moved)
    becomes = {after: before for before, after in known if before in loose[0] and after in loose[1]}
    gone: dict[Link, list[Ends]] = {}
    used = set(becomes.values())
    for wire in (wire for wire in old.leads if wire in loose[0] and wire not in used):
        gone.setdefault(_link_now(matching, wire), []).append(wire)
    fates = []
    for link, wires in _by_link(new, loose[1]).items():
        before = [becomes[wire] for wire in wires if wire in becomes] + gone.pop(link, [])
        if before:
            was, now = as_cable(old, before), as_cable(new, wires)
            places = {place: matching.pairs[place] for place in was.ends if matching.pairs.get(place) in now.ends}
            fate, leads = decided(rebuild, leads, Conversion(was, now, places))
            fates.append(fate)
        else:
            fates.append(CableFate(MAKE, None, as_cable(new, wires), MAKE_WORDS, made=tuple(wires)))
    for wires in (wires for left in gone.values() for wires in _by_link(old, left).values()):
        own = any(map(old.is_own, wires))
        words = "Take off its far end: the part keeps it." if own else "Take it off at both ends."
        fates.append(CableFate(RETIRE, as_cable(old, wires), None, words, gone=tuple(wires)))
    return leads, fates


def one_end_stays(matching: Matching, before: Ends, after: Ends) -> bool:
    """Whether an end of the old wire is where the new one has one."""
    return any(matching.key(key) in after for key in before)


def _link_now(matching: Matching, wire: Ends) -> Link:
    """The two places in the new drawing; "" for one that has gone."""
    return tuple(sorted((matching.pairs.get(key[0], "") for key in wire), key=natural))


def _by_link(side: Side, wires: Iterable[Ends]) -> dict[Link, list[Ends]]:
    found: dict[Link, list[Ends]] = {}
    for wire in sorted(wires, key=lambda wire: natural(side.leads[wire].mark)):
        found.setdefault(side.leads[wire].link, []).append(wire)
    return found
