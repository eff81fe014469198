"""How the wires are made that no old cable gives: planned as the plan does, but for these wires alone."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from types import MappingProxyType
from typing import NamedTuple

from msgspec.structs import replace

from tabside.analysis.joined.lead_ends import MadeLead
from tabside.compare.fates.cable_fate import CableFate
from tabside.documents.build import CraftBuild
from tabside.make.buy.purchase import Purchase
from tabside.make.making import make_plan
from tabside.make.sheets.cable_plan import CablePlan, Step
from tabside.model.craft import Cable, Craft, Link
from tabside.prove.measurement import Measurement, When, touched_leads


class NewWires(NamedTuple):
    """The plan for what is made."""

    whole: dict[str, CablePlan]  # cables, and single wires, of which no wire is there; by name
    steps: dict[str, tuple[Step, ...]]  # mark of each new wire of the other cables -> how it is made
    purchases: tuple[Purchase, ...] = ()
    stopped: Mapping[str, str] = MappingProxyType({})  # mark of a wire that cannot be made -> why
    colours: Mapping[str, str | None] = MappingProxyType({})  # of each new wire as it will lie on the bench


NOTHING_MADE = NewWires({}, {})


def plan_new_wires(
    build: CraftBuild, fates: Iterable[CableFate], rows: Iterable[Measurement], parts_that_stay: Collection[str]
) -> NewWires:
    """`build` is that of the new drawing; `parts_that_stay`: nobody takes all wires off them to meter them."""
    mark_of = {frozenset(made.lead.ends): made.lead.mark for made in build.leads}
    whole = [fate.new for fate in fates if fate.new is not None and fate.made and not fate.wires]
    single = {mark_of[wire] for fate in fates if fate.new is not None and fate.wires for wire in fate.made}
    marks = single | {mark for cable in whole for mark in cable.leads}
    if not marks:
        return NOTHING_MADE
    leads = tuple(_by_itself(made, single) for made in build.leads if made.lead.mark in marks)
    kept = {key[0] for made in build.leads if made.lead.mark not in marks for key in made.lead.ends}
    kept |= set(parts_that_stay)
    of_these = [  # the plan knows no other wire, and a part with wires on it is not metered by itself
        row
        for row in rows
        if touched_leads(row) <= marks and not (row.when is When.PART and row.where.termination in kept)
    ]
    plan = make_plan(_craft_of(build.craft, leads, whole), leads, of_these)
    sheets = [_without_power(sheet) for sheet in plan.cables]
    return NewWires(
        whole={sheet.label: sheet for sheet in sheets if not single & set(sheet.leads)},
        steps={
            mark: tuple(step for step in sheet.steps if step.lead == mark)
            for sheet in sheets
            for mark in sheet.leads
            if mark in single
        },
        purchases=plan.purchases,
        stopped={mark: sheet.stopped for sheet in plan.cables if sheet.stopped for mark in sheet.leads},
        colours=plan.colours,
    )


def _without_power(sheet: CablePlan) -> CablePlan:
    """What is under tape, in a fuse holder or powered is asked of all sheets together."""
    steps = (replace(step, power="") for step in sheet.steps if not step.for_volts)
    return replace(sheet, steps=tuple(steps))


def _by_itself(made: MadeLead, single: Collection[str]) -> MadeLead:
    """A wire that joins a cable which is there is planned as one that no plug ties to others."""
    return replace(made, lead=replace(made.lead, cable=None)) if made.lead.mark in single else made


def _craft_of(craft: Craft, leads: tuple[MadeLead, ...], whole: Iterable[Cable]) -> Craft:
    """The craft with these wires alone."""
    kept = {made.lead.mark: made.lead for made in leads}
    links = (
        Link(link.ends, tuple(kept[lead.mark] for lead in link.leads if lead.mark in kept)) for link in craft.links
    )
    return replace(
        craft,
        leads=tuple(kept.values()),
        links=tuple(link for link in links if link.leads),
        cables=tuple(cable for cable in whole if cable.mark),
    )
