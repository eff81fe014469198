"""The plan's words where the craft is another than the plan's: which joints are made by then, and which are not yet.

The plan of the new wires counts on its own order of joints; here wires that are there already, and other sheets, stand
between.  What the eye looks at is soldered first, and a probe goes to a joint where an end is no longer bare.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from msgspec.structs import replace

from tabside.compare.work.cable_work import CableWork, Turn, each_step
from tabside.compare.work.measuring.alone import Tests
from tabside.make.sheets.cable_plan import Action, Step, Wait
from tabside.model.craft import ContactKey
from tabside.prove.measurement import At, Measurement, RowKind, When

_Joint = tuple[str, str, str]  # number of a wire, termination, contact


def as_it_stands(cables: Sequence[CableWork], tests: Tests) -> list[CableWork]:
    """The same in words that hold when their turn comes."""
    moved = [work.with_steps(_looks_behind_joints([_waits_here(step, work) for step in work.steps])) for work in cables]
    moved = _parts_before_wires(moved)
    joints = _joints(moved)
    return [_told(work, n, joints, tests) for n, work in enumerate(moved)]


def _waits_here(step: Step, work: CableWork) -> Step:
    """A bare end that waits for a joint of its own sheet."""
    if step.wait is None or step.wait.sheet != work.fate.name:
        return step
    return replace(step, wait=Wait("", last=step.wait.last))


def _looks_behind_joints(steps: Sequence[Step]) -> list[Step]:
    """Nothing is looked at before it is soldered on this sheet."""
    done = list(steps)
    for look in [step for step in steps if _is_look_at_joints(step)]:
        places = {row.where.termination for row in look.rows}
        at = done.index(look)
        joints = [n for n, step in enumerate(done) if _joins(step) and step.termination in places]
        if joints and joints[-1] > at:
            done.insert(joints[-1] + 1, look)
            done.remove(look)
    return done


def _parts_before_wires(cables: Sequence[CableWork]) -> list[CableWork]:
    """A part is tested before its first wire is on, whichever sheet that belongs to."""
    done = list(cables)
    for n, work in enumerate(cables):
        for test in [step for step in work.steps if any(row.when is When.PART for row in step.rows)]:
            at = done[n].steps.index(next(step for step in done[n].steps if step.rows == test.rows))
            first = _first_joint(done, test.rows[0].where.termination)
            if first is not None and first < (n, at):
                _move_before_wire(done, Turn(n, at), first)
    return done


def _first_joint(cables: Sequence[CableWork], part: str) -> Turn | None:
    joints = (turn for turn, step in each_step(cables) if _joins(step) and step.termination == part)
    return next(joints, None)


def _move_before_wire(cables: list[CableWork], test: Turn, joint: Turn) -> None:
    """To before the first hand on the wire of the joint, with its rows."""
    source = cables[test.sheet]
    step, ids = source.steps[test.step], {row.id for row in source.steps[test.step].rows}
    left = tuple(row for row in source.measure if row.id not in ids)
    cables[test.sheet] = source.with_steps(other for other in source.steps if other is not step)._replace(measure=left)
    work = cables[joint.sheet]
    lead = work.steps[joint.step].lead
    first = next(n for n, other in enumerate(work.steps) if other.lead == lead)
    cables[joint.sheet] = work.with_more([step], first)._replace(measure=(*work.measure, *step.rows))


def _is_look_at_joints(step: Step) -> bool:
    return bool(step.rows) and all(row.kind is RowKind.LOOK and row.when is When.SOLDERED for row in step.rows)


def _joins(step: Step) -> bool:
    return step.action is Action.SOLDER and step.cavity is not None and not step.of_old


def _joints(cables: Sequence[CableWork]) -> dict[_Joint, Turn]:
    """When each joint that the work makes is made."""
    return {
        (step.lead, step.termination, step.cavity or ""): turn
        for turn, step in reversed(list(each_step(cables)))
        if _joins(step)
    }


def _told(work: CableWork, n: int, joints: Mapping[_Joint, Turn], tests: Tests) -> CableWork:
    steps = []
    for m, step in enumerate(work.steps):
        rows = tuple(_again(row, Turn(n, m), joints, tests) for row in step.rows)
        steps.append(replace(step, rows=rows) if rows != step.rows else step)
    told = {row.id: row for step in steps for row in step.rows}
    return work.with_steps(steps)._replace(measure=tuple(told.get(row.id, row) for row in work.measure))


def _again(row: Measurement, turn: Turn, joints: Mapping[_Joint, Turn], tests: Tests) -> Measurement:
    """A joint that no step makes was there before."""
    made = set[ContactKey]()
    for end in row.ends:
        if end.at is At.BARE and joints.get((end.lead or "", end.termination, end.contact), turn) <= turn:
            made.add((end.termination, end.contact))
    return tests.again([row], made)[0] if made and row.kind is RowKind.BEEP else row
