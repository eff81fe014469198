"""A pack's bare end is under tape while hands are elsewhere, and a joint is looked at before its cover goes on.

Common practice of work at packs, no source outside.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from msgspec.structs import replace

from tabside.compare.side import Side
from tabside.compare.work.cable_work import CableWork
from tabside.compare.work.packs.at_live_wires import at_live_wire, place_words
from tabside.compare.work.packs.hot import Hot
from tabside.compare.work.worded import BARED, ON, of_no_wire, old_number
from tabside.make.sheets.cable_plan import Action, Step
from tabside.make.sheets.loose.covers import inspect_words
from tabside.make.sheets.when.moments import is_volts
from tabside.prove.measurement import At

_AT_BARE_END = (*BARED, Action.SHRINK)


def ends_and_joints(cables: Iterable[CableWork], new: Side, hot: Hot) -> list[CableWork]:
    """The same with the tape and the looks that are missing."""
    return [work.with_steps(_taped(list(_looked_at(work.steps, new)), hot)) for work in cables]


def _taped(steps: Sequence[Step], hot: Hot) -> Iterator[Step]:
    stripped: set[str] = set()
    for n, step in enumerate(steps):
        yield step
        stripped |= {step.lead} if step.action in BARED else set()
        at_end = step.live and step.action in _AT_BARE_END and step.lead in hot.mine & stripped
        if at_end and _hands_go(step, steps[n + 1 :]):
            yield at_live_wire(step, Action.INSULATE, step.lead, "tape over its bare end", cavity=step.cavity)


def _hands_go(step: Step, after: Sequence[Step]) -> bool:
    """Whether what comes next is neither at this end nor its volts."""
    if not after:
        return True
    volts = [row for row in after[0].rows if is_volts(row)]
    return after[0].lead != step.lead and not any(
        row.where.at is At.BARE and row.where.lead == step.lead for row in volts
    )


def _looked_at(steps: Sequence[Step], new: Side) -> Iterator[Step]:
    places = {
        termination.reference for termination in new.terminations.values() if not termination.takes_plug
    }  # cups: the cover says it
    for n, step in enumerate(steps):
        after = steps[n + 1] if n + 1 < len(steps) else None
        same_end = after is not None and (after.lead, after.end, after.cavity) == (step.lead, step.end, step.cavity)
        if step.action is Action.INSULATE and same_end and after is not None and after.action is Action.SOLDER:
            continue  # nothing comes between
        yield step
        if not step.live or step.action is not Action.SOLDER or after is None or step.cavity is None:
            continue
        if after.action is Action.INSULATE and same_end and step.termination in places:
            yield of_no_wire(step, Action.TEST, inspect_words(step.lead, place_words(step)))


def live_where_live(cables: Iterable[CableWork], hot: Hot) -> Iterator[CableWork]:
    """LIVE is said of no wire that hangs on one that is off, and of none that is not yet joined to anything."""
    joined: set[str] = set()
    for work in cables:
        steps = []
        for step in work.steps:
            joined |= {step.lead} if step.action in ON else set()
            fresh = step.lead not in hot.mine and old_number(step, work.old_leads) is None
            cold = hot.is_dead(step, work.old_leads) or (fresh and step.lead and step.lead not in joined)
            steps.append(replace(step, live=False) if cold else step)
        yield work.with_steps(steps)
