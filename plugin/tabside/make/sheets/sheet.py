"""One sheet for each cable: method, steps, what to check by eye first, and the reasons."""

from __future__ import annotations

from msgspec.structs import replace

from tabside.analysis.joined.lead_ends import EndKind, MadeLead
from tabside.make.method import Method
from tabside.make.needs.cable_jobs import CableJob, soldered
from tabside.make.needs.live_leads import meets_pack
from tabside.make.needs.own_plugs import own_plug, why_not_moved
from tabside.make.needs.twisted_pairs import twist_looks
from tabside.make.sheets.cable_plan import HANDS, CablePlan
from tabside.make.sheets.looks import own_wire_looks, plug_looks
from tabside.make.sheets.loose.loose_cables import lead_by_lead
from tabside.make.sheets.loose.loose_sheet import LooseSheet
from tabside.make.sheets.own_plug_sheets import own_repinned
from tabside.make.sheets.plug_views import Views
from tabside.make.sheets.ready_sheets import from_ready
from tabside.make.sheets.sheet_facts import SheetFacts
from tabside.make.sheets.step_list import StepList
from tabside.make.sheets.when.moments import Moments, is_volts, moments_of
from tabside.make.solve.choice import CableChoice
from tabside.make.solve.lead_methods import method_of
from tabside.model.craft import Craft
from tabside.words.cautions import LIVE_CAUTIONS, NO_PLUG, PARALLEL, SOLDERING, powered_already, switch_alone
from tabside.words.fuses import out_now


def sheet(choice: CableChoice, facts: SheetFacts) -> CablePlan:
    """How this cable is made."""
    job, craft = choice.job, facts.craft
    made = _without_steps(choice, facts)
    steps = StepList({end.termination: end for end in made.ends}, facts.step_facts(job))
    moments = _moments(job, facts)
    stopped = "" if choice.ready is not None else _stopped(choice, craft)
    if stopped:
        return replace(made, method=method_of(choice), stopped=stopped, why=stopped)
    own = own_plug(job, craft)
    if choice.ready is not None:
        made = from_ready(made, choice, choice.ready, craft, steps, moments)
    elif own is not None:
        made = own_repinned(made, job, craft, own, steps, moments)
    else:
        made = lead_by_lead(made, LooseSheet(facts, choice, moments, steps))
    return _faces(made, facts.views)


def _without_steps(choice: CableChoice, facts: SheetFacts) -> CablePlan:
    job = choice.job
    guests: dict[str, tuple[MadeLead, ...]] = {}
    for made, end in (*facts.last_of(job), *facts.late_of(job)):
        if end.key[0] not in job.terminations:
            guests[end.key[0]] = (*guests.get(end.key[0], ()), made)
    ends = tuple(facts.views.end(reference, job.leads) for reference in job.terminations)
    ends += tuple(facts.views.end(reference, leads) for reference, leads in guests.items())
    marks = [made.lead.mark for made in job.leads]
    looks = (*plug_looks(job, ends), *own_wire_looks(job, facts.wires.own_mm, facts.craft))
    return CablePlan(
        mark=job.mark,
        label=job.label,
        leads=tuple(marks),
        ends=ends,
        guests=tuple(guests),
        method=Method.AS_BOUGHT,
        start_from=None,
        from_what="",
        steps=(),
        needs_one_look=(*looks, *twist_looks(facts.craft, marks)),
        minutes=choice.work.minutes,
        cost=choice.work.money,
        why="",
        rows=(),
        start=None,
        handling=(),
        warnings=choice.not_used,
        cautions=_cautions(job, facts),
        meets_pack=meets_pack(facts.craft, job),
    )


def _moments(job: CableJob, facts: SheetFacts) -> Moments:
    joints = any(soldered(end) for made in job.leads for end in made.ends) or bool(facts.late_of(job))
    volts = tuple(row for row in facts.rows if facts.volts_at.get(row.id) == job.label and is_volts(row))
    moments = moments_of(job, facts.rows, facts.packs.live, joints, facts.late.rows)
    return replace(moments, volts=volts, done=facts.done_before[job.label])


def _cautions(job: CableJob, facts: SheetFacts) -> tuple[str, ...]:
    """What can hurt at this cable beside what holds for all of them."""
    said: list[str] = []
    if any(made.lead.mark in facts.packs.live for made in job.leads):
        said += LIVE_CAUTIONS
        said += [PARALLEL] if facts.packs.parallel else []
        said += [out_now(reference) for reference in facts.packs.fuses]
        said += [f"{reference} off." for reference in facts.packs.switches]
        if facts.power.joints & facts.joints_on(job):
            said.append(switch_alone(facts.packs.switches) if facts.packs.switches else NO_PLUG)
        said += [powered_already(*by) for by in facts.power.powered.get(job.label, ())]
    if any(soldered(end) for made in job.leads for end in made.ends):
        said.append(SOLDERING)
    return tuple(said)


def _faces(made: CablePlan, views: Views) -> CablePlan:
    """Adds what is not known of the faces of plugs, of those that hands work on or a meter counts, and what clashes."""
    worked = {step.end for step in made.steps if step.occupancy and (step.tags or step.action in HANDS)}
    looks = [text for end in made.ends if end.name in worked or views.wants_a_look(end) for text in views.looks(end)]
    return replace(made, needs_one_look=(*looks, *made.needs_one_look))


def _stopped(choice: CableChoice, craft: Craft) -> str:
    """Why it cannot be made as drawn."""
    job = choice.job
    if choice.stopped:
        marks = ", ".join(choice.stopped)
        return (
            f"no contact of the plug takes the gauge of {marks}, and no pre-crimped lead does: change gauge or family"
        )
    if any(end.kind is EndKind.SLOT for made in job.new for end in made.ends):
        return "an insulation-displacing plug is not made by hand, and no ready-made cable fits: have it made"
    return why_not_moved(job, craft)
