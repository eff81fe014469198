"""Contacts and wires that carry more than they are made for."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from tabside.analysis import harm
from tabside.analysis.current.limits_of_leads import CONTACT, WIRE, LeadLimits, Limit
from tabside.analysis.flows.lead_loads import Carrying, Reach, Together, reaches, together
from tabside.analysis.judgement import Judgement
from tabside.analysis.places import at_contacts
from tabside.model.craft import Contact, Craft, Lead
from tabside.model.findings import Finding, Severity
from tabside.rules.rule import check
from tabside.words.contacts import counted, link_name, listed

_SLACK = 1 + 1e-9
_FIX = {
    CONTACT: "Spread the current over more contacts, choose a family that carries it, or feed the load another way.",
    WIRE: "Use a thicker gauge or more wires; the table is chosen in the craft file (wire.ampacity).",
}


@check(CONTACT, WIRE, severity=Severity.ERROR)
def over_current(judgement: Judgement) -> Iterator[Finding]:
    """A wire carries what is taken beyond it: its contacts and its conductor are rated for that.

    A contact above its rating heats, loses its spring and heats more; a wire above its own melts its insulation and
    that of its neighbours.  Every wire that is made here is checked, a part's own leads too; wire that a part
    brings along is checked where its gauge is stated.  A contact's rating follows the wire's gauge and the number of
    contacts that carry, where a table says so.  Where loops or several sources leave a current open, what is certain is
    checked, and what it could reach is a warning.

    Example: 4 A through a contact for 1 A; 25 A through 28 AWG.

    Fix: more contacts or wires side by side, a thicker gauge, a family made for the current.
    Accept: peaks of a moment, with their length.
    Passes: 1 A over a contact for 1 A; 1.5 A over two such contacts; wires whose load is not stated.
    Fails: 1.2 A over it; 1.7 A over two; 8 A over JST VH with 18 AWG; 5 A over 28 AWG by a standard's table; two wires
    for 1 A each that must bring 2.5 A together.
    Fails, too: a wire above every standard's table, whichever table is chosen.
    Warns: figures from the trade, from memory, or of common practice; a wire in a loop that could carry too much.
    Notes: other wires whose current the drawing does not decide.
    Source: the tables of connectors and of contacts' currents (makers' ratings); the chosen table of currents, named in
    each finding; 80 % sharing of parallel contacts is common practice, no source.
    """
    flows = judgement.flows
    if not flows.any_stated:
        return
    limits = LeadLimits(judgement)
    craft = judgement.craft
    yield from _over(craft, limits)
    told: set[tuple[Lead, str]] = set()
    for group in together(flows):
        for finding in _over_together(craft, limits, group):
            told.update((lead, finding.rule) for lead in group.leads)
            yield finding
    for reach in reaches(flows):
        for finding in _could_be_over(craft, limits, reach):
            if not all((lead, finding.rule) in told for lead in reach.leads):
                told.update((lead, finding.rule) for lead in reach.leads)
                yield finding
    left = [lead for lead in limits.open if (lead, CONTACT) not in told and (lead, WIRE) not in told]
    if left:
        yield _not_determined(craft, left)


def _over(craft: Craft, limits: LeadLimits) -> Iterator[Finding]:
    """One finding for each link and family, or link and gauge; contacts first."""
    told: dict[tuple[tuple[str, str], str, str], tuple[Limit, list[Carrying]]] = {}
    for wire in limits.carrying:
        for limit in limits.of(wire.lead):
            if wire.amps > limit.amps * _SLACK:
                key = (wire.lead.link, limit.rule, limit.of)
                told.setdefault(key, (limit, []))[1].append(wire)
    for limit, over in sorted(told.values(), key=lambda entry: entry[0].rule):
        leads = [wire.lead for wire in over]
        worst = max(over, key=lambda wire: wire.amps)
        upto = "" if len({round(wire.amps, 6) for wire in over}) == 1 else "up to "
        verb = "carries" if len(over) == 1 else "carry"
        yield _finding(
            craft, limit, leads, f"{_names(craft, leads)} {verb} {upto}{_words(worst)}", hard=limit.is_error(worst.amps)
        )


def _words(worst: Carrying) -> str:
    least = "" if worst.whole.whole else "at least "
    if worst.beside == 1:
        return f"{least}{worst.amps:.3g} A"
    shared = f"{worst.whole.most:.3g} A shared by {worst.beside} wires, each counted at 80 %"
    return f"{least}{worst.amps:.3g} A each ({shared})"


def _over_together(craft: Craft, limits: LeadLimits, group: Together) -> Iterator[Finding]:
    """Certain, however the current divides: the leads carry less together than the board takes."""
    found = _weakest(limits, group.leads)
    for rule in (CONTACT, WIRE):
        lowest = [found[lead, rule] for lead in group.leads if (lead, rule) in found]
        if len(lowest) == len(group.leads) and group.amps > sum(limit.amps for limit in lowest) * _SLACK:
            worst = min(lowest, key=lambda limit: limit.amps)
            leads = list(group.leads)
            what = (
                f"{_names(craft, leads)} must bring {group.board} at least {group.amps:.3g} A together, and is limited"
                f" to {sum(limit.amps for limit in lowest):.3g} A"
            )
            yield _finding(
                craft,
                worst,
                leads,
                what,
                hard=all(limit.hard for limit in lowest) or _beyond_standards(lowest, group.amps),
            )


def _could_be_over(craft: Craft, limits: LeadLimits, reach: Reach) -> Iterator[Finding]:
    """At least so much is certain; what a lead could carry is a warning."""
    found = _weakest(limits, reach.leads)
    for rule in (CONTACT, WIRE):
        weak = [(lead, found[lead, rule]) for lead in reach.leads if (lead, rule) in found]
        lowest = [limit for _, limit in weak]
        certain = len(lowest) == len(reach.leads) and reach.least > sum(limit.amps for limit in lowest) * _SLACK
        over = [(lead, limit) for lead, limit in weak if reach.most > limit.amps * _SLACK]
        if not over:
            continue
        worst = min((limit for _, limit in over), key=lambda limit: limit.amps)
        leads = list(reach.leads) if certain else [lead for lead, _ in over]
        verb = "carries" if len(leads) == 1 else "carry"
        what = (
            f"{_names(craft, leads)} {verb} at least {reach.least:.3g} A"
            if certain
            else f"{_names(craft, leads)} could carry up to {reach.most:.3g} A: more than one way, or more than one"
            " source, leads to the load"
        )
        yield _finding(craft, worst, leads, what, hard=certain and all(limit.is_error(reach.least) for limit in lowest))


def _beyond_standards(limits: Sequence[Limit], amps: float) -> bool:
    """Whether leads together carry more than any standard's table lets them."""
    sure = [max(limit.amps, limit.surely_a) for limit in limits if limit.surely_a is not None]
    return len(sure) == len(limits) and amps > sum(sure) * _SLACK


