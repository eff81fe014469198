"""Wires that are there and could go into another cable, or get a new end: none is made that need not be.

A wire is taken over when one of its ends stays in its plug or at its joint.  Its other end then goes into another plug
of the same contacts, to another joint, or is made anew: soldered where it had a contact, crimped where it was soldered.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping
from graphlib import CycleError, TopologicalSorter
from typing import NamedTuple

from tabside.analysis.joined.lead_ends import EndKind, LeadEnd
from tabside.compare.matched.rebuild import Rebuild
from tabside.compare.reuse.wires import (
    Ends,
    end_can_move,
    gets_new_end,
    is_another_part,
    is_replaced,
    unfit,
)
from tabside.compare.side import Side
from tabside.highs import best_pairs
from tabside.model.craft import ContactKey, Kind
from tabside.model.natural import natural

Pair = tuple[Ends, Ends]  # an old wire and the new one that it becomes
_STAYS, _IN_ITS_PLUG, _ELSEWHERE, _MADE_ANEW = 0, 1, 2, 3  # what happens to an end
_NEVER = (EndKind.MADE, EndKind.SLOT, EndKind.MATED, EndKind.MATE)
_INTO_PLUG = (EndKind.CONTACT, EndKind.CUP)
_GOOD = 1000.0  # what a wire is worth that is not made


class Pool(NamedTuple):
    """What is left when each cable has kept what it can: old wires, new ones, and the cable of each."""

    old: dict[Ends, str]
    new: dict[Ends, str]
    heirs: Mapping[str, str]  # old cable -> the new cable that it becomes


def homes_of(rebuild: Rebuild, places: Iterable[Mapping[str, str]]) -> dict[str, str]:
    """Old termination -> the new one whose plug its plug becomes, or whose joint it is."""
    old, new, matching = rebuild
    found = {ref: to for place in places for ref, to in place.items() if not is_replaced(old, ref, new, to)}
    taken = set(found.values())
    for ref, to in matching.pairs.items():
        if (
            ref not in found
            and not is_replaced(old, ref, new, to)
            and not (new.terminations[to].takes_plug and to in taken)
        ):
            found[ref] = to
    return found


def taken_over(rebuild: Rebuild, homes: Mapping[str, str], pool: Pool) -> list[Pair]:
    """The most wires that need not be made, with the least work."""
    return [pair for group in groups_of_pairs(rebuild, homes, pool) for pair in group]


def groups_of_pairs(rebuild: Rebuild, homes: Mapping[str, str], pool: Pool) -> Iterator[list[Pair]]:
    """The same, those apart that compete with each other."""
    old, new = rebuild.old, rebuild.new
    lost = _not_taken_apart(old), _not_taken_apart(new)
    before = [wire for wire in pool.old if pool.old[wire] not in lost[0]]
    after = [wire for wire in pool.new if pool.new[wire] not in lost[1]]
    at: dict[str, list[Ends]] = {}
    for wire in after:
        for reference in {key[0] for key in wire}:
            at.setdefault(reference, []).append(wire)
    worth: dict[Pair, float] = {}
    for wire in before:
        near = {there for key in wire for there in at.get(homes.get(key[0], ""), ())}
        for there in near:
            work = _TakingOver(rebuild, homes, wire, there).work()
            if work is not None and not unfit(old, wire, new, there):
                moves_out = pool.heirs.get(pool.old[wire]) != pool.new[there]
                worth[wire, there] = _GOOD - 10 * work - moves_out
    for rows, columns in _apart(worth):
        table = [[worth.get((a, b), 0.0) for b in columns] for a in rows]
        yield [(rows[r], columns[c]) for r, c in best_pairs(table) if table[r][c]]


def in_turn(giving: Mapping[str, Collection[str]]) -> list[str] | None:
    """New cables, each after those whose plugs its wires come out of; None when some wait for each other."""
    try:
        return list(TopologicalSorter(giving).static_order())
    except CycleError:
        return None


def _not_taken_apart(side: Side) -> set[str]:
    """Cables that are one object, and those of a pack: it is live, and its plug is never re-pinned."""
    found = set()
    for cable in side.craft.cables:
        ends = [side.terminations[reference] for reference in cable.ends]
        kinds = {end.kind for mark in cable.leads for end in side.made_by_mark[mark].ends}
        if kinds & {EndKind.MADE, EndKind.SLOT} or any(
            end.kind is Kind.CAPTIVE and end.board in side.packs for end in ends
        ):
            found.add(cable.mark)
    return found


class _TakingOver(NamedTuple):
    """An old wire that could become a new one."""

    rebuild: Rebuild
    homes: Mapping[str, str]
    before: Ends
    after: Ends

    def work(self) -> int | None:
        """How much is done to its two ends, at the least; None when it cannot be, or when neither of them stays."""
        a, b = self.rebuild.old.made[self.before].ends
        there = self.rebuild.new.made[self.after].ends
        found = []
        for c, d in (there, there[::-1]):
            done = self._done(a, c), self._done(b, d)
            known = [work for work in done if work is not None]
            if len(known) == len(done) and min(known) <= _IN_ITS_PLUG:
                found.append(sum(known))
        return min(found, default=None)

    def _done(self, here: LeadEnd, there: LeadEnd) -> int | None:
        """What happens to one end; None when it cannot be."""
        old, new, _ = self.rebuild
        if here.kind in _NEVER or there.kind in _NEVER:
            return None
        at_home = self.homes.get(here.key[0]) == there.key[0]
        if EndKind.OWN in (here.kind, there.kind):
            stays = here.kind is there.kind and at_home and here.key[1] == there.key[1]
            return _STAYS if stays and not is_another_part(old, self.before, new, self.after) else None
        anew = gets_new_end(old, self.before, here.key, new, self.after, there.key)
        if at_home and here.key[1] == there.key[1] and not anew:
            return _STAYS
        if anew:
            can = here.kind in _INTO_PLUG or there.kind in _INTO_PLUG
            return _MADE_ANEW if can else None
        if not end_can_move(old, here.key, new, there.key):
            return None
        return _IN_ITS_PLUG if at_home else _ELSEWHERE


def _apart(worth: Mapping[Pair, float]) -> Iterator[tuple[list[Ends], list[Ends]]]:
    """Old and new wires that compete with each other, apart from the others."""
    near: dict[tuple[bool, Ends], list[tuple[bool, Ends]]] = {}
    for before, after in worth:
        near.setdefault((True, before), []).append((False, after))
        near.setdefault((False, after), []).append((True, before))
    seen: set[tuple[bool, Ends]] = set()
    for start in sorted(near, key=lambda wire: (wire[0], sorted(wire[1]))):
        if start in seen:
            continue
        group, waiting = [], [start]
        while waiting:
            wire = waiting.pop()
            if wire not in seen:
                seen.add(wire)
                group.append(wire)
                waiting += near[wire]
        ordered = sorted(group, key=lambda wire: sorted(map(natural_key, wire[1])))
        yield [wire for is_old, wire in ordered if is_old], [wire for is_old, wire in ordered if not is_old]


def natural_key(key: ContactKey) -> tuple[object, ...]:
    return (natural(key[0]), natural(key[1]))
