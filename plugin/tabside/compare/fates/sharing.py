"""Which old wires each new cable is made of, when cables are joined, split, or exchange wires.

Every old cable has kept what it can in the new one that it becomes.  What is left over on one side and missing on the
other is shared out here; then each new cable is decided once more, from all that goes into it.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterable, Mapping, Sequence
from typing import NamedTuple

from tabside.compare.fates.cable_fate import MAKE, MAKE_WORDS, RETIRE, CableFate, contact_pairs, wires_of, with_sources
from tabside.compare.fates.conversions import Becomes, Conversion
from tabside.compare.fates.decided import Decided, decided
from tabside.compare.fates.leads import LeadFates, with_pairs
from tabside.compare.fates.taken_over import Pair, Pool, groups_of_pairs, homes_of, in_turn, taken_over
from tabside.compare.matched.rebuild import Rebuild
from tabside.compare.reuse.wires import Ends, another_plug
from tabside.model.craft import Cable
from tabside.model.natural import natural

RETIRE_WORDS = "Put it into stock, tagged with its order."
OWN_GO_WORDS = "Its wires are a part's own and go with it."
OWN_STAY_WORDS = "Its wires are a part's own and stay on it: cover and tie back those that no other sheet connects."


class Alone(NamedTuple):
    """What each old cable keeps by itself, before wires are shared out."""

    becomes: Becomes
    fates: Mapping[str, CableFate]  # by the old cable's number
    leads: LeadFates


def shared_out(rebuild: Rebuild, alone: Alone) -> tuple[LeadFates, list[CableFate]]:
    """The leads as they are used, and each cable of both builds once."""
    old, new = rebuild.old, rebuild.new
    plan = _Sharing(rebuild, alone)
    plan.share(alone.leads)
    leads = with_pairs(alone.leads, plan.taken)
    fates = []
    for cable in new.craft.cables:
        if cable.mark not in plan.changed:
            fates += [fate for fate in alone.fates.values() if fate.new is not None and fate.new.mark == cable.mark]
        elif plan.sources(cable.mark):
            fate, leads = plan.decided(leads, cable)
            fates.append(fate)
    there = {fate.new.mark for fate in fates if fate.new is not None}
    for cable in new.craft.cables:
        if cable.mark not in there:
            fates.append(CableFate(MAKE, None, cable, MAKE_WORDS, made=tuple(wires_of(new, cable))))
    for cable in old.craft.cables:
        if cable.mark not in alone.becomes and cable.mark not in plan.used:
            words = _retire_words(rebuild, cable)
            fates.append(CableFate(RETIRE, cable, None, words, gone=tuple(wires_of(old, cable))))
    return leads, fates


def _retire_words(rebuild: Rebuild, cable: Cable) -> str:
    """A part's own wires are no cable for the drawer."""
    old, matching = rebuild.old, rebuild.matching
    parts = {reference for wire in wires_of(old, cable) for reference, _ in old.own_ends(wire)}
    if not parts:
        return RETIRE_WORDS
    return OWN_STAY_WORDS if parts & matching.pairs.keys() else OWN_GO_WORDS


