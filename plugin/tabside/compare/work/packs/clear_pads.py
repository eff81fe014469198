"""The two poles of a pack never meet: what still joins a place to the one comes off before the other is soldered there.

Common practice of work at packs, no source outside.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping, Sequence

from tabside.compare.side import Side
from tabside.compare.work.cable_work import CableWork, Turn, each_step
from tabside.compare.work.hands.places import each_once
from tabside.compare.work.packs.poles import Poles
from tabside.compare.work.worded import BARED, ON, old_number, with_tape
from tabside.make.sheets.cable_plan import OFF, Action


def pads_cleared(cables: Sequence[CableWork], poles: Callable[[], Poles]) -> list[CableWork]:
    """The same in an order in which this holds, whichever sheet the wire that leaves belongs to.

    `poles`: how things stand before the first step.
    """
    done = list(cables)
    for _ in range(sum(len(work.steps) for work in cables)):
        found = _first_meeting(done, poles())
        if found is None:
            break
        done = _off_first(done, *found)
    return done


def _first_meeting(cables: Sequence[CableWork], poles: Poles) -> tuple[Turn, Turn] | None:
    """A joint, and the first later step that takes a wire off which parts the poles again."""
    for at, step in each_step(cables):
        wire = poles.does(step, cables[at.sheet].old_leads)
        met = poles.meeting(wire) if wire is not None else set()
        found = _parts_them(cables, at, poles, met) if met else None
        if found is not None:
            return at, found
    return None


def _parts_them(cables: Sequence[CableWork], joint: Turn, poles: Poles, met: set[tuple[str, ...]]) -> Turn | None:
    after = ((at, step) for at, step in each_step(cables) if at > joint)
    return next((at for at, step in after if poles.takes_off(step, cables[at.sheet].old_leads, met)), None)


def pads_freed(cables: Sequence[CableWork], old: Side, pads: Collection[str]) -> list[CableWork]:
    """The same, where a wire that leaves a pad is off before another one is soldered there, whichever sheet it is on.

    Of what no pack reaches: its wires have an order of their own.  `pads`: places of the new drawing.
    """
    done = list(cables)
    for _ in range(sum(len(work.steps) for work in cables)):
        found = _first_taken(done, old, pads)
        if found is None:
            break
        done = _off_first(done, *found)
    return done


def _first_taken(cables: Sequence[CableWork], old: Side, pads: Collection[str]) -> tuple[Turn, Turn] | None:
    """A joint at a pad, and the step of a later sheet that takes another wire off there."""
    leaves: dict[tuple[str, str | None], Turn] = {
        (step.end, step.cavity): at
        for at, step in reversed(list(each_step(cables)))
        if step.action in OFF
        and step.cavity is not None
        and not step.of_old
        and step.termination in pads
        and old_number(step, cables[at.sheet].old_leads) not in old.fed_by
    }
    for at, step in each_step(cables):
        off = leaves.get((step.end, step.cavity)) if step.action is Action.SOLDER and not step.of_old else None
        if off is not None and off.sheet > at.sheet:
            return at, off
    return None


def own_ends_off_first(cables: Sequence[CableWork], again: Mapping[str, str]) -> list[CableWork]:
    """A pack's own wire that is made anew elsewhere leaves its old joint, or its plug, before it is cut.

    `again`: new number of each such wire -> its number in the old drawing.
    """
    done = list(cables)
    for mark, was in again.items():
        steps = list(each_step(done))
        hands = [at for at, step in steps if step.lead == mark and step.action in (*BARED, *ON)]
        off = [
            at
            for at, step in steps
            if step.action in OFF and step.cavity is not None and old_number(step, done[at.sheet].old_leads) == was
        ]
        later = [at for at in off if hands and at > hands[0]]
        for at in later[:1]:
            place = done[at.sheet].steps[at.step].termination
            whole = [
                plug
                for plug, step in steps
                if hands[0] < plug < at and step.action in OFF and step.cavity is None and step.termination == place
            ]
            done = _moved(done, at, hands[0])
            for plug in whole[:1]:
                done = _moved(done, plug, hands[0])
    return done


def _off_first(cables: list[CableWork], joint: Turn, off: Turn) -> list[CableWork]:
    """Before the first hand on the wire of the joint."""
    steps = cables[joint.sheet].steps
    lead = steps[joint.step].lead
    first = next(k for k, step in enumerate(steps) if step.lead == lead and step.cavity is not None)
    return _moved(cables, off, Turn(joint.sheet, first))


def _moved(cables: list[CableWork], off: Turn, before: Turn) -> list[CableWork]:
    """A step that takes something off, and its tape, to before another one of an earlier sheet.

    That sheet lists the place as well.
    """
    source = cables[off.sheet]
    taken = with_tape(source.steps, off.step)
    cables[off.sheet] = source.with_steps(step for step in source.steps if step not in taken)
    work = cables[before.sheet]
    olds = {name: was for name, was in source.old_leads.items() if name == taken[0].lead}
    ends = each_once((*work.ends, *(end for end in source.ends if end.name == taken[0].end)))
    there = work._replace(ends=ends, old_leads={**olds, **work.old_leads})
    cables[before.sheet] = there.with_more(taken, before.step)
    return cables
