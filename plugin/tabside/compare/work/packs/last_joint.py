"""The last joint of a pack that is soldered on: no short, volts at the bare end, a smoke stopper, solder, look, cover.

Common practice of work at packs, no source outside; the plan of a new craft has the same order.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import NamedTuple

from msgspec.structs import replace

from tabside.compare.work.cable_work import CableWork, Turn, each_step
from tabside.compare.work.packs.at_live_wires import place_words
from tabside.compare.work.packs.circuits import Circuit
from tabside.compare.work.packs.hot import Hot
from tabside.compare.work.packs.ways import Ways
from tabside.compare.work.worded import end_in_hand, of_no_wire
from tabside.make.sheets.cable_plan import Action, Step
from tabside.make.sheets.when.moments import is_volts
from tabside.make.sheets.when.pack_volts import MEASURE_VOLTS, power_off, volts_in_turn
from tabside.prove.measurement import At, End, Measurement, RowKind, Test
from tabside.prove.rows.pack_volts import BEFORE_LAST

_PARTS = "first the parts across wires, as listed below the cables, while the pack is off"
LIFTED = ", its tape lifted for this and pressed back"
_SHORT = "test now, with the pack's last wire off and taped, all else plugged in and soldered"


class Left(NamedTuple):
    """What belongs to no cable and is done with the packs off."""

    rows: Sequence[Measurement]
    has_parts: bool  # parts across wires are to be soldered


class Metering(NamedTuple):
    """What decides which volts are measured where."""

    hot: Hot
    rows: Sequence[Measurement]  # of the whole sheet
    left: Left
    ways: Ways


def _before(steps: Sequence[Step], near: Step, rows: tuple[Measurement, ...], *, has_parts: bool) -> list[Step]:
    """These steps, with what is looked for before the last joint; `has_parts`: those across wires wait until now.

    Parts across wires come before the look for a short, and before any wire of the pack on this sheet.
    """
    done = list(steps)
    if has_parts:
        at_pack = (step.live or any(row.test is Test.SHORT for row in step.rows) for step in done)
        first = next((n for n, stop in enumerate(at_pack) if stop), len(done))
        done.insert(first, of_no_wire(near, Action.LABEL, _PARTS))
    return [*done, of_no_wire(near, Action.TEST, _SHORT, rows)] if rows else done


def joints_with_volts(
    cables: Sequence[CableWork], at: Circuit, metering: Metering, volts: Sequence[Measurement]
) -> dict[Turn, list[Measurement]]:
    """Joints of the circuit before which volts are measured, at the end that is bare until then; none: nowhere."""
    hot, ways = metering.hot, metering.ways
    soldered = {
        (step.lead, step.termination): turn
        for turn, step in each_step(cables)
        if step.action is Action.SOLDER and step.cavity
    }
    found: dict[Turn, list[Measurement]] = {}
    for row in volts:
        turn = soldered.get((row.where.lead or "", row.where.termination)) if row.where.at is At.BARE else None
        if turn is not None and _comes_there(cables, turn, at, hot, ways):
            found.setdefault(turn, []).append(row)
    if at.has_plug:
        return found
    if found:
        found[max(found)] += [row for row in volts if row.where.at is At.CONTACT]
        return found
    place = last_joint(cables, at, hot)
    if place is not None and at.has_gate(cables[place.sheet].steps[place.step].termination in hot.at_loads):
        place = last_joint(cables, at, hot, own=True)
    if place is None:
        return {}
    joint = cables[place.sheet].steps[place.step]
    if joint.lead not in hot.mine or not _comes_there(cables, place, at, hot, ways):
        return {}
    minus = hot.minus_at.get(hot.packs.get(joint.lead, ""), frozenset())
    nearest = sorted(
        volts, key=lambda row: row.joined[0].termination not in minus
    )  # the pack's own minus, if it can be
    alone = len(at.packs) > 1 and not at.in_series
    return {place: [_measured_at(row, joint, alone=alone) for row in nearest[:1]]}


def _comes_there(cables: Sequence[CableWork], turn: Turn, at: Circuit, hot: Hot, ways: Ways) -> bool:
    """Whether the volts come to the end that is soldered then, and there is something to measure them against."""
    if (at.gated or at.switches) and any(_joins_minus(work, at, hot) for work in cables[turn.sheet + 1 :]):
        return False  # at first power
    lead, joints = cables[turn.sheet].steps[turn.step].lead, ways.joints_before(cables, turn)
    through = ways.ways.gates_to(lead, joints)
    out = set(ways.ways.fuses) - {gate for gates in through.values() for gate in gates}
    lit = ways.ways.on(joints, out) - ways.ways.on(joints)  # with the fuses in that it takes: at first power then
    return bool(through) and not any(each.pack in through for each in lit)


def with_volts(cables: Sequence[CableWork], turn: Turn, rows: Sequence[Measurement], ways: Ways) -> list[CableWork]:
    """The same with these rows before the joint, each with its fuse in and its switch on, and out and off again."""
    work = cables[turn.sheet]
    joint, first = work.steps[turn.step], end_in_hand(work.steps, turn.step)
    turns = volts_in_turn(rows, ways.ways, ways.joints_before(cables, turn), ways.craft)
    steps, off = list(work.steps[:first]), ""
    for n, each in enumerate(turns):
        steps.append(of_no_wire(joint, Action.TEST, each.words(ways.craft), each.rows))
        off = power_off(each.gates)
        steps += [of_no_wire(joint, Action.LABEL, off)] if off and n + 1 < len(turns) else []
    if not turns:  # the drawing does not say where they come out
        told = f"{MEASURE_VOLTS}: red on the bare end of {joint.lead}, black on a known ground: no minus sign"
        steps.append(replace(of_no_wire(joint, Action.TEST, told), lead=joint.lead))
    steps += work.steps[first : turn.step]
    steps.append(replace(joint, power=f"{off}, then ") if off else joint)
    done = list(cables)
    done[turn.sheet] = work.with_steps((*steps, *work.steps[turn.step + 1 :]))
    return done


def shorts_first(cables: Sequence[CableWork], turn: Turn, at: Circuit, metering: Metering) -> list[CableWork]:
    """The look for a short, and all that is left, before volts are measured there for the first time."""
    rows, left, hot = metering.rows, metering.left, metering.hot
    short = [row for row in rows if row.test is Test.SHORT]
    mine = {row.id for row in short if at.powers or row.where.termination in at.places}
    done = [work.without_rows(mine) if k > turn.sheet else work for k, work in enumerate(cables)]  # too late by then
    volts = [row for row in rows if is_volts(row) and at.is_of(row) and not is_own_plug(row)]
    before = tuple(from_ground(row, volts, hot) for row in _without_told(rows, done, left))
    work = done[turn.sheet]
    first = end_in_hand(work.steps, turn.step)  # heat-shrink goes on when all is measured: until then it is under tape
    told = any(step.full == _PARTS for _, step in each_step(done))
    steps = _before(work.steps[:first], work.steps[turn.step], before, has_parts=left.has_parts and not told)
    done[turn.sheet] = work.with_steps((*steps, *work.steps[first:]))
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


def is_own_plug(row: Measurement) -> bool:
    """Whether it is measured on the pack itself: there is no plug where its own wires are soldered."""
    return is_volts(row) and not row.leads and all(end.lead is None for end in row.ends)


def _joins_minus(work: CableWork, at: Circuit, hot: Hot) -> bool:
    mine = at.wires & hot.mine & hot.minus
    return any(step.action is Action.SOLDER and step.lead in mine for step in work.steps)


def _measured_at(row: Measurement, joint: Step, *, alone: bool) -> Measurement:
    """The same row at the bare end for this joint; `alone`: of one of several packs in series."""
    if row.where.at is At.BARE:
        row = replace(row, notes=(BEFORE_LAST, *row.notes[1:]))
    where = End(At.BARE, joint.board, joint.termination, joint.cavity or "", joint.lead)
    start, at_end = f"bare end of {joint.lead} for {place_words(joint)}", row.at_end
    black = row.joined[0]
    if black.at is At.BARE:  # it is soldered by then
        black = End(At.CONTACT, black.board, black.termination, black.contact, black.lead)
        at_end = f"the joint of {black.lead} at {black.board}/{black.termination} {black.contact}"
        at_end += LIFTED
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
    if row.test is not Test.SHORT or not on_minus:
        return row
    if not grounds:
        return replace(row, start=f"{row.start}{LIFTED}") if LIFTED not in row.start else row
    return replace(row, where=grounds[0].joined[0], start=grounds[0].at_end)


def _without_told(rows: Iterable[Measurement], cables: Iterable[CableWork], left: Left) -> tuple[Measurement, ...]:
    told = {row.id for work in cables for row in work.tested}
    wanted = {row.id for row in left.rows}
    return tuple(row for row in rows if (row.test is Test.SHORT or row.id in wanted) and row.id not in told)


def _is_look(step: Step) -> bool:
    return step.action is Action.TEST and all(row.kind is RowKind.LOOK for row in step.rows)
