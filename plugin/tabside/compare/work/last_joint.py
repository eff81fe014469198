"""The last joint of a pack that is soldered on: no short, volts at the bare end, a smoke stopper, solder, look, cover.

Common practice of work at packs, no source outside; the plan of a new craft has the same order.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from msgspec.structs import replace

from tabside.compare.work.hot import Hot, place_words
from tabside.compare.work.steps import CableWork
from tabside.compare.work.worded import OFF, of_no_wire, reference_of
from tabside.make.sheets.cable_plan import Action, Step, Wait
from tabside.make.sheets.loose_sheets import MEASURE_VOLTS
from tabside.make.sheets.moments import is_volts
from tabside.prove.measurement import At, End, Measurement, RowKind, Test

_FIRST_POWER = "first power now, through a smoke stopper at this joint; then "
_SHORT = "test now, with the pack's last wire off and taped, all else plugged in and soldered"


def joined_last(cables: Sequence[CableWork], hot: Hot, rows: Sequence[Measurement]) -> list[CableWork] | None:
    """The same with these steps around the last joint; None where no row can be measured there."""
    place = _last(cables, hot)
    bare = [row for row in rows if is_volts(row) and row.where.at is At.BARE]
    if place is None or len(bare) != 1:
        return None
    n, m = place
    work, joint = cables[n], cables[n].steps[place[1]]
    is_there = bare[0].where.lead == joint.lead and bare[0].where.termination == reference_of(joint)
    if not is_there and joint.lead not in hot.mine:
        return None
    behind = bool(hot.fuses) and joint.lead not in hot.mine  # the pack's volts come there through the fuse
    row = bare[0] if is_there else _measured_at(bare[0], joint)
    fuse = f"put the fuse into {', '.join(hot.fuses)}, then " if behind else ""
    before = _without_told(rows, cables)
    steps = [*work.steps[:m], *([of_no_wire(joint, Action.TEST, _SHORT, before)] if before else [])]
    volts = f"take the tape off the bare end of {joint.lead}, {fuse}{MEASURE_VOLTS}"
    steps.append(of_no_wire(joint, Action.TEST, volts, (row,)))
    if behind:
        words = (
            f"take the fuse out of {', '.join(hot.fuses)} again; it stays out until first power, with a smoke stopper"
        )
        steps.append(of_no_wire(joint, Action.LABEL, words))
    steps.append(joint if hot.fuses else replace(joint, power=_FIRST_POWER))
    steps += work.steps[m + 1 :]
    if hot.fuses and not behind:
        steps.append(of_no_wire(joint, Action.LABEL, hot.fuse_stays_out()))
    done = list(cables)
    done[n] = work.with_steps(steps)
    return done


def no_short_first(cables: Sequence[CableWork], n: int, rows: Sequence[Measurement]) -> list[CableWork]:
    """The sheet of the plan on which volts are measured, with the look for a short before them."""
    done, more = list(cables), _without_told(rows, cables)
    steps: list[Step] = []
    for step in cables[n].steps:
        if any(map(is_volts, step.rows)) and more:
            steps.append(of_no_wire(step, Action.TEST, _SHORT, more))
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
        places = {row.where.termination for row in look.rows} or {reference_of(look)}
        there = [(n, step.action) for n, step in enumerate(done[:at]) if step.live and reference_of(step) in places]
        joint = max((n for n, action in there if action is Action.SOLDER), default=at)
        cover = next((n for n, action in there if n > joint and action is Action.INSULATE), None)
        if cover is not None:
            done.insert(cover, done.pop(at))
    return work.with_steps(done)


def tape_off(cables: Iterable[CableWork]) -> Iterator[CableWork]:
    """What was taped when a live wire came off is bared before it is soldered or touched by a probe."""
    taped: dict[tuple[str, str], str] = {}
    for work in cables:
        steps: list[Step] = []
        for step in work.steps:
            bared = sorted(taped.keys() & set(_touched(step)))
            if bared:
                words = f"take the tape off {' and '.join(taped.pop(each) for each in bared)}"
                steps.append(of_no_wire(step, Action.LABEL, words))
            if steps and step.action is Action.INSULATE and step.live and steps[-1].action in OFF:
                taped[(reference_of(step), step.cavity or "")] = place_words(step)
            steps.append(step)
        yield work.with_steps(steps)


def _touched(step: Step) -> Iterator[tuple[str, str]]:
    if step.action is Action.SOLDER and not step.of_old:
        yield reference_of(step), step.cavity or ""
    for row in step.rows:
        if row.kind is not RowKind.LOOK:
            yield from ((end.termination, end.contact) for end in row.ends if end.at is At.CONTACT)


def _last(cables: Sequence[CableWork], hot: Hot) -> tuple[int, int] | None:
    """The last joint of a live wire that is not on ground."""
    joints = (
        (n, m)
        for n, work in enumerate(cables)
        for m, step in enumerate(work.steps)
        if step.live and step.action is Action.SOLDER and step.cavity and step.lead not in hot.minus
    )
    return max(joints, default=None)


def _measured_at(row: Measurement, joint: Step) -> Measurement:
    """The same row at the bare end for this joint."""
    board, _, reference = joint.end.rpartition("/")
    where = End(At.BARE, board or reference, reference, joint.cavity or "", joint.lead)
    return replace(
        row, where=where, start=f"bare end of {joint.lead} for {place_words(joint)}, its minus soldered already"
    )


def _without_told(rows: Iterable[Measurement], cables: Iterable[CableWork]) -> tuple[Measurement, ...]:
    told = {row.id for work in cables for step in work.steps for row in step.rows}
    return tuple(row for row in rows if row.test is Test.SHORT and row.id not in told)


def _is_look(step: Step) -> bool:
    return step.action is Action.TEST and all(row.kind is RowKind.LOOK for row in step.rows)
