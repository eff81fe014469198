"""Packs that are soldered to a board: off before any other work, on again after all of it.

Common practice of work at packs, no source outside.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from typing import NamedTuple

from msgspec.structs import replace

from tabside.analysis.joined.lead_ends import EndKind
from tabside.compare.fates.cable_fate import KEEP, CableFate, becomes_of_wires, called_now
from tabside.compare.matched.rebuild import Rebuild
from tabside.compare.side import IN_A_PLUG, Side, is_loose
from tabside.compare.work.cable_work import CableWork
from tabside.compare.work.packs.circuits import circuits_of, far_end, far_key, fuse_waits, meets_minus
from tabside.compare.work.packs.hot import Hot
from tabside.compare.work.packs.last_joint import from_ground, last_joint
from tabside.compare.work.taped import Taped, touched_by
from tabside.compare.work.worded import cut_cover_off, old_number
from tabside.make.needs.live_leads import fuses, switches
from tabside.make.sheets.cable_plan import OFF, Action, Step
from tabside.make.sheets.when.moments import is_volts
from tabside.make.sheets.when.pack_volts import MEASURE_VOLTS
from tabside.model.craft import ContactKey, Kind
from tabside.model.natural import natural
from tabside.prove.measurement import At, Measurement, Test
from tabside.prove.rows.row_words import row_words
from tabside.words.cautions import PARALLEL, at_live, powered_already
from tabside.words.contacts import listed
from tabside.words.fuses import take_out
from tabside.words.spare_wires import spare_name

_OFF_ALREADY = " (it is off already, before all else)"


class Parted(NamedTuple):
    """How one pack of the old drawing is parted from the craft."""

    pack: str
    now: str  # as the new drawing calls it, where that has it
    fuses: tuple[str, ...]  # next to the pack, all else is behind them
    switches: tuple[str, ...]
    wires: tuple[str, ...]  # old numbers of the wires that come off: without a fuse its plus, and what makes way


def parted(rebuild: Rebuild, fates: Collection[CableFate]) -> list[Parted]:
    """Each pack that is soldered to the craft now or then, and does not leave it by a sheet of its own."""
    old, new = rebuild.old, rebuild.new
    of_new = list(circuits_of(new))
    makes_way = {*_making_way(rebuild, fates), *_moved_with_others(rebuild, fates)}
    goes = {old.leads[wire].mark for fate in fates if fate.pack_goes for wire in fate.gone}
    was, by_mark = old.live, old.made_by_mark
    found = []
    for at in circuits_of(old):
        packs_now = {pack: _called_now(rebuild, pack) for pack in at.packs}
        then = all(circuit.has_plug for circuit in of_new if set(circuit.packs) & set(packs_now.values()))
        meets = any(old.terminations[ref].kind in (Kind.SPLICE, Kind.INLINE) for ref in at.places)
        if at.has_plug and (then or not meets):
            continue
        for pack in at.packs:
            mine = sorted((mark for mark in was if was[mark] == pack), key=natural)
            plus = [mark for mark in mine if not old.is_minus(mark)]
            if goes & set(mine) or not plus or meets_minus(old, plus, pack):
                continue
            made = [end for mark in plus for end in by_mark[mark].ends]
            ends = {
                end.key for end in made if end.kind is not EndKind.OWN or old.terminations[end.key[0]].board != pack
            }
            if at.has_plug and all(end.kind is EndKind.OWN or end.kind in IN_A_PLUG for end in made):
                continue  # its plug is out
            far = {ref for ref, _ in ends}
            near, off = fuses(old.craft, far), switches(old.craft, far)
            alone = all({lead.mark for lead in old.craft.leads if key in lead.ends} <= set(plus) for key in ends)
            behind = alone and set(near) | set(off) >= far
            away = [mark for mark in (*plus, *mine) if mark in makes_way]
            wires = dict.fromkeys(away if behind else (*plus, *away))
            found.append(Parted(pack, packs_now[pack], near if behind else (), off if behind else (), tuple(wires)))
    return found


def _called_now(rebuild: Rebuild, pack: str) -> str:
    """A pack that only has another name now is the same one."""
    old, new, matching = rebuild
    own = (ref for ref in matching.pairs if old.terminations[ref].board == pack)
    return next((new.terminations[matching.pairs[ref]].board for ref in own), pack)


def _making_way(rebuild: Rebuild, fates: Iterable[CableFate]) -> Iterator[str]:
    """Packs' own wires, old numbers, from whose joint they move to another one while other hands come there.

    Nobody solders to a joint that a pack holds live, nor unsolders from one on which another wire has just been put.
    """
    old, new, matching = rebuild
    becomes = becomes_of_wires(rebuild, fates)
    was = {now: before for before, now in becomes.items()}

    def places_now(mark: str) -> set[tuple[str, str]]:
        """Where the old wire ends, as the new drawing calls it."""
        ends = old.by_mark[mark].ends
        return {_one_place(new, (matching.pairs[ref], contact)) for ref, contact in ends if ref in matching.pairs}

    for mark in old.live:
        ref, contact = far_key(old, mark)
        now = matching.pairs.get(ref)
        if mark not in becomes or now is None or new.terminations[now].takes_plug:
            continue
        place = _one_place(new, (now, contact))
        there = {lead.mark for lead in new.craft.leads if place in {_one_place(new, key) for key in lead.ends}}
        come = {mark for mark in there - new.live.keys() if mark not in was or place not in places_now(was[mark])}
        if becomes[mark] not in there and come:
            yield mark


def _moved_with_others(rebuild: Rebuild, fates: Iterable[CableFate]) -> Iterator[str]:
    """Packs' own plus wires, old numbers, that get another joint while others go on from there, or come where it was.

    It comes off first and goes on last: no iron comes to the far side of a breaker that somebody has left on, and no
    ground onto the fuse that still has the plus on its other side.
    """
    old, new, matching = rebuild
    listed = list(fates)
    becomes = becomes_of_wires(rebuild, listed)
    worked = {mark for fate in listed if fate.new is not None and fate.what != KEEP for mark in fate.new.leads}
    for mark in old.live:
        now = becomes.get(mark)
        if now is None or now not in new.live or old.is_minus(mark):
            continue
        ref, contact = far_key(old, mark)
        left = matching.pairs.get(ref)
        stays = far_key(new, now) == (left, contact)
        come = set(new.marks_at(left)) if left is not None and is_loose(new.terminations[left]) else set()
        if not stays and ((new.reached((now,)) - new.live.keys()) | (come - {now})) & worked:
            yield mark


def _one_place(side: Side, key: ContactKey) -> tuple[str, str]:
    """A splice is one joint, whichever of its ways."""
    return (key[0], "") if side.terminations[key[0]].kind is Kind.SPLICE else key


def first_words(rebuild: Rebuild, pack: Parted, fates: Iterable[CableFate]) -> str:
    """A wire that stays is called by the number that it has been given before this; a place as the new drawing does."""
    becomes = becomes_of_wires(rebuild, fates)
    done = [take_out((name,)) for name in pack.fuses]
    done += [f"switch {name} off, and tape it so" for name in pack.switches]
    hands = [
        f"{_cover_off(rebuild, mark)}unsolder {called_now(mark, becomes)} at "
        f"{_place(rebuild, mark)}, tape its bare end at once{_and_splice(rebuild, mark)}"
        for mark in pack.wires
    ]
    if hands:
        done.append(at_live(f"{', then '.join(hands)}, and keep the pack's other wires covered"))
    return f"{pack.pack} has no plug: before any other work {' and '.join(done)}"


def _and_splice(rebuild: Rebuild, mark: str) -> str:
    """What stays in a splice may be another pack's."""
    old, matching = rebuild.old, rebuild.matching
    reference = far_key(old, mark)[0]
    name = matching.pairs.get(reference, reference)
    return f" and what is bare in {name}" if old.terminations[reference].kind is Kind.SPLICE else ""


