"""Wires that a pack reaches though its plug is out: its own wires, and what goes on from their splices and fuses.

What `tabside plan` says of a pack's own wires holds for each of these: fuse out, marked LIVE, one wire at a time, what
is bare is taped at once, every joint covered, the fuse back, then volts and never ohms.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from collections.abc import Set as AbstractSet
from typing import NamedTuple

from msgspec.structs import replace

from tabside.analysis.lead_ends import EndKind, LeadEnd
from tabside.compare.fates.cable_fate import CableFate, becomes_of_wires
from tabside.compare.matching import Matching
from tabside.compare.side import Side
from tabside.compare.work.worded import AT_JOINT, BARED, ON, of_no_wire, old_number
from tabside.make.needs.live_leads import fuses, switches
from tabside.make.sheets.cable_plan import OFF, Action, Step
from tabside.model.craft import ContactKey, Kind
from tabside.model.natural import natural
from tabside.prove.measurement import Measurement, RowKind, touched_leads
from tabside.words.contacts import listed
from tabside.words.fuses import are_breakers, leave_out

_TURNS = (*OFF, *BARED, Action.CRIMP, Action.PUT_IN, *AT_JOINT)


class Circuit(NamedTuple):
    """What a pack of the new build reaches: packs in series, or that meet in a splice, are one circuit."""

    packs: tuple[str, ...]
    wires: frozenset[str]
    places: frozenset[str]
    fuses: tuple[str, ...]
    switches: tuple[str, ...]
    loads: int  # what takes its current and is not plugged in, at plus
    gated: bool  # a fuse, once it is out, parts each of its packs from all loads and plugs
    in_series: bool = False  # one pack's plus is on another one's minus

    def waits_for(self, packs: Collection[str]) -> bool:
        """Whether its volts are nowhere on the craft before these packs are on."""
        return self.in_series and any(pack in packs for pack in self.packs)

    @property
    def has_plug(self) -> bool:
        """Whether it ends in plugs: it can be parted from the craft."""
        return not self.loads

    def is_of(self, row: Measurement) -> bool:
        """Whether its volts are measured there."""
        leads = {end.lead for end in row.ends if end.lead}
        return bool(leads & self.wires) if leads else bool({end.termination for end in row.ends} & self.places)

    def has_gate(self, joint_at_load: bool) -> bool:
        """Whether its fuses or switches keep power from more than the last joint."""
        return bool(self.fuses or self.switches) and self.loads > int(joint_at_load)

    @property
    def powers(self) -> bool:
        """Whether its last joint brings power onto the craft."""
        return not self.has_plug and not self.gated

    def fuse_stays_out(self) -> str:
        """Of a pack that has no plug."""
        if are_breakers(self.fuses):
            return f"{leave_out(self.fuses)}: this pack has no plug. First power is through a smoke stopper"
        return f"{leave_out(self.fuses)}: this pack has no plug. At first power put a smoke stopper in its place"


def fuse_waits(fuses: Collection[str]) -> str:
    """Where nothing but the fuse keeps a pack's power from the craft."""
    then = "that is through a smoke stopper" if are_breakers(fuses) else "then a smoke stopper in its place first"
    return f"{leave_out(fuses)} until first power; {then}"


class Hot(NamedTuple):
    """Where a pack's voltage is while the work goes on."""

    old: frozenset[str]  # old numbers of wires
    new: frozenset[str]  # new numbers: while the pack stays on
    own: Mapping[str, str]  # new number of each own wire of a pack that stays on -> where it ends
    minus_at: Mapping[str, frozenset[str]]  # pack of the new build -> where its own minus is joined
    minus: frozenset[str]  # of all these the ones on ground, or from pack to pack in series, new numbers
    fuses: tuple[str, ...]  # in these wires, as the new drawing calls them
    switches: tuple[str, ...]  # the same
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
        breakers = [name for name in self.out if are_breakers((name,))]
        out = [name for name in self.out if name not in breakers]
        again = "; it goes in again for the volts" if self.fuses and self.has_plug else ""
        done = [f"no fuse in {', '.join(out)} from here on: take it out{again}"] if out else []
        done += [f"switch {', '.join(breakers)} off"] if breakers else []
        done += [f"switch {', '.join(self.switches)} off"] if self.switches else []
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
    there = fuses(new.craft, known)
    gone = (fuse for fuse in fuses(old.craft, before) if matching.pairs.get(fuse) not in there)
    out = (*there, *(f"{fuse} of the old drawing" for fuse in gone))
    on_off = switches(new.craft, known)
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


def joints_that_stay(new: Side, hot: Hot, lifted: Collection[str]) -> dict[ContactKey, str]:
    """Where packs' own wires are on, under their covers, all the time; `lifted`: wires that a step takes off."""
    stay = [mark for mark, place in hot.was_at.items() if hot.own[mark] == place]
    found = {far_key(new, mark): mark for mark in stay if mark not in hot.off and mark not in lifted}
    return {key: f"{new.name(key[0])} {key[1]}, where {mark} of {hot.packs[mark]} is" for key, mark in found.items()}


