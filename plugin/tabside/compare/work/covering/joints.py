"""Joints at in-line parts: each is covered when its last wire is on, also where a wire comes to a covered one."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from msgspec.structs import replace

from tabside.compare.matched.rebuild import Rebuild
from tabside.compare.side import Side
from tabside.compare.work.cable_work import CableWork, each_step
from tabside.compare.work.packs.at_live_wires import place_words
from tabside.compare.work.worded import COVER, behind_joint, cut_cover_off, end_in_hand, of_no_wire, of_wire
from tabside.make.sheets.cable_plan import OFF, Action, Step
from tabside.model.craft import Kind
from tabside.words.contacts import listed


def joints_covered(cables: Sequence[CableWork], rebuild: Rebuild) -> list[CableWork]:
    """The same with what is missing."""
    old, new, matching = rebuild
    done = list(cables)
    was = {now: reference for reference, now in matching.pairs.items()}
    inline = {termination.reference for termination in new.terminations.values() if termination.kind is Kind.INLINE}
    places = dict.fromkeys(
        (step.end, step.cavity)
        for work in cables
        for step in work.steps
        if step.action is Action.SOLDER and step.cavity and step.termination in inline and not step.of_old
    )
    for end, cavity in places:
        done = _covered(_opened(done, end, cavity, old, new, was), end, cavity)
    return done


def _opened(
    cables: list[CableWork], end: str, cavity: str | None, old: Side, new: Side, was: Mapping[str, str]
) -> list[CableWork]:
    """With the cover cut off a joint at which a wire stays, before another one comes to it."""
    there = [(at, step) for at, step in each_step(cables) if (step.end, step.cavity) == (end, cavity)]
    at, first = next((at, step) for at, step in there if step.action in (*OFF, Action.SOLDER))
    before = was.get(first.termination)
    if first.action is not Action.SOLDER or before is None or cavity not in dict(old.leads_at[before]):
        return cables
    joined = {step.lead for _, step in there if step.action is Action.SOLDER}
    marks = [new.leads[wire].mark for wire in new.wires_at(first.termination) if (first.termination, cavity) in wire]
    stay = [mark for mark in marks if mark not in joined]
    if not stay:
        return cables
    words = cut_cover_off(f"{place_words(first)}, where {listed(stay, 40)} {'stay' if stay[1:] else 'stays'}")
    cut = replace(of_no_wire(first, Action.LABEL, words), live=first.live)
    opened = list(cables)
    opened[at.sheet] = opened[at.sheet].with_more([cut], end_in_hand(opened[at.sheet].steps, at.step))
    return opened


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
