"""The colour that a wire gets when neither the drawing nor the stock has one: by what it carries and nothing else."""

from __future__ import annotations

from collections.abc import Iterable

from msgspec.structs import replace

from tabside.analysis.joined.lead_ends import MadeLead, WireFrom
from tabside.facts.usual_colours import usual_colour
from tabside.model.craft import Craft, Lead


def with_usual_colours(craft: Craft, leads: Iterable[MadeLead]) -> Craft:
    """The craft with the usual colour for each lead of new wire of which the drawing states none."""
    new = {made.lead.mark for made in leads if made.wire_from is WireFrom.NEW}
    by_mark = {lead.mark: _with(craft, lead) if lead.mark in new else lead for lead in craft.leads}
    links = tuple(replace(link, leads=tuple(by_mark[lead.mark] for lead in link.leads)) for link in craft.links)
    return replace(craft, leads=tuple(by_mark.values()), links=links)


def _with(craft: Craft, lead: Lead) -> Lead:
    if lead.colour is not None:
        return lead
    usual = (usual_colour(craft.contact(key).role) for key in lead.ends)
    return replace(lead, usual_colour=next(filter(None, usual), None))
