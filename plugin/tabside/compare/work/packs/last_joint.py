"""The last joint of a pack that is soldered on: no short, volts at the bare end, a smoke stopper, solder, look, cover.

Common practice of work at packs, no source outside; the plan of a new craft has the same order.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import NamedTuple

from msgspec.structs import replace

from tabside.compare.work.cable_work import CableWork, Turn, each_step
from tabside.compare.work.looks import without_rows
from tabside.compare.work.packs.hot import Circuit, Hot, place_words, power_on
from tabside.compare.work.worded import of_no_wire
from tabside.make.sheets.cable_plan import Action, Step, Wait
from tabside.make.sheets.loose_sheets import MEASURE_VOLTS
from tabside.make.sheets.moments import is_volts
from tabside.prove.measurement import At, End, Measurement, RowKind, Test
from tabside.prove.rows.packs import BEFORE_LAST
from tabside.words.fuses import are_breakers, take_out_again

_FIRST_POWER = "first power now, through a smoke stopper at this joint; then "
_PARTS = "first the parts across wires, as listed below the cables, while the pack is off"
_SHORT = "test now, with the pack's last wire off and taped, all else plugged in and soldered"


class Left(NamedTuple):
    """What belongs to no cable and is done with the packs off."""

    rows: Sequence[Measurement]
    has_parts: bool  # parts across wires are to be soldered


def _before(steps: Sequence[Step], near: Step, rows: tuple[Measurement, ...], left: Left) -> list[Step]:
    """These steps, with what is looked for before the last joint.

    Parts across wires come before the look for a short, and before any wire of the pack on this sheet.
    """
    done = list(steps)
    if left.has_parts and rows:
        at_pack = (step.live or any(row.test is Test.SHORT for row in step.rows) for step in done)
        first = next((n for n, stop in enumerate(at_pack) if stop), len(done))
        done.insert(first, of_no_wire(near, Action.LABEL, _PARTS))
    return [*done, of_no_wire(near, Action.TEST, _SHORT, rows)] if rows else done


def joined_last(
    cables: Sequence[CableWork], at: Circuit, hot: Hot, rows: Sequence[Measurement], left: Left
) -> list[CableWork] | None:
    """The same with these steps around the last joint of a circuit; None where it is no pack's own wire's."""
    place = last_joint(cables, at, hot)
    if place is not None and at.has_gate(cables[place[0]].steps[place[1]].termination in hot.at_loads):
        place = last_joint(cables, at, hot, own=True)
    volts = [row for row in rows if is_volts(row) and at.is_of(row) and not is_own_plug(row)]
    if place is None:
        return None
    n, m = place
    short = [row for row in rows if row.test is Test.SHORT]
    mine = {row.id for row in short if at.powers or row.where.termination in at.places}
    cables = [without_rows(work, mine) if k > n else work for k, work in enumerate(cables)]  # too late by then
    work, joint = cables[n], cables[n].steps[place[1]]
    there = [row for row in volts if row.where.at is At.BARE and _is_at(row.where, joint)]
    if not there and joint.lead not in hot.mine:
        return None
    if (at.gated or at.switches) and any(_joins_minus(work, at, hot) for work in cables[n + 1 :]):
        return None  # nothing to measure against yet: at first power
    behind = joint.lead not in hot.mine  # the pack's volts come there through fuse and switch
    minus = hot.minus_at.get(hot.packs.get(joint.lead, ""), frozenset())
    volts.sort(key=lambda row: row.joined[0].termination not in minus)  # the pack's own minus, where a row is there
    at_end = (_measured_at(volts[0], joint, alone=len(at.packs) > 1, behind=behind),) if volts else ()
    told = power_on([at], MEASURE_VOLTS) if behind else MEASURE_VOLTS
    if not volts:  # the drawing does not say where they come out
        told += f": red on the bare end of {joint.lead}, black on a known ground: no minus sign"
    before = _without_told(rows, cables, left)
    first = _end_in_hand(work.steps, m)
    before = tuple(from_ground(row, volts, hot) for row in before)
    steps = _before(work.steps[:first], joint, before, left)
    volts_step = of_no_wire(joint, Action.TEST, told, tuple(there[:1]) or at_end)
    steps.append(volts_step if volts else replace(volts_step, lead=joint.lead))
    if at.switches and behind:
        steps.append(of_no_wire(joint, Action.LABEL, f"switch {', '.join(at.switches)} off again"))
    if behind and at.fuses:
        stays = "off" if are_breakers(at.fuses) else "out"
        words = f"{take_out_again(at.fuses)}; it stays {stays} until first power, with a smoke stopper"
        steps.append(of_no_wire(joint, Action.LABEL, words))
    steps += work.steps[first:m]
    steps.append(joint if at.gated else replace(joint, power=_FIRST_POWER))
    steps += work.steps[m + 1 :]
    if at.gated and not behind:
        steps.append(of_no_wire(joint, Action.LABEL, at.fuse_stays_out()))
    done = list(cables)
    done[n] = work.with_steps(steps)
    return done


def _end_in_hand(steps: Sequence[Step], joint: int) -> int:
    """Heat-shrink goes on when all is measured: until then the end is under tape."""
    first = joint
    while first and steps[first - 1].action is Action.SHRINK and steps[first - 1].lead == steps[joint].lead:
        first -= 1
    return first


def no_short_first(
    cables: Sequence[CableWork], n: int, rows: Sequence[Measurement], left: Left, hot: Hot
) -> list[CableWork]:
    """The sheet of the plan on which volts are measured, with the look for a short, and all that is left, before."""
    volts = [row for row in rows if is_volts(row)]
    done = list(cables)
    more = tuple(from_ground(row, volts, hot) for row in _without_told(rows, cables, left))
    steps: list[Step] = []
    for step in cables[n].steps:
        if any(map(is_volts, step.rows)) and more:
            steps = _before(steps, step, more, left)
            more = ()
        is_here = step.wait is not None and step.wait.last and step.wait.sheet == cables[n].fate.name
        steps.append(replace(step, wait=Wait("", last=True)) if is_here else step)
    done[n] = cables[n].with_steps(steps)
    return done


def looks_before_covers(work: CableWork) -> CableWork:
    """A joint is looked at before it is covered."""
    done = list(work.steps)
    for look in [step for step in done if _is_look(step)] if work.sheet is None else ():
        at = done.index(look)
        places = {row.where.termination for row in look.rows} or {look.termination}
        there = [(n, step.action) for n, step in enumerate(done[:at]) if step.live and step.termination in places]
        joint = max((n for n, action in there if action is Action.SOLDER), default=at)
        cover = next((n for n, action in there if n > joint and action is Action.INSULATE), None)
        if cover is not None:
            done.insert(cover, done.pop(at))
    return work.with_steps(done)


def last_joint(cables: Sequence[CableWork], at: Circuit, hot: Hot, *, own: bool = False) -> Turn | None:
    """The last joint of a live wire of the circuit that is not on ground; `own`: of a pack's own wire."""
    joints = (
        turn
        for turn, step in each_step(cables)
        if step.live
        and step.action is Action.SOLDER
        and step.cavity
        and step.lead in at.wires
        and step.lead not in hot.minus
        and (not own or step.lead in hot.mine)
    )
    return max(joints, default=None)


