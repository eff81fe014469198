"""Volts of a pack on which hands worked: once, when the last of its joints is made, with the fuse in again."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence

from msgspec.structs import replace

from tabside.compare.work.hot import Hot
from tabside.compare.work.last_joint import joined_last, looks_before_covers, no_short_first
from tabside.compare.work.steps import CableWork
from tabside.compare.work.worded import of_no_wire
from tabside.make.sheets.cable_plan import Action, Step
from tabside.make.sheets.loose_sheets import MEASURE_VOLTS, MEASURE_VOLTS_THEN
from tabside.make.sheets.moments import is_volts
from tabside.prove.measurement import Measurement


def volts_last(cables: Sequence[CableWork], hot: Hot, rows: Sequence[Measurement]) -> list[CableWork]:
    """`rows`: of the whole sheet."""
    worked = [n for n, work in enumerate(cables) if any(step.live for step in work.steps)]
    built = [n for n in worked if cables[n].fate.new is not None]
    if not built:
        return [_fuse_back(work, hot) if n in worked[-1:] else work for n, work in enumerate(cables)]
    ends = {end.termination for n in worked for end in cables[n].ends} | hot.places
    volts = [row for row in rows if is_volts(row) and {end.termination for end in row.ends} & ends]
    done = [looks_before_covers(work) for work in cables]
    planned = cables[built[-1]].sheet is not None and any(is_volts(row) for row in _rows(cables[built[-1]]))
    ids = {row.id for row in volts}
    for n in range(len(done)):
        if n != built[-1] or not planned:
            done[n] = _without_rows(done[n], ids)
    if planned:  # the plan knows before which joint, but not of a fuse in wires that stay
        done[built[-1]] = _with_fuse(done[built[-1]], hot)
        return done if hot.has_plug else no_short_first(done, built[-1], rows)
    soldered = None if hot.has_plug else joined_last(done, hot, rows)
    if soldered is not None:
        return soldered
    last = done[built[-1]]
    near = last.steps[-1]
    words = ", then ".join(filter(None, (hot.fuse_in(), MEASURE_VOLTS if volts else "")))
    if not hot.has_plug and hot.fuses:  # and switches stay off
        words = f"{hot.fuse_stays_out()}; {MEASURE_VOLTS_THEN}"
    if words:
        action = Action.TEST if volts else Action.LABEL
        step = of_no_wire(near, action, words, tuple(volts))
        known = {row.id for row in last.measure}
        more = tuple(row for row in volts if row.id not in known)
        last = last.with_steps((*last.steps, step))._replace(measure=(*last.measure, *more))
    done[built[-1]] = last
    return done


def _fuse_back(work: CableWork, hot: Hot) -> CableWork:
    """Once the pack is away, where none is soldered on again."""
    if not hot.fuses:
        return work
    words = f"put the fuse back into {', '.join(hot.fuses)}, the pack away"
    return work.with_steps((*work.steps, of_no_wire(work.steps[-1], Action.LABEL, words)))


def _with_fuse(work: CableWork, hot: Hot) -> CableWork:
    known = work.sheet.fuses_out if work.sheet is not None else ()
    fuses = ", ".join(each for each in hot.fuses if each not in known)
    steps: list[Step] = []
    for n, step in enumerate(work.steps):
        if not fuses or not any(map(is_volts, step.rows)):
            steps.append(_without_power(step) if fuses else step)
            continue
        words = f"put the fuse into {fuses}, then {step.full}"
        steps.append(replace(step, full=words, short=words))
        if any(each.live and each.action is Action.SOLDER for each in work.steps[n:]):
            again = f"leave the fuse out of {fuses} again until first power, through a smoke stopper"
            steps.append(of_no_wire(step, Action.LABEL, again))
    return work.with_steps(steps)


def _without_power(step: Step) -> Step:
    """The plan of the new wires alone knows of no fuse: with one, first power is there and not at a joint."""
    return replace(step, power="")


def _rows(work: CableWork) -> Iterator[Measurement]:
    return (row for step in work.steps for row in step.rows)


def _without_rows(work: CableWork, ids: Collection[str]) -> CableWork:
    steps: list[Step] = []
    for step in work.steps:
        left = tuple(row for row in step.rows if row.id not in ids)
        if left or not step.rows:
            steps.append(replace(step, rows=left))
    return work.with_steps(steps)._replace(measure=tuple(row for row in work.measure if row.id not in ids))
