"""No pad and no cup ever holds both poles of a pack: the one that leaves comes off before the other is soldered there.

Common practice of work at packs, no source outside.
"""

from __future__ import annotations

from collections.abc import Sequence

from tabside.compare.side import Side
from tabside.compare.work.cable_work import CableWork
from tabside.compare.work.packs.hot import Hot
from tabside.compare.work.worded import OFF, ON
from tabside.make.sheets.cable_plan import Action, Step
from tabside.model.craft import Kind


def pads_cleared(cables: Sequence[CableWork], new: Side, hot: Hot) -> list[CableWork]:
    """The same in an order in which this holds, whichever sheet the wire that leaves belongs to."""
    done = list(cables)
    for _ in range(sum(len(work.steps) for work in cables)):
        found = _first_meeting(done, new, hot)
        if found is None:
            break
        done = _off_first(done, *found)
    return done


def _first_meeting(cables: Sequence[CableWork], new: Side, hot: Hot) -> tuple[tuple[int, int], tuple[int, int]] | None:
    """A joint, and the later step that takes a wire of the other pole off its place."""
    joints: dict[tuple[str, str | None], tuple[int, int, Step, bool]] = {}
    for n, work in enumerate(cables):
        for m, step in enumerate(work.steps):
            pole = hot.is_minus_of_pack(step, work.old_leads)
            if step.cavity is None or pole is None:
                continue
            place = (step.termination, step.cavity)
            if step.action in ON and not step.of_old and _is_one_contact(new, step):
                joints.setdefault(place, (n, m, step, pole))
            elif step.action in OFF and place in joints:
                joint = joints[place]
                if joint[2].lead != step.lead and joint[3] != pole:
                    return joint[:2], (n, m)
    return None


def _is_one_contact(new: Side, step: Step) -> bool:
    there = new.terminations.get(step.termination)
    return there is not None and there.kind is not Kind.SPLICE


def _off_first(cables: list[CableWork], joint: tuple[int, int], off: tuple[int, int]) -> list[CableWork]:
    """The step, and the tape that goes over what it bares, before the first hand on the wire of the joint."""
    source, (n, m) = cables[off[0]], joint
    taken = list(source.steps[off[1] : off[1] + 1])
    after = source.steps[off[1] + 1 : off[1] + 2]
    taken += [step for step in after if step.action is Action.INSULATE and step.lead == taken[0].lead]
    left = [step for step in source.steps if step not in taken]
    cables[off[0]] = source.with_steps(left)
    work = cables[n]
    lead = work.steps[m].lead
    first = next(k for k, step in enumerate(work.steps) if step.lead == lead and step.cavity is not None)
    steps = [*work.steps[:first], *taken, *work.steps[first:]]
    olds = {name: was for name, was in source.old_leads.items() if name == taken[0].lead}
    cables[n] = work._replace(old_leads={**olds, **work.old_leads}).with_steps(steps)
    return cables
