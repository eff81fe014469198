"""Volts of a pack on which hands worked: once, when the last of its joints is made, with the fuse in again."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from msgspec.structs import replace

from tabside.compare.work.hot import Hot
from tabside.compare.work.steps import CableWork
from tabside.make.sheets.cable_plan import Action, Step
from tabside.make.sheets.loose_sheets import MEASURE_VOLTS
from tabside.make.sheets.moments import is_volts
from tabside.prove.measurement import Measurement


def volts_last(cables: Sequence[CableWork], hot: Hot, rows: Iterable[Measurement]) -> list[CableWork]:
    """`rows`: of the whole sheet."""
    worked = [n for n, work in enumerate(cables) if any(step.live for step in work.steps)]
    built = [n for n in worked if cables[n].fate.new is not None]
    if not built:
        return list(cables)
    ends = {end.termination for n in worked for end in cables[n].ends} | hot.places
    volts = [row for row in rows if is_volts(row) and {end.termination for end in row.ends} & ends]
    done = list(cables)
    for n in worked:
        done[n] = _without_volts(done[n])
    last = done[built[-1]]
    near = last.steps[-1]
    words = f"{hot.fuse_in()}{MEASURE_VOLTS}" if volts else hot.fuse_in().removesuffix(", then ")
    if words:
        action = Action.TEST if volts else Action.LABEL
        step = Step(len(last.steps) + 1, action, near.end, None, None, None, "", False, None, (), None, words)
        step = replace(step, brief=words, rows=tuple(volts), of_old=near.of_old)
        known = {row.id for row in last.measure}
        more = tuple(row for row in volts if row.id not in known)
        last = last._replace(steps=(*last.steps, step), measure=(*last.measure, *more))
    done[built[-1]] = last
    return done


def _without_volts(work: CableWork) -> CableWork:
    """Its steps without the rows in volts."""
    steps: list[Step] = []
    for step in work.steps:
        left = tuple(row for row in step.rows if not is_volts(row))
        if left or not step.rows:
            steps.append(replace(step, number=len(steps) + 1, rows=left))
    return work._replace(steps=tuple(steps), measure=tuple(row for row in work.measure if not is_volts(row)))
