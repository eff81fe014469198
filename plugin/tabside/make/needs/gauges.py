"""The gauge of each lead for which nobody states one: the thinnest that does, with the reason."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import NamedTuple

from msgspec.structs import replace

from tabside.analysis.current.contact_ranges import crimped_family, gauge_range
from tabside.analysis.current.drop_limits import drops_beyond
from tabside.analysis.current.wire_limits import wire_limit
from tabside.analysis.joined.lead_amps import contact_ohm, mated_families, ohm_per_m
from tabside.analysis.joined.lead_ends import WireFrom
from tabside.analysis.judgement import Judgement
from tabside.facts.families import family as titled
from tabside.make.needs.gauge_needs import Need, needs_of
from tabside.model.craft import Craft, Lead, SaidBy

SHARES = (1.0, 0.75, 0.5, 0.25, 0.1)  # of its equal part that a lead may lose, where another one needs more
# Sizes that every shop has, the thinnest first; common practice, no source.
SIZES = (30, 28, 26, 24, 22, 20, 18, 16, 14, 12, 10, 8)


class GaugeChoice(NamedTuple):
    """A gauge in AWG, None where none does, and why."""

    gauge_awg: int | None
    why: str


class GaugeObstacle(NamedTuple):
    """What keeps a gauge from being used."""

    kind: str  # "contact", "current", "drop"
    words: str


def with_gauges(judgement: Judgement) -> Craft:
    """The craft with a gauge for each lead that is cut from new wire and has none; stated ones are never changed.

    Supply and ground leads whose current is not stated, and signals that no contact limits, stay without one.
    """
    craft = judgement.craft
    made = {lead.lead.mark for lead in judgement.made_leads if lead.wire_from is WireFrom.NEW}
    wanting = [lead for lead in craft.leads if lead.gauge_awg is None and lead.mark in made]
    if not wanting:
        return craft
    needs = needs_of(judgement)
    if not judgement.flows.any_stated:  # nobody speaks of currents: nothing to say of each lead that has none
        wanting = [lead for lead in wanting if needs[lead.mark].most_a is not None]
    chosen = {lead.mark: choose_gauge(craft, lead, needs[lead.mark]) for lead in wanting}
    thickest = {
        lead.mark: choice
        for lead in wanting
        if chosen[lead.mark].gauge_awg is None and (choice := _thickest(craft, lead, needs[lead.mark])) is not None
    }
    if thickest:
        # A lead lost more than its equal part of the way; the others may lose less, and the whole way hold the drop.
        for share in SHARES:
            others = {lead.mark: choose_gauge(craft, lead, _less(needs[lead.mark], share)) for lead in wanting}
            bold = _with_choices(craft, others | thickest)
            if not any(drops_beyond(Judgement(bold))):
                return bold
    return _with_choices(craft, chosen)


def _less(need: Need, share: float) -> Need:
    return need if need.may_lose_v is None else need._replace(may_lose_v=need.may_lose_v * share)


def _with_choices(craft: Craft, chosen: Mapping[str, GaugeChoice]) -> Craft:
    leads = tuple(_with(lead, chosen[lead.mark]) if lead.mark in chosen else lead for lead in craft.leads)
    by_mark = {lead.mark: lead for lead in leads}
    links = tuple(replace(link, leads=tuple(by_mark[lead.mark] for lead in link.leads)) for link in craft.links)
    return replace(craft, leads=leads, links=links)


def _thickest(craft: Craft, lead: Lead, need: Need) -> GaugeChoice | None:
    """The thickest that fits both contacts and carries the current, where only the lead's part of the drop breaks."""
    if not need.most_a:
        return None
    families = list(dict.fromkeys(_crimped(craft, lead)))
    for size in reversed(SIZES):
        broken = [limit.kind for limit in _limits(craft, lead, need, families, size)]
        if broken == ["drop"]:
            most, row = wire_limit(craft.settings.limits, size)
            return GaugeChoice(
                size,
                f"gauge chosen, the thickest that fits {_titles(families) or 'the table'}: carries"
                f" {need.most_a:.3g} A (up to {most:.3g} A by table {row.table.id}),"
                " the whole way, as far as it is known, holds the drop",
            )
    return None


