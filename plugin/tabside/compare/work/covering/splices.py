"""Splices that hands open: the cover comes off first, all is looked at, and one tube goes over all wires at the end."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from msgspec.structs import replace

from tabside.compare.matched.rebuild import Rebuild
from tabside.compare.side import Side
from tabside.compare.work.cable_work import CableWork, Turn, each_step
from tabside.compare.work.packs.at_live_wires import tape_words
from tabside.compare.work.worded import COVER, OVER, behind_joint, cut_cover_off, of_no_wire, of_wire
from tabside.make.sheets.cable_plan import OFF, Action, Step
from tabside.model.craft import Kind
from tabside.model.natural import natural

_JOINTS = (*OFF, Action.SOLDER)
_COVERS = (Action.SHRINK, Action.INSULATE)


def splices_covered(cables: Sequence[CableWork], rebuild: Rebuild) -> list[CableWork]:
    """The same work with each splice opened once and covered once, when its last wire is on or off."""
    old, new, matching = rebuild
    done = list(cables)
    was = {now: reference for reference, now in matching.pairs.items()}
    splices = [termination.reference for termination in new.terminations.values() if termination.kind is Kind.SPLICE]
    for splice in sorted(splices, key=natural):
        before = was.get(splice)
        closed = before is not None and old.terminations[before].kind is Kind.SPLICE and len(old.leads_at[before]) > 1
        done = _covered(done, splice, is_closed=closed)
    return done


def splices_untaped(cables: Sequence[CableWork], new: Side) -> list[CableWork]:
    """The same, where what lies in a splice under tape is bared before a pack's own wire is soldered to it."""
    soldered: dict[str, list[Step]] = {}
    here = {ref for ref, termination in new.terminations.items() if termination.kind is Kind.SPLICE}
    done = []
    for work in cables:
        steps: list[Step] = []
        for step in work.steps:
            if step.action is Action.SOLDER and step.termination in here and not step.of_old:
                before = soldered.setdefault(step.termination, [])
                lies_there = {new.leads[wire].mark for wire in new.wires_at(step.termination)} <= {
                    other.lead for sheet in cables for other in sheet.steps if _is_joint(other, step.termination)
                }
                if step.live and before and (any(other.live for other in before) or lies_there):
                    words = f"take the tape off splice {step.termination}"
                    label = replace(of_no_wire(step, Action.LABEL, words), live=True)
                    steps.insert(len(steps) - _own_tape_off(steps, step), label)
                before.append(step)
            steps.append(step)
        done.append(work.with_steps(steps) if len(steps) > len(work.steps) else work)
    return done


def _own_tape_off(before: Sequence[Step], joint: Step) -> bool:
    """Whether the step before the joint bares its own place there: nothing comes between."""
    last = before[-1] if before else None
    return last is not None and last.action is Action.LABEL and not last.lead and last.termination == joint.termination


def _is_joint(step: Step, splice: str) -> bool:
    return step.action is Action.SOLDER and _is_at(step, splice)


def _covered(cables: Sequence[CableWork], splice: str, *, is_closed: bool) -> list[CableWork]:
    """`is_closed`: it has a cover before the work begins."""
    touched = list(_touched(cables, splice))
    in_one_go = not is_closed and len({at.sheet for at in touched}) == 1
    if not touched or (in_one_go and cables[touched[0].sheet].sheet is not None):
        return list(cables)  # as the plan makes it
    done = [work.with_steps(_without_tubes(work.steps, splice)) for work in cables]
    touched = list(_touched(done, splice))
    first, last = touched[0], touched[-1]
    near = done[last.sheet].steps[last.step]
    if near.action is Action.SOLDER:
        done[last.sheet] = done[last.sheet].with_steps(_without_last_tape(done[last.sheet].steps, last.step, splice))
    steps = (step for work in done[last.sheet :] for step in work.steps)
    seen = any(row.where.termination == splice for step in steps for row in step.rows)
    end = behind_joint(done[last.sheet].steps, last.step)
    look = f"inspect splice {splice}: every wire wet with solder; tug each gently"
    more = [] if seen else [of_no_wire(near, Action.TEST, look)]
    more.append(_cover(near, splice))
    done[last.sheet] = done[last.sheet].with_more(more, end)
    if near.action is Action.SOLDER:
        words = f"slide heat-shrink on that goes over all wires of splice {splice}"
        done[last.sheet] = done[last.sheet].with_more([of_wire(near, Action.SHRINK, words)], last.step)
    if is_closed:
        opened = done[first.sheet].steps[first.step]
        words = cut_cover_off(f"splice {splice}")
        cut = replace(of_no_wire(opened, Action.LABEL, words), uncovers=True)
        done[first.sheet] = done[first.sheet].with_more([cut], first.step)
    return done


def _touched(cables: Sequence[CableWork], splice: str) -> Iterator[Turn]:
    for at, step in each_step(cables):
        if _is_at(step, splice) and step.action in _JOINTS and step.cavity is not None:
            yield at


def _is_at(step: Step, splice: str) -> bool:
    return step.termination == splice and not step.of_old


def _without_tubes(steps: Iterable[Step], splice: str) -> Iterator[Step]:
    """Without tubes for one wire of it; tape stays, and takes their place on what is live."""
    listed = list(steps)
    tubes = {step.lead for step in listed if _is_at(step, splice) and step.action is Action.SHRINK}
    for step in listed:
        if not (_is_at(step, splice) and step.action in _COVERS and step.lead in tubes):
            yield step
        elif step.live and step.action is Action.INSULATE:
            yield of_wire(step, Action.INSULATE, tape_words(step))


def _without_last_tape(steps: Sequence[Step], joint: int, splice: str) -> list[Step]:
    """The tube over all wires comes in its place."""
    return [
        step
        for n, step in enumerate(steps)
        if n <= joint
        or not (_is_at(step, splice) and step.action is Action.INSULATE and step.lead == steps[joint].lead)
    ]


def _cover(near: Step, splice: str) -> Step:
    if near.action is Action.SOLDER:
        words = f"push the heat-shrink over all of splice {splice}, {OVER}, and shrink it"
        return of_wire(near, Action.INSULATE, words)
    return of_no_wire(near, Action.INSULATE, f"cover splice {splice} again: {COVER}")
