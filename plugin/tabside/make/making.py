"""The plan of a whole craft: a sheet for each cable, what to buy and cut, time, money and mass."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping

from msgspec.structs import replace

from tabside.analysis.joined.lead_ends import MadeLead
from tabside.make.assumptions import assumptions, bound_words
from tabside.make.buy.cut_pieces import cut_pieces, taken_from
from tabside.make.buy.shopping import shopping
from tabside.make.by_hand import ByHand, by_hand
from tabside.make.craft_plan import CraftPlan
from tabside.make.needs.mass import harness_mass
from tabside.make.needs.working_order import in_working_order
from tabside.make.sheets.cable_plan import Action, CablePlan
from tabside.make.sheets.part_steps import part_steps
from tabside.make.sheets.sheet import sheet
from tabside.make.sheets.sheet_facts import sheet_facts
from tabside.make.sheets.slack import slack_findings
from tabside.make.sheets.twins import with_twins
from tabside.make.sheets.when.tested_elsewhere import with_pointers
from tabside.make.sheets.wires.bench_wires import bench_wires
from tabside.make.sheets.wires.stock_cuts import stock_cuts
from tabside.make.solve.cable_costs import cable_costs
from tabside.make.solve.choice import CableChoice, CraftChoice
from tabside.make.solve.choosing import choose
from tabside.make.solve.lead_methods import crimped_families
from tabside.model.craft import Craft
from tabside.prove.measurement import Measurement


def make_plan(
    craft: Craft,
    leads: tuple[MadeLead, ...],
    proofs: Iterable[Measurement],
    finders: Mapping[str, Collection[str]] | None = None,
) -> CraftPlan:
    """How everything is made; `leads` with their ends, `proofs` are the measurements of the craft's continuity sheet.

    `finders`: ids of the rows that find a mistake at a lead, by its mark; None: `proofs` are not all of the craft's.

    Raises: TabsideError when the solver finds no plan in its time.
    """
    choices = choose(craft, leads)
    cut_from = stock_cuts(craft, choices)
    wires, costs, taken = bench_wires(craft, choices, cut_from), cable_costs(choices, craft), taken_from(craft, choices)
    ordered = _in_working_order(choices, craft)
    facts = sheet_facts(ordered, wires, tuple(proofs), craft, whole=finders is not None)
    sheets = [_rounded(sheet(choice, facts), costs[choice.job.label]) for choice in ordered]
    cables = tuple(with_twins(sheets))
    if finders is not None:
        cables = tuple(with_pointers(cables, craft, facts.packs.live, finders))
    crimps = sum(step.action is Action.CRIMP for cable in cables for step in cable.steps)
    parts = part_steps(craft)
    part_minutes = sum(part.minutes for part in parts)
    return CraftPlan(
        cables=cables,
        purchases=shopping(craft, choices, leads),
        cuts=cut_pieces(leads, taken, cut_from, choices, wires.colours, craft.settings.cutting),
        stock_cuts=cut_from,
        minutes=sum(cable.minutes for cable in cables) + part_minutes,
        cost=_money(choices),
        crimps=crimps,
        by_hand=_by_hand(craft, leads, choices, crimps, part_minutes),
        mass=harness_mass(leads, _od_mm(craft, choices)),
        optimal=choices.solved.optimal,
        bound_words=bound_words(choices),
        assumptions=assumptions(craft, choices, wires, cables),
        taken=taken,
        colours=wires.colours,
        findings=slack_findings(craft, choices),
        parts=parts,
    )


def _by_hand(craft: Craft, leads: Iterable[MadeLead], choices: CraftChoice, crimps: int, part_minutes: float) -> ByHand:
    """`crimps`: of the plan; those that leave no choice are crimped either way."""
    chosen = sum(len(crimped) for cable in choices.cables for crimped in crimped_families(cable))
    every = by_hand(leads, craft.settings.costs, craft.settings.cutting)
    return replace(every, crimps=every.crimps + crimps - chosen, minutes=every.minutes + part_minutes)


def _in_working_order(choices: CraftChoice, craft: Craft) -> list[CableChoice]:
    by_label = {choice.job.label: choice for choice in choices.cables}
    return [by_label[job.label] for job in in_working_order(craft, (choice.job for choice in choices.cables))]


def _od_mm(craft: Craft, choices: CraftChoice) -> dict[str, float]:
    """Diameter over insulation of leads whose wire comes from an entry of the stock that says it."""
    entries = {mark: source.entry(craft.settings) for mark, source in choices.sources()}
    return {mark: entry.od_mm for mark, entry in entries.items() if entry is not None and entry.od_mm is not None}


def _rounded(cable: CablePlan, cost: float) -> CablePlan:
    return replace(cable, cost=round(cost, 4), minutes=round(cable.minutes, 2))


def _money(choices: CraftChoice) -> float:
    ready = sum(choice.work.money for choice in choices.cables if choice.ready is not None)
    return round(ready + sum(choices.work[deed].money * count for deed, count in choices.solved.times.items()), 4)