def _place(rebuild: Rebuild, mark: str) -> str:
    """Where the wire ends, by its name in the new drawing where that has it."""
    old, new, matching = rebuild
    reference, contact = far_key(old, mark)
    now = matching.pairs.get(reference)
    return far_end(old, mark) if now is None else f"{new.name(now)} {contact}"


def _cover_off(rebuild: Rebuild, mark: str) -> str:
    """Joints at fuses, switches, splices and other parts' own wires lie under one."""
    old = rebuild.old
    covered = old.terminations[far_key(old, mark)[0]].kind in (Kind.INLINE, Kind.SPLICE, Kind.CAPTIVE)
    return f"{cut_cover_off(_place(rebuild, mark))}, " if covered else ""


def off_already(cables: Sequence[CableWork], off: Collection[str]) -> list[CableWork]:
    """The same, where a wire that a step takes off its joint is off, and taped, before all else.

    `off`: old numbers of such wires.
    """
    return [work.with_steps(_already(work.steps, work.old_leads, off)) for work in cables]


def _already(steps: Iterable[Step], olds: Mapping[str, str], off: Collection[str]) -> Iterator[Step]:
    """Its end is taped already as well; the place that it left is dead."""
    gone = ""
    for step in steps:
        taped = bool(gone) and step.action is Action.INSULATE and step.lead == gone
        gone = ""
        if step.action in OFF and old_number(step, olds) in off:
            gone = step.lead
            words = f"see that its bare end is taped{_OFF_ALREADY}"
            yield replace(step, full=words, short=words)
        elif not taped:
            yield step


