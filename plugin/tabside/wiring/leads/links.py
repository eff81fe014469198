"""Links (all leads between two terminations) and cables (leads that enter the same plug)."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from msgspec import Struct

from tabside.model.craft import Lead, Link, Termination
from tabside.model.groups import Groups
from tabside.wiring.leads.lead_tree import LeadEnds, Order, contact_order, lead_order


class CableLeads(Struct, frozen=True):
    """The leads of one cable, and the terminations that it meets, in natural order."""

    leads: tuple[int, ...]  # indexes
    ends: tuple[str, ...]
    plugs: tuple[str, ...]  # those of the ends that take a plug


def links_of(leads: Iterable[Lead]) -> tuple[Link, ...]:
    """In natural order of their ends; the leads of each by contact order of its first end."""
    found: dict[tuple[str, str], list[Lead]] = {}
    for lead in leads:
        found.setdefault(lead.link, []).append(lead)
    ordered = sorted(found, key=lambda ends: lead_order(((ends[0], ""), (ends[1], ""))))
    return tuple(Link(ends, tuple(sorted(found[ends], key=lambda lead: lead_order(lead.ends)))) for ends in ordered)


def cables_of(leads: Sequence[LeadEnds], terminations: Mapping[str, Termination]) -> list[CableLeads]:
    """Leads that enter the same plug are one cable; pads, splices and in-line parts do not tie leads together.

    In natural order of their first plugs.  A lead that enters no plug is in no cable.
    """
    groups: Groups[str] = Groups()
    plugs_of = [[reference for reference, _ in ends if terminations[reference].takes_plug] for ends in leads]
    for plugs in plugs_of:
        if len(plugs) == 2:
            groups.join(plugs[1], plugs[0])
    members: dict[str, list[int]] = {}
    for index, plugs in enumerate(plugs_of):
        if plugs:
            members.setdefault(groups.root(plugs[0]), []).append(index)
    cables = []
    for indexes in members.values():
        met = {reference for index in indexes for reference, _ in leads[index]}
        ends = sorted(met, key=_order)
        plugs = [reference for reference in ends if terminations[reference].takes_plug]
        cables.append(CableLeads(tuple(indexes), tuple(ends), tuple(plugs)))
    return sorted(cables, key=lambda cable: _order(cable.plugs[0]))


def _order(reference: str) -> Order:
    return contact_order((reference, ""))