class _Sharing:
    """Old wires by the new cable that they go into."""

    def __init__(self, rebuild: Rebuild, alone: Alone) -> None:
        self._rebuild, self._becomes, self._first = rebuild, alone.becomes, alone.fates
        self._old, self._new, _ = old, new, _ = rebuild
        self._homes = homes_of(rebuild, [conversion.places for conversion in self._becomes.values()])
        self._cable_of = {wire: cable for cable in old.craft.cables for wire in wires_of(old, cable)}
        self._owner = {wire: cable.mark for cable in new.craft.cables for wire in wires_of(new, cable)}
        self._heirs = {mark: conversion.now.mark for mark, conversion in self._becomes.items()}
        self._mains = {now: mark for mark, now in self._heirs.items()}
        self.taken: list[Pair] = []
        self.goes: dict[Ends, str] = {}  # old wire -> the new cable that it goes into, or with which it is worked on
        self.used: set[str] = set()  # old cables of which something goes on
        self.changed: set[str] = set()  # new cables that are decided anew

    def share(self, leads: LeadFates) -> None:
        """Without wires that would make two cables wait for each other."""
        kept = dict.fromkeys(pair for fate in self._first.values() for pair in fate.wires)
        pool = self._left_over(kept)
        same = [pair for pair in leads.kept if pair[0] in pool.old and pair[1] in pool.new]
        for before, after in same:
            del pool.old[before], pool.new[after]
        self.taken = [*same, *taken_over(self._rebuild, self._homes, pool)]
        kept = self._with_moves_exchanged(leads, pool, kept)
        self._move_plugs()
        while True:
            self._settle(kept)
            if in_turn(self._waiting(self.goes)) is not None:
                return
            order = in_turn(self._waiting({before: self._owner[after] for before, after in (*kept, *self.taken)}))
            if order is not None:
                self._settle(kept, order)
                return
            self.taken.remove(next(pair for pair in reversed(self.taken) if self._crosses(*pair)))

    def _left_over(self, kept: Collection[Pair]) -> Pool:
        """All wires but those that cables keep, and those in a part's own plug."""
        used, served = {before for before, _ in kept}, {after for _, after in kept}
        return Pool(
            {
                wire: cable.mark
                for wire, cable in self._cable_of.items()
                if wire not in used and not self._old.is_in_own_plug(wire)
            },
            {
                wire: mark
                for wire, mark in self._owner.items()
                if wire not in served and not self._new.is_in_own_plug(wire)
            },
            self._heirs,
        )

    def sources(self, mark: str) -> list[Cable]:
        """Old cables of which the new one is made, the one that becomes it first."""
        found = {self._cable_of[wire].mark for wire, goes in self.goes.items() if goes == mark}
        main = self._mains.get(mark)
        ordered = sorted(found | ({main} if main else set()), key=lambda mark: (mark != main, natural(mark)))
        return [cable for mark in ordered for cable in self._old.craft.cables if cable.mark == mark]

    def decided(self, leads: LeadFates, cable: Cable) -> Decided:
        """The new cable, decided from all old wires that go into it, as if they had been one old cable."""
        wires = sorted((wire for wire, goes in self.goes.items() if goes == cable.mark), key=self._order)
        main = self._mains.get(cable.mark)
        met = {reference for wire in wires for reference, _ in wire}
        marks = tuple(self._old.leads[wire].mark for wire in wires)
        was = Cable(main or "", tuple(sorted(met, key=natural)), marks)
        of_main = self._becomes[main].places if main else {}
        places = {ref: to for ref, to in of_main.items() if ref in met}
        self._find_places(places, (pair for pair in leads.pairs if self._is_within(cable.mark, *pair)))
        found = decided(self._rebuild, leads, Conversion(was, cable, places), set(self.taken))
        sources = tuple(source.mark for source in self.sources(cable.mark))
        others = sources if sources != (main,) else ()
        lent = self._lent(cable.mark, dict(found.fate.places))
        return found._replace(fate=with_sources(found.fate, others, lent))

    def _is_within(self, mark: str, before: Ends, after: Ends) -> bool:
        """Whether an old wire that goes into this new cable becomes one of its wires."""
        return self.goes.get(before) == mark == self._owner.get(after)

    def _find_places(self, places: dict[str, str], pairs: Iterable[Pair]) -> None:
        """Where the other plugs and joints of these wires go, added to those that are known; one plug a connector."""
        for before, after in pairs:
            for ref in sorted({reference for reference, _ in before}):
                to = self._homes.get(ref)
                if to is None or ref in places or to not in {reference for reference, _ in after}:
                    continue
                if not (self._new.terminations[to].takes_plug and to in places.values()):
                    places[ref] = to

    def _move_plugs(self) -> None:
        """A plug that has no place of its own any more goes along with its wires where such a plug is drawn."""
        counts: Counter[tuple[str, str]] = Counter()
        for before, after in self.taken:
            for here, there in contact_pairs(self._homes, before, after):
                counts[here[0], there[0]] += 1
        for ref, to in sorted(counts, key=lambda pair: (-counts[pair], natural(pair[0]), natural(pair[1]))):
            free = ref not in self._homes and to not in self._homes.values()
            plug = self._old.terminations[ref].takes_plug and self._new.terminations[to].takes_plug
            if free and plug and not another_plug(self._old, ref, self._new, to):
                self._homes[ref] = to

    # --- the plan --------------------------------------------------------------------------------------------

    def _order(self, wire: Ends) -> tuple[tuple[int, int, str], ...]:
        return natural(self._old.leads[wire].mark)

    def _crosses(self, before: Ends, after: Ends) -> bool:
        """Whether the wire goes into a cable that its own one does not become."""
        return self._heirs.get(self._cable_of[before].mark) != self._owner[after]

    def _with_moves_exchanged(self, leads: LeadFates, pool: Pool, kept: Mapping[Pair, None]) -> dict[Pair, None]:
        """What each cable keeps, without moves within it that stand in the way of more wires that need not be made."""
        missing = pool.new.keys() - {b for _, b in self.taken}
        moved = [pair for pair in leads.moved if pair in kept and not self._old.is_in_own_plug(pair[0])]
        if not missing or not moved:
            return dict(kept)
        wide = Pool(
            pool.old | {a: self._cable_of[a].mark for a, _ in moved},
            pool.new | {b: self._owner[b] for _, b in moved},
            pool.heirs,
        )
        left = dict(kept)
        for group in groups_of_pairs(self._rebuild, self._homes, wide):
            olds, news = {a for a, _ in group}, {b for _, b in group}
            before = [pair for pair in (*self.taken, *moved) if pair[0] in olds or pair[1] in news]
            if len(group) > len(before):
                self.taken = [*(pair for pair in self.taken if pair not in before), *group]
                left = {pair: None for pair in left if pair not in before}
        return left

    def _settle(self, kept: Collection[Pair], order: Sequence[str] = ()) -> None:
        """Where each old wire goes; of those that nothing becomes of, with the cable they were in.

        `order`: of the new cables, where some would wait for each other; then with the last one that has a plug of it.
        """
        self.goes = {before: self._owner[after] for before, after in (*kept, *self.taken)}
        across = [pair for pair in self.taken if self._crosses(*pair)]
        self.used = {self._cable_of[a].mark for a, _ in across}
        self.changed = {self._owner[b] for _, b in self.taken}
        self.changed |= {
            self._heirs[self._cable_of[a].mark] for a, _ in across if self._cable_of[a].mark in self._heirs
        }
        place = {mark: n for n, mark in enumerate(order)}
        plugs = self._plugs_go() if order else {}
        while True:
            unused: set[str] = set()
            for mark in self.used | {mark for mark, heir in self._heirs.items() if heir in self.changed}:
                wires = [wire for wire, cable in self._cable_of.items() if cable.mark == mark]
                votes = Counter(self.goes[wire] for wire in wires if wire in self.goes)
                heir = self._heirs.get(mark) or min(votes, key=lambda mark: (-votes[mark], natural(mark)))
                for wire in (wire for wire in wires if wire not in self.goes):
                    met = {plugs[ref] for ref, _ in wire if ref in plugs} or {heir}
                    self.goes[wire] = max(met, key=lambda mark: (place.get(mark, -1), natural(mark)))
                    unused.add(self.goes[wire])
            if not order or unused <= self.changed:
                return
            self.changed |= unused

    def _plugs_go(self) -> dict[str, str]:
        """Old termination -> the new cable that its plug becomes one of."""
        cable_at = {key[0]: mark for wire, mark in self._owner.items() for key in wire}
        return {
            ref: cable_at[to]
            for ref, to in self._homes.items()
            if to in cable_at and self._new.terminations[to].takes_plug
        }

    def _waiting(self, goes: Mapping[Ends, str]) -> dict[str, set[str]]:
        """New cable -> those that come before it: its wires are taken out of their plugs."""
        plug_goes = self._plugs_go()
        found: dict[str, set[str]] = {}
        for wire, name in goes.items():
            for reference, _ in wire:
                first = plug_goes.get(reference)
                if first is not None and first != name:
                    found.setdefault(name, set()).add(first)
        return found

    def _lent(self, mark: str, places: Mapping[str, str]) -> tuple[Ends, ...]:
        """Old wires in the plugs of this cable that go into others."""
        plugs = [ref for ref, to in places.items() if self._new.terminations[to].takes_plug]
        found = {wire for ref in plugs for wire in self._old.wires_at(ref)}
        return tuple(sorted((wire for wire in found if self.goes.get(wire, mark) != mark), key=self._order))


def order_between(fates: Iterable[CableFate]) -> dict[str, set[str]]:
    """New cable -> those whose plugs its wires come out of."""
    listed = list(fates)
    lent = {wire: fate for fate in listed for wire in fate.lends}
    found: dict[str, set[str]] = {}
    for fate in listed:
        for wire in (*(a for a, _ in fate.wires), *fate.gone):
            if wire in lent and lent[wire] is not fate:
                found.setdefault(fate.name, set()).add(lent[wire].name)
    return found
