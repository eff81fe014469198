"""Wires that a pack reaches though its plug is out: its own wires, and what goes on from their splices and fuses.

What `tabside plan` says of a pack's own wires holds for each of these: fuse out, marked LIVE, one wire at a time, what
is bare is taped at once, every joint covered, the fuse back, then volts and never ohms.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from collections.abc import Set as AbstractSet
from typing import NamedTuple

from msgspec.structs import replace

from tabside.compare.fates.cable_fate import CableFate, becomes_of_wires
from tabside.compare.matched.matching import Matching
from tabside.compare.side import Side
from tabside.compare.work.packs.at_live_wires import _marked, at_live_wire, place_words, tape_words
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
from tabside.compare.work.worded import AT_JOINT, BARED, ON, of_no_wire, old_number
from tabside.make.needs.live_leads import fuses, switches
from tabside.make.sheets.cable_plan import OFF, Action, Step
from tabside.model.craft import ContactKey
from tabside.model.natural import natural
from tabside.prove.measurement import Measurement, RowKind, touched_leads
from tabside.words.contacts import listed

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
        if was is not None and was in self.old and step.action in (_TURNS if self._stays(step) else OFF):
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

    def _stays(self, step: Step) -> bool:
        """Whether its wire is on a pack afterwards as well; else it is cold once it is off."""
        return step.lead in self.new or step.lead in self.mine

    def by_meter(self, row: Measurement) -> bool:
        """Whether a meter may measure it: no row sends an ohmmeter to a pack."""
        return row.kind is not RowKind.BEEP or not touched_leads(row) & self.new

    def in_order(
        self,
        steps: Sequence[Step],
        olds: Mapping[str, str],
        rows: Mapping[str, Sequence[str | None]],
        now_at: Mapping[str, str],
        *,
        fuse: bool,
    ) -> list[Step]:
        """The same steps, those at live wires last, wire by wire; `olds` as in `is_live`.

        `rows`: what sat in each plug before, by the name of its end, empty for a sheet of the plan; `now_at`: where
        packs' own wires end when the sheet begins; `fuse`: it is still in.
        """
        live = [step for step in steps if self.is_live(step, olds)]
        if not live:
            return list(steps)
        if not rows and all(step.live or step.spare for step in live):
            return list(self._inplace_words(steps, live, now_at, fuse=fuse))  # the plan's own order
        cold, looks, later = [], [], []
        places = {step.end for step in live}
        for step in (step for step in steps if step not in live):
            if step.action is Action.TEST and not step.rows and step.end in places:
                later.append(step)  # a look at a joint
                continue
            seen = [row for row in step.rows if row.kind is RowKind.LOOK]
            looks += [replace(step, rows=tuple(seen))] if seen else []
            left = tuple(row for row in step.rows if row.kind is RowKind.BEEP)  # volts come last of all
            cold += [] if step.rows and not left else [replace(step, rows=left)]
        before = self._fuse_out(live[0]) if fuse else []
        filled = {(step.end, step.cavity) for step in cold if step.action in ON}
        early = [step for step in live if step.spare or _makes_room(step, filled) or not self._stays(step)]
        late = [step for step in live if step not in early]
        at = next((n for n, step in enumerate(cold) if step.cavity is not None or step.action not in OFF), len(cold))
        told = [
            *cold[:at],
            *before,
            *self._covered_first(live, now_at),
            *self._by_wire(early),
            *cold[at:],
            *self._by_wire(late),
        ]
        told += later
        if looks:
            seen_once = {row.id: row for step in looks for row in step.rows}
            told.append(_inspect(looks[-1], tuple(seen_once.values())))
        return list(_followed(told, rows))

    def before_live(self, steps: Sequence[Step], now_at: Mapping[str, str], *, fuse: bool) -> Iterator[Step]:
        """What comes before these steps, where one of them is live; `now_at` and `fuse` as in `in_order`."""
        live = [step for step in steps if step.live]
        if live:
            yield from self._fuse_out(live[0]) if fuse else []
            yield from self._covered_first(live, now_at)

    def _inplace_words(
        self, steps: Sequence[Step], live: Sequence[Step], now_at: Mapping[str, str], *, fuse: bool
    ) -> Iterator[Step]:
        for step in steps:
            if step is live[0]:
                yield from self._fuse_out(step) if fuse else []
                yield from self._covered_first(live, now_at)
            yield from self._marked_and_taped(step) if step in live else [step]

    def _fuse_out(self, near: Step) -> list[Step]:
        again = "; it goes in again for the volts" if self.fuses and self.has_plug else ""
        done = [f"no fuse in {', '.join(self.out)} from here on: take it out{again}"] if self.out else []
        done += [f"switch {', '.join(self.off_now)} off"] if self.off_now else []
        return [of_no_wire(near, Action.LABEL, "; ".join(done))] if done else []

    def _covered_first(self, live: Sequence[Step], now_at: Mapping[str, str]) -> Iterator[Step]:
        """What is bare on the pack's other wires."""
        worked = {step.lead for step in live}
        others = sorted((mark for mark in now_at if mark not in worked), key=natural)
        if others:
            told = listed([f"{mark} at {now_at[mark]}" for mark in others], 40)
            words = f"first see that nothing is bare on the pack's other wires, {told}: tape over what is"
            yield at_live_wire(live[0], Action.INSULATE, others[0], words)

    def _marked_and_taped(self, step: Step) -> Iterator[Step]:
        yield _marked(step)
        if step.action in OFF and step.cavity is not None:
            bare = f"at once tape over its bare end, and over what is bare at {place_words(step)}"
            yield at_live_wire(step, Action.INSULATE, step.lead, bare, cavity=step.cavity)

    def _by_wire(self, live: Sequence[Step]) -> Iterator[Step]:
        """What goes for good first, then one wire after the other, those on ground before the rest."""
        turns: dict[str, list[Step]] = {}
        for step in live:
            turns.setdefault(step.lead, []).append(step)

        def order(lead: str) -> tuple[object, ...]:
            return (not turns[lead][0].spare, lead not in self.minus, natural(lead))

        for lead in sorted(turns, key=order):
            mine = turns[lead]
            for n, step in enumerate(mine):
                yield from self._marked_and_taped(step)
                there = [later.action for later in mine[n:] if (later.end, later.cavity) == (step.end, step.cavity)]
                if step.action is Action.SOLDER and Action.INSULATE not in there:
                    yield at_live_wire(step, Action.INSULATE, lead, tape_words(step), cavity=step.cavity)