def off_before(rebuild: Rebuild, packs: Iterable[Parted], fates: Iterable[CableFate]) -> dict[str, str]:
    """Old numbers of wires whose bare ends are taped before the first sheet -> as the steps call them."""
    becomes = becomes_of_wires(rebuild, fates)
    return {mark: becomes.get(mark, spare_name(mark)) for pack in packs for mark in pack.wires}


class Again(NamedTuple):
    """How packs come on again: what their last lines are written from."""

    new: Side
    rows: Sequence[Measurement]  # of the whole sheet
    step_of: Mapping[str, int]
    taped: Mapping[Taped, str]  # after the last sheet
    hot: Hot

    def measured(self, packs: Collection[tuple[str, str]]) -> set[str]:
        """Rows that these lines tell: they are not among what is measured before."""
        marks = {mark for _, mark in packs}
        volts = [row for row in self.rows if is_volts(row)]
        later = [at for at in self.hot.circuits if at.has_plug and at.comes_again({pack for pack, _ in packs})]
        told = {row.id for row in volts if row.where.at is At.BARE and row.where.lead in marks}
        return told | {row.id for row in volts if any(at.is_of(row) for at in later)}


def on_again(rebuild: Rebuild, packs: Iterable[Parted], cables: Sequence[CableWork]) -> list[tuple[str, str]]:
    """Pack, and new number of a wire of it, that no step takes off its joint: it comes on again after all else.

    Each pack's minus before its plus.
    """
    becomes = becomes_of_wires(rebuild, (work.fate for work in cables))
    worked = {old_number(step, work.old_leads) for work in cables for step in work.steps if step.action in OFF}
    stay = {
        pack.now: [becomes[mark] for mark in pack.wires if mark not in worked and mark in becomes] for pack in packs
    }
    return [
        (pack, mark) for pack in stay for mark in sorted(stay[pack], key=lambda mark: not rebuild.new.is_minus(mark))
    ]


def last_words(
    packs: Iterable[Parted], wires: Sequence[tuple[str, str]], cables: Sequence[CableWork], facts: Again
) -> Iterator[str]:
    """`wires`: as `on_again` has them."""
    hot = facts.hot
    live = any(step.live for work in cables for step in work.steps)
    for off in packs if not live else ():
        waits = [fuse_waits(off.fuses)] if off.fuses else []
        waits += [_switch_waits(off.switches)] if off.switches and not off.fuses else []
        waits += [f"leave {listed([*off.switches], 40)} off until first power"] if off.switches and off.fuses else []
        if waits:
            yield f"{off.now}: {'; '.join(waits)}"
    again = {pack for pack, _ in wires}
    on = [at for at in hot.circuits if at.powers and not at.waits_for(again) and last_joint(cables, at, hot)]
    power = [pack for at in on for pack in at.packs]
    in_series = {pack for at in hot.circuits if at.in_series for pack in at.packs}
    for pack, mark in wires:
        others = [other for other in power if other != pack and pack not in in_series]
        if facts.new.is_minus(mark):
            yield from _minus_again(pack, mark, others, facts)
        else:
            yield from _on_again(pack, mark, others, facts)
            power.append(pack)