def _is_at(end: End, joint: Step) -> bool:
    return end.lead == joint.lead and end.termination == joint.termination


def is_own_plug(row: Measurement) -> bool:
    """Whether it is measured on the pack itself: there is no plug where its own wires are soldered."""
    return is_volts(row) and not row.leads and all(end.lead is None for end in row.ends)


def _joins_minus(work: CableWork, at: Circuit, hot: Hot) -> bool:
    mine = at.wires & hot.mine & hot.minus
    return any(step.action is Action.SOLDER and step.lead in mine for step in work.steps)


def _measured_at(row: Measurement, joint: Step, *, alone: bool, behind: bool) -> Measurement:
    """The same row at the bare end for this joint.

    `alone`: of one of several packs in series; `behind`: fuses and switches are between the pack and this end.
    """
    if not behind and row.where.at is At.BARE:
        row = replace(row, notes=(BEFORE_LAST, *row.notes[1:]))
    where = End(At.BARE, joint.board, joint.termination, joint.cavity or "", joint.lead)
    start, at_end = f"bare end of {joint.lead} for {place_words(joint)}", row.at_end
    black = row.joined[0]
    if black.at is At.BARE:  # it is soldered by then
        black = End(At.CONTACT, black.board, black.termination, black.contact, black.lead)
        at_end = f"the joint of {black.lead} at {black.board}/{black.termination} {black.contact}"
        at_end += ", its tape lifted for this and pressed back"
        row = replace(row, joined=(black,))
    elif black.at is At.CONTACT:
        at_end = f"contact {black.contact} of the plug for {black.board}/{black.termination}, not plugged in"
    else:
        start += ", its minus soldered already"
    told = replace(row, where=where, start=start, end=f"on {at_end}", at_end=at_end)
    return replace(told, volts=None, expect="the volts of this pack, no minus sign") if alone else told


def from_ground(row: Measurement, volts: Sequence[Measurement], hot: Hot) -> Measurement:
    """A look for a short leaves the cover on the joint of the pack's minus: black goes where the volts have it."""
    grounds = [row for row in volts if row.joined and row.joined[0].at is At.GROUND]
    on_minus = any(row.where.termination in places for places in hot.minus_at.values())
    if row.test is not Test.SHORT or not on_minus or not grounds:
        return row
    return replace(row, where=grounds[0].joined[0], start=grounds[0].at_end)


def _without_told(rows: Iterable[Measurement], cables: Iterable[CableWork], left: Left) -> tuple[Measurement, ...]:
    told = {row.id for work in cables for row in work.tested}
    wanted = {row.id for row in left.rows}
    return tuple(row for row in rows if (row.test is Test.SHORT or row.id in wanted) and row.id not in told)


def _is_look(step: Step) -> bool:
    return step.action is Action.TEST and all(row.kind is RowKind.LOOK for row in step.rows)