def circuits_of(side: Side) -> Iterator[Circuit]:
    """What its packs reach."""
    live, made = side.live, side.made_by_mark
    found: list[tuple[set[str], frozenset[str]]] = []
    for pack in sorted(set(live.values()), key=natural):
        names, wires = {pack}, side.reached(mark for mark in live if live[mark] == pack)
        for other in [circuit for circuit in found if circuit[1] & wires]:
            found.remove(other)
            names, wires = names | other[0], wires | other[1]
        found.append((names, wires))
    for names, wires in found:
        places, minus = met(side, wires), {mark for mark in wires if side.is_minus(mark)}
        plus = wires - minus
        yield Circuit(
            tuple(sorted(names, key=natural)),
            wires,
            frozenset(places),
            fuses(side.craft, places),
            switches(side.craft, places),
            len({end.key for mark in plus or wires for end in made[mark].ends if at_load(side, end)}),
            all(
                _is_gated(side, own)
                for name in names
                if not meets_minus(side, own := {mark for mark in live if live[mark] == name} - minus, name)
            ),
            any(
                meets_minus(side, [mark for mark in live if live[mark] == name and mark in plus], name)
                for name in names
            ),
        )


def meets_minus(side: Side, plus: Iterable[str], pack: str) -> bool:
    """Whether this pack's plus goes on to the minus of the next one: that one is parted from the craft."""
    others = (mark for mark in side.reached(plus) if side.live.get(mark, pack) != pack)
    return any(side.is_minus(mark) for mark in others)


def _is_gated(side: Side, plus: Collection[str]) -> bool:
    """Whether fuses are on every way from these wires of a pack to a load or a plug, and there is one."""
    known = set(fuses(side.craft, side.terminations))
    waiting, seen, met_fuse = [side.by_mark[mark] for mark in plus], set[str](), False
    while waiting:
        lead = waiting.pop()
        if lead.mark in seen:
            continue
        seen.add(lead.mark)
        for end in side.made_by_mark[lead.mark].ends:
            passes = side.terminations[end.key[0]].kind in (Kind.SPLICE, Kind.INLINE)
            if not passes and (end.kind is not EndKind.OWN or at_load(side, end)):
                return False
            fused = end.key[0] in known
            met_fuse = met_fuse or fused
            waiting += [
                other
                for other in side.craft.leads
                if passes and any(key == end.key if fused else key[0] == end.key[0] for key in other.ends)
            ]
    return met_fuse or not plus


def at_load(side: Side, end: LeadEnd) -> bool:
    """Whether nothing parts the wire there from what takes the pack's current: a pad, or a lamp's own wire."""
    other = side.terminations[end.key[0]].board not in side.packs
    return end.kind is EndKind.PAD or (end.kind is EndKind.OWN and other)


def met(side: Side, marks: Iterable[str]) -> set[str]:
    return {reference for mark in marks for reference, _ in side.by_mark[mark].ends}


def far_key(side: Side, mark: str) -> ContactKey:
    """Where a part's own wire ends outside the part: of a pack's at another part's own wire there."""
    ends = side.made_by_mark[mark].ends
    outside = [end for end in ends if end.kind is not EndKind.OWN]
    outside += [end for end in ends if side.terminations[end.key[0]].board != side.live.get(mark)]
    return (*outside, ends[-1])[0].key


def far_end(side: Side, mark: str) -> str:
    """The same in words."""
    reference, contact = far_key(side, mark)
    return f"{side.name(reference)} {contact}"


def old_end(old: Side, new: Side, matching: Matching, mark: str) -> str:
    """The place where a pack's own wire ends in the old build, as the new drawing calls it where it has it."""
    reference, contact = far_key(old, mark)
    now = matching.pairs.get(reference)
    return f"{new.name(now)} {contact}" if now is not None else f"{old.name(reference)} {contact} of the old drawing"


def _makes_room(step: Step, filled: Collection[tuple[str, str | None]]) -> bool:
    """Whether a cold wire is to go where this one comes off."""
    return step.action in OFF and step.cavity is not None and (step.end, step.cavity) in filled


def place_words(step: Step) -> str:
    """ "power/J2 1", "F1 2"."""
    return f"{step.termination if step.board == step.termination else step.end} {step.cavity}"


def tape_words(step: Step) -> str:
    """Over a joint of a live wire."""
    return f"cover the joint at {place_words(step)} with tape"


def _marked(step: Step) -> Step:
    return replace(step, live=True)


def at_live_wire(near: Step, action: Action, lead: str, words: str, cavity: str | None = None) -> Step:
    """A step of words at a live wire, at the place of another one."""
    return replace(
        near,
        action=action,
        cavity=cavity,
        from_mark=None,
        from_left=None,
        lead=lead,
        listed=not (lead == near.lead and near.spare),
        spare=near.spare if lead == near.lead else "",
        colour=near.colour if lead == near.lead else None,
        occupancy=(),
        parked=None,
        full=words,
        short=words,
        who=f"{lead}: ",
        power="",
        wait=None,
        signal=near.signal if lead == near.lead else "",
        live=True,
        rows=(),
        housing="",
        swap="",
    )


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
