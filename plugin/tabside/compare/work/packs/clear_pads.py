"""The two poles of a pack never meet: what still joins a place to the one comes off before the other is soldered there.

Common practice of work at packs, no source outside.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence

from tabside.compare.work.cable_work import CableWork
from tabside.compare.work.hands.places import each_once
from tabside.compare.work.packs.poles import Poles
from tabside.compare.work.worded import BARED, ON, old_number
from tabside.make.sheets.cable_plan import OFF, Action

_At = tuple[int, int]  # a sheet, and a step on it


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


def _first_meeting(cables: Sequence[CableWork], poles: Poles) -> tuple[_At, _At] | None:
    """A joint, and the first later step that takes a wire off which parts the poles again."""
    for n, work in enumerate(cables):
        for m, step in enumerate(work.steps):
            wire = poles.does(step, work.old_leads)
            met = poles.meeting(wire) if wire is not None else set()
            if met:
                found = _parts_them(cables, (n, m), poles, met)
                if found is not None:
                    return (n, m), found
    return None


def _parts_them(cables: Sequence[CableWork], joint: _At, poles: Poles, met: set[tuple[str, ...]]) -> _At | None:
    after = ((n, m) for n, work in enumerate(cables) for m, _ in enumerate(work.steps) if (n, m) > joint)
    return next((at for at in after if poles.takes_off(cables[at[0]].steps[at[1]], cables[at[0]].old_leads, met)), None)


def own_ends_off_first(cables: Sequence[CableWork], again: Mapping[str, str]) -> list[CableWork]:
    """A pack's own wire that is made anew elsewhere leaves its old joint, or its plug, before it is cut.

    `again`: new number of each such wire -> its number in the old drawing.
    """
    done = list(cables)
    for mark, was in again.items():
        steps = [((n, m), step) for n, work in enumerate(done) for m, step in enumerate(work.steps)]
        hands = [at for at, step in steps if step.lead == mark and step.action in (*BARED, *ON)]
        off = [
            at
            for at, step in steps
            if step.action in OFF and step.cavity is not None and old_number(step, done[at[0]].old_leads) == was
        ]
        later = [at for at in off if hands and at > hands[0]]
        for at in later[:1]:
            place = done[at[0]].steps[at[1]].termination
            whole = [
                (n, m)
                for (n, m), step in steps
                if hands[0] < (n, m) < at and step.action in OFF and step.cavity is None and step.termination == place
            ]
            done = _moved(done, at, hands[0])
            for plug in whole[:1]:
                done = _moved(done, plug, hands[0])
    return done


def _off_first(cables: list[CableWork], joint: _At, off: _At) -> list[CableWork]:
    """Before the first hand on the wire of the joint."""
    n, m = joint
    lead = cables[n].steps[m].lead
    first = next(k for k, step in enumerate(cables[n].steps) if step.lead == lead and step.cavity is not None)
    return _moved(cables, off, (n, first))


def _moved(cables: list[CableWork], off: _At, before: _At) -> list[CableWork]:
    """A step that takes something off, and its tape, to before another one of an earlier sheet.

    That sheet lists the place as well.
    """
    source, (n, first) = cables[off[0]], before
    taken = list(source.steps[off[1] : off[1] + 1])
    after = source.steps[off[1] + 1 : off[1] + 2]
    taken += [step for step in after if step.action is Action.INSULATE and taken[0].lead and step.lead == taken[0].lead]
    left = [step for step in source.steps if step not in taken]
    cables[off[0]] = source.with_steps(left)
    work = cables[n]
    steps = [*work.steps[:first], *taken, *work.steps[first:]]
    olds = {name: was for name, was in source.old_leads.items() if name == taken[0].lead}
    ends = each_once((*work.ends, *(end for end in source.ends if end.name == taken[0].end)))
    cables[n] = work._replace(ends=ends, old_leads={**olds, **work.old_leads}).with_steps(steps)
    return cables