def _with(lead: Lead, choice: GaugeChoice) -> Lead:
    if not choice.why:
        return lead
    said_by = SaidBy.CHOSEN if choice.gauge_awg is not None else SaidBy.NOBODY
    return replace(lead, gauge_awg=choice.gauge_awg, gauge_said_by=said_by, notes=(*lead.notes, choice.why))


def choose_gauge(craft: Craft, lead: Lead, need: Need) -> GaugeChoice:
    """The thinnest of the usual sizes that carries the current, holds the drop and fits both contacts."""
    if need.most_a is None:
        return GaugeChoice(None, "gauge not chosen: what it carries is not stated")
    families = list(dict.fromkeys(_crimped(craft, lead)))
    if need.most_a == 0 and not any(gauge_range(family).spans for family in families):
        return GaugeChoice(None, "")
    broken: dict[int, GaugeObstacle] = {}
    for size in SIZES:
        limit = next(_limits(craft, lead, need, families, size), None)
        if limit is None:
            return GaugeChoice(size, _why(craft, lead, need, families, size, broken))
        broken[size] = limit
    return GaugeChoice(None, _why_none(families, broken))


def _crimped(craft: Craft, lead: Lead) -> Iterator[str]:
    here, there = (craft.terminations[reference] for reference, _ in lead.ends)
    for one, other in ((here, there), (there, here)):
        family = crimped_family(one, other)
        if family is not None:
            yield family


def _limits(craft: Craft, lead: Lead, need: Need, families: list[str], size: int) -> Iterator[GaugeObstacle]:
    """What breaks at this size, the contacts first."""
    for family in families:
        stated = gauge_range(family)
        if not stated.holds(size):
            yield GaugeObstacle("contact", f"contacts of {titled(family).title} take {stated.words}")
    most, row = wire_limit(craft.settings.limits, size)
    if (need.most_a or 0.0) > most * (1 + 1e-9) or (row.below and (need.most_a or 0.0) > 0):
        yield GaugeObstacle(
            "current", f"{size} AWG carries {most:.3g} A by table {row.table.id}, and {need.most_a:.3g} A flow"
        )
    lost = _lost_v(craft, lead, need, size)
    if lost is not None and need.may_lose_v is not None and lost > need.may_lose_v * (1 + 1e-9):
        yield GaugeObstacle(
            "drop", f"{size} AWG loses {lost:.2g} V, and {need.may_lose_v:.2g} V are this wire's part of the drop"
        )


def _lost_v(craft: Craft, lead: Lead, need: Need, size: int) -> float | None:
    if lead.length_mm is None or need.typical_a is None:
        return None
    contacts = sum(contact_ohm(family) or 0.0 for family in mated_families(craft, lead) if family)
    return (ohm_per_m(size, craft.settings.limits.wire_c) * lead.length_mm / 1000 + contacts) * need.typical_a


def _titles(families: Iterable[str]) -> str:
    return " and ".join(titled(family).title for family in families)


def _why(craft: Craft, lead: Lead, need: Need, families: list[str], size: int, broken: dict[int, GaugeObstacle]) -> str:
    does = [f"fits {_titles(families)}"] if families else []
    if need.most_a:
        most, row = wire_limit(craft.settings.limits, size)
        does.append(f"carries {need.most_a:.3g} A (up to {most:.3g} A by table {row.table.id})")
        if need.may_lose_v is not None:
            does.append("holds the drop" if lead.length_mm is not None else "drop not checked, its length is not known")
    thinner = list(broken.values())[-1:]
    but = f"; {thinner[0].words}" if thinner and thinner[0].kind != "contact" else ""
    return f"gauge chosen, the thinnest usual one: {', '.join(does) or 'nothing else limits it'}{but}"


def _why_none(families: list[str], broken: dict[int, GaugeObstacle]) -> str:
    """Which limit breaks: at the thickest size that the contacts take, or the contacts themselves."""
    fits = [limit for limit in broken.values() if limit.kind != "contact"]
    contacts = "; ".join(f"{titled(family).title} takes {gauge_range(family).words}" for family in families)
    if not fits:
        return f"no usual gauge fits both ends: {contacts}" if contacts else "no usual gauge does"
    end = f", and contacts take no thicker one ({contacts})" if contacts else ", and no usual one is thicker"
    return f"no gauge does: {fits[-1].words}{end}"