def hot_wires(
    old: Side,
    new: Side,
    matching: Matching,
    fates: Iterable[CableFate],
    off: Collection[str],
) -> Hot:
    """`off`: old numbers of wires that come off before all else."""
    was, now = old.live, new.live
    becomes = becomes_of_wires(old, new, fates)
    stay = {mark: becomes[mark] for mark in was if becomes.get(mark) in now}
    old_reach = old.reached(stay) | frozenset(was)
    new_reach = new.reached(stay.values())
    old_fed = old.reached(was)
    before = met(old, old_fed)  # what a pack that goes reaches until it is off
    known = {matching.pairs.get(ref, ref) for ref in before} | met(new, new_reach | new.reached(now))
    own = {mark: far_end(new, mark) for mark in stay.values()}
    lasting = {becomes[mark] for mark in old_reach if mark in becomes} | new_reach | set(now)
    minus = {mark for mark in lasting if new.is_minus(mark)}
    minus |= {mark for mark in now if mark not in minus and meets_minus(new, (mark,), now[mark])}
    there, on_off = fuses(new.craft, known), switches(new.craft, known)
    out = _with_old(there, fuses(old.craft, before), matching)
    circuits = tuple(circuits_of(new))
    ends = (end for at in circuits for mark in at.wires for end in new.made_by_mark[mark].ends)
    at_loads = frozenset(end.key[0] for end in ends if at_load(new, end))
    minus_at = {pack: frozenset(met(new, (m for m in now if now[m] == pack and m in minus))) for pack in now.values()}
    old_dead = frozenset(mark for mark, own in old.fed_by.items() if mark not in old.live and own <= set(off))
    off_now = {becomes[mark] for mark in off if mark in becomes}
    comes = now.keys() - becomes.values()  # on a pack of the new drawing alone: on last of all
    dead = frozenset(
        mark for mark, own in new.fed_by.items() if mark not in new.live and own & off_now and own <= off_now | comes
    )
    old_dead -= {mark for mark in old_dead if becomes.get(mark, "") in new.fed_by and becomes[mark] not in dead}
    dead -= {now for before, now in becomes.items() if before in old.fed_by and before not in old_dead}
    return Hot(
        old=old_reach,
        new=new_reach,
        own=own,
        minus_at=minus_at,
        minus=frozenset(minus),
        fuses=there,
        switches=on_off,
        off_now=_with_old(on_off, switches(old.craft, before), matching),
        out=out,
        packs=now,
        circuits=circuits,
        at_loads=at_loads,
        old_fed=old_fed,
        old_minus=frozenset(mark for mark in old_fed if old.is_minus(mark)),
        off=frozenset(off_now),
        dead=dead,
        old_dead=old_dead,
        was_at={becomes[mark]: old_end(old, new, matching, mark) for mark in stay},
    )


def _with_old(now: Sequence[str], before: Iterable[str], matching: Matching) -> tuple[str, ...]:
    """Fuses or switches, and those that the old drawing alone has."""
    return (*now, *(f"{each} of the old drawing" for each in before if matching.pairs.get(each) not in now))


def joints_that_stay(new: Side, hot: Hot, lifted: Collection[str]) -> dict[ContactKey, str]:
    """Where packs' own wires are on, under their covers, all the time; `lifted`: wires that a step takes off."""
    stay = [mark for mark, place in hot.was_at.items() if hot.own[mark] == place]
    found = {far_key(new, mark): mark for mark in stay if mark not in hot.off and mark not in lifted}
    return {key: f"{new.name(key[0])} {key[1]}, where {mark} of {hot.packs[mark]} is" for key, mark in found.items()}


def _makes_room(step: Step, filled: Collection[tuple[str, str | None]]) -> bool:
    """Whether a cold wire is to go where this one comes off."""
    return step.action in OFF and step.cavity is not None and (step.end, step.cavity) in filled


def _inspect(step: Step, rows: tuple[Measurement, ...]) -> Step:
    return replace(step, full="inspect now", short="inspect now", rows=rows, unplug=(), plug_in=(), around=())


def _followed(steps: Iterable[Step], rows: Mapping[str, Sequence[str | None]]) -> Iterator[Step]:
    """With what sits in each plug after each step, in their new order."""
    now = {name: list(row) for name, row in rows.items()}
    for step in steps:
        row = now.get(step.end)
        cavity = step.cavity or ""
        if row is None or step.of_old or step.housing or not cavity.isdecimal() or not 1 <= int(cavity) <= len(row):
            yield step
            continue
        if step.action in OFF:
            row[int(cavity) - 1] = None
        elif step.action in ON:
            row[int(cavity) - 1] = step.lead
        yield replace(step, occupancy=tuple(row)) if step.occupancy else step
