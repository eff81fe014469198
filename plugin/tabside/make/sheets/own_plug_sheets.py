"""Sheets that begin with the plug that a part brings along."""

from __future__ import annotations

from msgspec.structs import replace

from tabside.make.method import Method
from tabside.make.needs.cable_jobs import CableJob
from tabside.make.options.repin import Pair, Repin, plan_repin
from tabside.make.sheets.cable_plan import CablePlan
from tabside.make.sheets.handling import handling_of
from tabside.make.sheets.pen_marks import PEN_PLUG
from tabside.make.sheets.ready_sheets import carry_out, plug_rows
from tabside.make.sheets.step_list import StepList
from tabside.make.sheets.when.moments import Moments
from tabside.model.craft import Craft


def own_repinned(
    made: CablePlan, job: CableJob, craft: Craft, own: tuple[str, str], steps: StepList, moments: Moments
) -> CablePlan:
    """`own`: the part and the board connector into which its plug goes."""
    part, there = own
    repin, pairs, names = _repin(job, craft, part, there, steps)
    repin = replace(repin, moves=tuple(move for move in repin.moves if move.plug == 1))
    plug = tuple(replace(end, has_plug=True) if end.termination == there else end for end in made.ends)
    for n, pair in enumerate(pairs):
        if pair[1] <= len(steps.row(there)):
            steps.fill(there, pair[1], names[n])
    before = {there: steps.row(there)}
    proof = (
        f"first test the part's own plug: its markings say which wire is which; cavity n must hold contact n of {part} "
        "as drawn. If not, do not use this sheet: correct the drawing and plan again"
    )
    steps.test(there, proof)
    steps.label(job.terminations[0], PEN_PLUG)
    words = f"label both ends {job.label}, and tag each wire with its number, as they sit in the part's plug now"
    steps.label(there, words, tags=True)
    carry_out(repin, pairs, names, (part, there), steps, over=False)
    if moments.loose:
        steps.test(there, "test now", moments.loose)
    costs = craft.settings.costs
    family = craft.terminations[part].family or ""
    return replace(
        made,
        method=Method.RE_PIN,
        from_what=f"the plug that {part} brings along",
        steps=tuple(steps.steps),
        minutes=costs.move_minutes * repin.moved + costs.leave_out_minutes * len(repin.unused),
        why=f"{repin.moved} contacts of the part's own plug sit in another order than {there} has",
        rows=plug_rows([end for end in plug if end.termination == there], before, steps, craft, {}),
        start=pairs,
        handling=(handling_of(family),),
        moves=repin.moved,
    )


def _repin(
    job: CableJob, craft: Craft, own: str, there: str, steps: StepList
) -> tuple[Repin, tuple[Pair, ...], dict[int, str]]:
    """The moves in a part's own plug, all its leads counted: those that are not drawn, too."""
    goes = {}
    marks = {}
    for made in job.leads:
        keys = dict(made.lead.ends)
        goes[int(keys[own])] = int(keys[there])
        marks[int(keys[own])] = made.lead.mark
    numbers = [int(contact.number) for contact in craft.terminations[own].contacts if contact.number.isdecimal()]
    pairs = tuple((n, n) for n in sorted(numbers))
    repin = plan_repin(pairs, list(goes.items()), at=1)
    if repin is None:  # each lead keeps its place inside the part, so there always is one
        raise AssertionError(job.label)
    return repin, pairs, {k: marks.get(n) or steps.spare(str(n)) for k, (n, _) in enumerate(pairs)}
