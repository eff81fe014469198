"""Wires that a pack reaches though its plug is out: its own wires, and what goes on from their splices and fuses.

What `tabside plan` says of a pack's own wires holds for each of these: fuse out, marked LIVE, one wire at a time, what
is bare is taped at once, every joint covered, the fuse back, then volts and never ohms.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence
from collections.abc import Set as AbstractSet
from typing import NamedTuple

from tabside.compare.fates.cable_fate import CableFate, becomes_of_wires
from tabside.compare.matched.matching import Matching
from tabside.compare.matched.rebuild import Rebuild
from tabside.compare.side import Side
from tabside.compare.work.packs.circuits import (
    Circuit,
    at_load,
    circuits_of,
    far_end,
    far_key,
    meets_minus,
    met,
    old_end,
)
from tabside.compare.work.worded import AT_JOINT, BARED, old_number
from tabside.make.needs.live_leads import fuses, switches
from tabside.make.sheets.cable_plan import OFF, Action, Step
from tabside.model.craft import ContactKey
from tabside.prove.measurement import Measurement, RowKind, touched_leads

_TURNS = (*OFF, *BARED, Action.CRIMP, Action.PUT_IN, *AT_JOINT)


class Hot(NamedTuple):
    """Where a pack's voltage is while the work goes on."""

    old: frozenset[str]  # old numbers of wires
    new: frozenset[str]  # new numbers: while the pack stays on
    own: Mapping[str, str]  # new number of each own wire of a pack that stays on -> where it ends
    minus_at: Mapping[str, frozenset[str]]  # pack of the new build -> where its own minus is joined
    minus: frozenset[str]  # of all these the ones on ground, or from pack to pack in series, new numbers
    fuses: tuple[str, ...]  # in these wires, as the new drawing calls them
    switches: tuple[str, ...]  # the same
    off_now: tuple[str, ...]  # with those that the old drawing alone has
    out: tuple[str, ...]  # the fuses, with those that the old drawing alone has
    packs: Mapping[str, str]  # own wires of packs in the new build, new numbers: whose they are
    circuits: tuple[Circuit, ...]  # of the new build
    at_loads: frozenset[str]  # terminations in the new build at which nothing parts a live wire from a load
    off: frozenset[str]  # new numbers of a pack's own wires that come off before all else
    dead: frozenset[str]  # new numbers of what hangs on these alone: it is worked on before they are on again
    old_dead: frozenset[str]  # the same, old numbers
    was_at: Mapping[str, str]  # new number of each own wire of a pack that stays on -> where it ends at first
    old_fed: frozenset[str]  # old numbers of all that packs reach in the old drawing
    old_minus: frozenset[str]  # of these the ones on a pack's minus

    @property
    def mine(self) -> AbstractSet[str]:
        """Own wires of packs in the new build, new numbers."""
        return self.packs.keys()

    @property
    def has_plug(self) -> bool:
        """Whether plugs part all packs of the new build from the craft."""
        return all(circuit.has_plug for circuit in self.circuits)

    def is_live(self, step: Step, olds: Mapping[str, str]) -> bool:
        """`olds`: how steps call an old wire -> its old number."""
        if self.is_dead(step, olds):
            return False
        if step.live:
            return True
        was = old_number(step, olds)
        if was is not None and was in self.old and step.action in (_TURNS if self.stays(step) else OFF):
            return True
        return step.lead in self.new and step.action in AT_JOINT

    def is_dead(self, step: Step, olds: Mapping[str, str]) -> bool:
        """Whether the wire in hand hangs on one alone that is off; `olds` as in `is_live`."""
        return step.lead in self.dead or old_number(step, olds) in self.old_dead

    def is_minus_of_pack(self, step: Step, olds: Mapping[str, str]) -> bool | None:
        """Whether the wire in hand hangs on a pack's minus, not its plus; None of any that hangs on no pack."""
        was = old_number(step, olds)
        if was is not None and was in self.old_fed:
            return was in self.old_minus
        return step.lead in self.minus if any(step.lead in at.wires for at in self.circuits) else None

    def stays(self, step: Step) -> bool:
        """Whether its wire is on a pack afterwards as well; else it is cold once it is off."""
        return step.lead in self.new or step.lead in self.mine

    def by_meter(self, row: Measurement) -> bool:
        """Whether a meter may measure it: no row sends an ohmmeter to a pack."""
        return row.kind is not RowKind.BEEP or not touched_leads(row) & self.new


