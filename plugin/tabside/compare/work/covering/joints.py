"""Joints at in-line parts: each is covered when its last wire is on, also where a wire comes to a covered one."""

from __future__ import annotations

from collections.abc import Sequence

from tabside.compare.side import Side
from tabside.compare.work.cable_work import CableWork, each_step
from tabside.compare.work.packs.hot import place_words
from tabside.compare.work.worded import COVER, behind_joint, cut_cover_off, of_no_wire, of_wire
from tabside.make.sheets.cable_plan import Action, Step
from tabside.model.craft import Kind


def joints_covered(cables: Sequence[CableWork], new: Side) -> list[CableWork]:
    """The same with what is missing."""
    done = list(cables)
    inline = {termination.reference for termination in new.terminations.values() if termination.kind is Kind.INLINE}
    places = dict.fromkeys(
        (step.end, step.cavity)
        for work in cables
        for step in work.steps
        if step.action is Action.SOLDER and step.cavity and step.termination in inline and not step.of_old
    )
    for end, cavity in places:
        done = _covered(done, end, cavity)
    return done


def _covered(cables: list[CableWork], end: str, cavity: str | None) -> list[CableWork]:
    there = [(at, step) for at, step in each_step(cables) if (step.end, step.cavity) == (end, cavity)]
    last, joint = [(at, step) for at, step in there if step.action is Action.SOLDER][-1]
    covers = [at for at, step in there if step.action is Action.INSULATE]
    if covers and covers[-1] > last:
        return cables
    steps = list(cables[last.sheet].steps)
    steps.insert(behind_joint(steps, last.step), _cover(joint))
    if covers:
        words = cut_cover_off(f"the joint at {place_words(joint)}")
        steps.insert(last.step, of_no_wire(joint, Action.LABEL, words))
    cables[last.sheet] = cables[last.sheet].with_steps(steps)
    return cables


def _cover(joint: Step) -> Step:
    return of_wire(joint, Action.INSULATE, f"cover the joint at {place_words(joint)}: {COVER}")