def _weakest(limits: LeadLimits, leads: Sequence[Lead]) -> dict[tuple[Lead, str], Limit]:
    """The lowest limit of each lead by rule."""
    found: dict[tuple[Lead, str], Limit] = {}
    for lead in leads:
        for limit in limits.of(lead):
            known = found.get((lead, limit.rule))
            if known is None or limit.amps < known.amps:
                found[lead, limit.rule] = limit
    return found


def _finding(craft: Craft, limit: Limit, leads: Sequence[Lead], what: str, *, hard: bool) -> Finding:
    return Finding(
        rule=limit.rule,
        severity=Severity.ERROR if hard else Severity.WARNING,
        message=f"{link_name(craft, leads[0].link)}: {what}; {limit.words}.",
        fix=_FIX[limit.rule],
        where=at_contacts(craft, _contacts(craft, leads)),
        link=leads[0].link,
        harm=harm.HEAT,
    )


def _names(craft: Craft, leads: Sequence[Lead]) -> str:
    """ "W1 (5V) and W2 (GND)"."""
    return listed([f"{lead.mark} ({_label(craft, lead)})" for lead in leads])


def _label(craft: Craft, lead: Lead) -> str:
    return next((label for key in lead.ends if (label := craft.contact(key).label)), lead.net)


def _contacts(craft: Craft, leads: Sequence[Lead]) -> list[Contact]:
    return [craft.contact(key) for lead in leads for key in lead.ends]


def _not_determined(craft: Craft, loops: Sequence[Lead]) -> Finding:
    links = [link_name(craft, link) for link in dict.fromkeys(lead.link for lead in loops)]
    return Finding(
        rule=WIRE,
        severity=Severity.NOTE,
        message=f"The current in {counted(len(loops), 'supply or ground wire')} cannot be calculated:"
        f" parallel paths, or no stated source ({listed(links, 1)}).",
        fix="Size each of these wires for the full current.",
        where=at_contacts(craft, [craft.contact(key) for lead in loops[:6] for key in lead.ends]),
    )