def hot_wires(rebuild: Rebuild, fates: Iterable[CableFate], off: Collection[str]) -> Hot:
    """`off`: old numbers of wires that come off before all else."""
    old, new, matching = rebuild
    was, now = old.live, new.live
    becomes = becomes_of_wires(rebuild, fates)
    stay = {mark: becomes[mark] for mark in was if becomes.get(mark) in now}
    old_reach, new_reach = old.reached(stay) | frozenset(was), new.reached(stay.values())
    old_fed = old.reached(was)
    before = met(old, old_fed)  # what a pack that goes reaches until it is off
    known = {matching.pairs[ref] for ref in before if ref in matching.pairs} | met(new, new_reach | new.reached(now))
    lasting = {becomes[mark] for mark in old_reach if mark in becomes} | new_reach | set(now)
    minus = {mark for mark in lasting if new.is_minus(mark)}
    minus |= {mark for mark in now if mark not in minus and meets_minus(new, (mark,), now[mark])}
    there, on_off = fuses(new.craft, known), switches(new.craft, known)
    out = _with_old(there, fuses(old.craft, before), matching)
    circuits = tuple(circuits_of(new))
    ends = (end for at in circuits for mark in at.wires for end in new.made_by_mark[mark].ends)
    dead = _dead_wires(rebuild, becomes, off)
    return Hot(
        old=old_reach,
        new=new_reach,
        own={mark: far_end(new, mark) for mark in stay.values()},
        minus_at={pack: _minus_at(new, pack, minus) for pack in now.values()},
        minus=frozenset(minus),
        fuses=there,
        switches=on_off,
        off_now=_with_old(on_off, switches(old.craft, before), matching),
        out=out,
        packs=now,
        circuits=circuits,
        at_loads=frozenset(end.key[0] for end in ends if at_load(new, end)),
        old_fed=old_fed,
        old_minus=frozenset(mark for mark in old_fed if old.is_minus(mark)),
        off=frozenset(becomes[mark] for mark in off if mark in becomes),
        dead=dead.new,
        old_dead=dead.old,
        was_at={becomes[mark]: old_end(rebuild, mark) for mark in stay},
    )


def _with_old(now: Sequence[str], before: Iterable[str], matching: Matching) -> tuple[str, ...]:
    """Fuses or switches, and those that the old drawing alone has."""
    return (*now, *(f"{each} of the old drawing" for each in before if matching.pairs.get(each) not in now))


def _minus_at(new: Side, pack: str, minus: Collection[str]) -> frozenset[str]:
    """Where its own minus is joined."""
    return frozenset(met(new, (mark for mark in new.live if new.live[mark] == pack and mark in minus)))


class _Dead(NamedTuple):
    """What hangs on wires alone that are off, by the numbers of both drawings."""

    old: frozenset[str]
    new: frozenset[str]


def _dead_wires(rebuild: Rebuild, becomes: Mapping[str, str], off: Collection[str]) -> _Dead:
    """A wire that goes on is dead in both builds, or in none."""
    old, new = rebuild.old, rebuild.new
    off_now = {becomes[mark] for mark in off if mark in becomes}
    comes = new.live.keys() - becomes.values()  # on a pack of the new drawing alone: on last of all
    was = {mark for mark, own in old.fed_by.items() if mark not in old.live and own <= set(off)}
    now = {
        mark for mark, own in new.fed_by.items() if mark not in new.live and own & off_now and own <= off_now | comes
    }
    was -= {mark for mark in was if becomes.get(mark, "") in new.fed_by and becomes[mark] not in now}
    now -= {becomes[mark] for mark in becomes if mark in old.fed_by and mark not in was}
    return _Dead(frozenset(was), frozenset(now))


def joints_that_stay(new: Side, hot: Hot, lifted: Collection[str]) -> dict[ContactKey, str]:
    """Where packs' own wires are on, under their covers, all the time; `lifted`: wires that a step takes off."""
    stay = [mark for mark, place in hot.was_at.items() if hot.own[mark] == place]
    found = {far_key(new, mark): mark for mark in stay if mark not in hot.off and mark not in lifted}
    return {key: f"{new.name(key[0])} {key[1]}, where {mark} of {hot.packs[mark]} is" for key, mark in found.items()}