def _switch_waits(switches: Sequence[str]) -> str:
    """Where all joints are made, and nothing but the switch keeps power from the craft."""
    names = listed([*switches], 40)
    return (
        f"leave {names} off until first power, which is then through a smoke stopper across {names}, from one contact "
        "to the other, while it is off: cut its covers off for that, LIVE, and cover it again after"
    )


def _minus_again(pack: str, mark: str, power: Sequence[str], facts: Again) -> Iterator[str]:
    """Its plus is off and taped: no power comes with it.  `power`: packs that are on the craft already."""
    place, (ref, contact) = far_end(facts.new, mark), far_key(facts.new, mark)
    if power:
        yield f"{pack}: {powered_already(facts.new.terminations[ref].board, power[-1])}"
    there = facts.taped.get(Taped(reference=ref, contact=contact))
    bared = " and ".join(filter(None, (f"the bare end of {mark}", there)))
    yield at_live(f"take the tape off {bared}")
    yield at_live(f"{mark}: while its plus is still off and taped, solder it to {place}")
    yield _look_and_cover(mark, ref, facts)


def _look_and_cover(mark: str, reference: str, facts: Again) -> str:
    rows = [row for row in facts.rows if row.test is Test.LOOK and row.where.termination == reference]
    seen = f" ({listed([f'row {facts.step_of[row.id]}' for row in rows], 40)})" if rows else ""
    return at_live(
        f"{mark}: look at the joint with a magnifier: no solder and no strand beyond it{seen}; then cover it"
    )


def _on_again(pack: str, mark: str, power: Sequence[str], facts: Again) -> Iterator[str]:
    """`power`: packs that are on the craft already."""
    new, rows, step_of = facts.new, facts.rows, facts.step_of
    all_volts = [row for row in rows if is_volts(row)]
    place, (ref, contact) = far_end(new, mark), far_key(new, mark)
    there = facts.taped.get(Taped(reference=ref, contact=contact))
    if power:
        board = new.terminations[ref].board
        yield f"{pack}: {powered_already(board, power[-1])}"
    else:
        listed_rows = [row for row in rows if row.test is Test.SHORT and row.id in step_of]
        short = [from_ground(row, all_volts, facts.hot) for row in listed_rows]
        places = sorted({facts.taped[place] for row in short for place in touched_by(row) if place in facts.taped})
        off = f"take the tape off {' and '.join(places)}, " if places else ""
        told = f" ({listed([f'row {step_of[row.id]}' for row in short], 40)})" if short else ""
        moved = [now.start for was, now in zip(listed_rows, short, strict=True) if now.start != was.start]
        told += "".join(f", black on {start}" for start in moved[:1])
        yield f"{pack}: while {mark} is still off and taped: {off}no short at the craft's side{told}, capacitors empty"
    volts = [row for row in rows if is_volts(row) and row.where.at is At.BARE and row.where.lead == mark]
    bared = f"take the tape off the bare end of {mark}, "
    if volts:
        for n, row in enumerate(volts):
            yield at_live(f"{'' if n else bared}{MEASURE_VOLTS}: row {step_of.get(row.id, '-')}: {row_words(row)}")
    else:
        yield at_live(f"{bared}{MEASURE_VOLTS}: red on the bare end of {mark}, black on a known ground: no minus sign")
    if power:
        yield at_live(PARALLEL)
    untaped = f"take the tape off {there}, " if there else ""
    yield at_live(
        f"{mark}: {untaped}first power now, through a smoke stopper between the bare end and {place}; then solder it "
        f"to {place}"
    )
    yield _look_and_cover(mark, ref, facts)
