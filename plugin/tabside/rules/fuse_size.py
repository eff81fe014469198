"""Fuses that are too large for what they protect, or too small for what they feed."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby

from msgspec.structs import replace

from tabside.analysis import harm
from tabside.analysis.current.fuses import Fuse, drawn_fuses, fuses_of
from tabside.analysis.current.limits_of_leads import CONTACT, WIRE, LeadLimits, Limit
from tabside.analysis.current.part_ratings import rating_words, unread_rating
from tabside.analysis.joined.lead_amps import SHARED
from tabside.analysis.judgement import Judgement
from tabside.analysis.places import at_contacts
from tabside.model.craft import Lead, Termination
from tabside.model.findings import Finding, Severity
from tabside.rules.rule import check
from tabside.words.contacts import listed

_SLACK = 1 + 1e-9
_TRADE_SPREAD = 2.0  # common practice, no source


@check("fuse-size", severity=Severity.ERROR)
def fuse_size(judgement: Judgement) -> Iterator[Finding]:
    """A fuse opens before the thinnest wire behind it glows, and not at the load that it feeds.

    A 200 A fuse before 14 AWG is no fuse: the wire burns first.  A fuse below the load opens in flight.

    Example: a 60 A fuse in front of 22 AWG wire; a 1 A fuse in front of a motor driver of 20 A.

    Fix: take a fuse between the load and what the weakest wire or contact behind it carries; or a thicker wire.
    Accept: a slow fuse for a short peak, with the peak and its length.
    Passes: 15 A before wire for 22 A and a load of 10 A; a fuse whose current, or whose wires, nobody states.
    Fails: a fuse above what a standard's table lets the wire behind it carry: the chosen one, or all of them.
    Warns: the same by figures of the trade, or of a contact behind it whose maker rates it; a fuse below the load, or
    of fewer volts than the battery; a Rating that says neither amperes nor volts, as "30".
    Source: boats: nothing fused above the wire's rating (common practice, no source); the limits are those of
    over-current-wire and over-current-contact.
    """
    limits: LeadLimits | None = None
    for part in drawn_fuses(judgement.craft):
        if unread_rating(part.fields, part.value):
            yield _unread(judgement, part)
    for fuse in fuses_of(judgement):
        limits = limits or LeadLimits(judgement)
        weakest = _weakest(limits, fuse)
        if weakest is not None and fuse.amps > weakest[1].amps * _SLACK:
            yield _too_large(judgement, fuse, *weakest)
        if fuse.load_a is not None and fuse.load_a > fuse.amps * _SLACK:
            yield _too_small(judgement, fuse)
        reach = _reach_v(judgement, fuse)
        if fuse.rating.volts is not None and reach is not None and fuse.rating.volts < reach - 1e-9:
            yield _too_few_volts(judgement, fuse, fuse.rating.volts, reach)


def _unread(judgement: Judgement, part: Termination) -> Finding:
    by_value = rating_words({}, part.value)
    counts = f"its Value counts, {by_value}" if by_value else "nothing is held against it"
    said = f'"{unread_rating(part.fields, part.value)}"'
    return Finding(
        rule="fuse-size",
        severity=Severity.WARNING,
        message=f"Rating of {part.reference}: {said} says neither amperes nor volts; {counts}.",
        fix="Write it with its units: 30A, or 30A 58V.",
        where=at_contacts(judgement.craft, part.contacts),
        harm=harm.NO_FUSE,
    )


def _weakest(limits: LeadLimits, fuse: Fuse) -> tuple[list[Lead], Limit] | None:
    """The lead (or leads side by side, each counted at 80 %) behind a fuse that carries least."""
    found: list[tuple[list[Lead], Limit]] = []
    by_link = sorted(fuse.behind, key=lambda lead: lead.link)
    for _, group in groupby(by_link, key=lambda lead: lead.link):
        leads = list(group)
        for rule in (WIRE, CONTACT):
            lowest = [
                min((x for x in limits.of(lead) if x.rule == rule and _counts(fuse, x)), key=_amps, default=None)
                for lead in leads
            ]
            known = [limit for limit in lowest if limit is not None]
            if len(known) == len(leads):
                least = min(known, key=_amps)
                whole = least.amps if len(leads) == 1 else sum(limit.amps for limit in known) * SHARED
                found.append((leads, replace(least, amps=whole, surely_a=_together(known))))
    # A wire that is surely too thin is told before a contact that may be.
    return min(found, key=lambda entry: (not _is_error(fuse, entry[1]), entry[1].amps, entry[1].rule), default=None)


def _counts(fuse: Fuse, limit: Limit) -> bool:
    """Contacts count by their maker's rating; figures of the trade for power plugs lie as far as two to one apart."""
    return limit.rule == WIRE or limit.hard or fuse.amps > _TRADE_SPREAD * limit.amps


def _is_error(fuse: Fuse, limit: Limit) -> bool:
    return limit.rule == WIRE and fuse.amps > limit.amps * _SLACK and limit.is_error(fuse.amps)


def _together(limits: list[Limit]) -> float | None:
    sure = [limit.surely_a for limit in limits if limit.surely_a is not None]
    return sum(sure) if len(sure) == len(limits) else None


def _amps(limit: Limit) -> float:
    return limit.amps


def _too_large(judgement: Judgement, fuse: Fuse, leads: list[Lead], limit: Limit) -> Finding:
    craft = judgement.craft
    what = listed([lead.mark for lead in leads])
    return Finding(
        rule="fuse-size",
        severity=Severity.ERROR if _is_error(fuse, limit) else Severity.WARNING,
        message=f"{fuse.words} does not protect {what}: {limit.words}.",
        fix=f"Take a fuse of at most {limit.amps:.3g} A and above the load, or a thicker wire and contact for {what}.",
        where=at_contacts(craft, [*fuse.contacts, *(craft.contact(key) for lead in leads for key in lead.ends)]),
        link=leads[0].link,
        harm=harm.HEAT,
    )


def _reach_v(judgement: Judgement, fuse: Fuse) -> float | None:
    """What the pack that feeds it reaches."""
    found = [volts.high for contact in fuse.contacts if (volts := judgement.packs.reach_of(contact)) is not None]
    if not found and any(contact.role.battery for contact in fuse.contacts) and judgement.pack is not None:
        return judgement.pack.high
    return max(found, default=None)


def _too_few_volts(judgement: Judgement, fuse: Fuse, volts: float, reach: float) -> Finding:
    return Finding(
        rule="fuse-size",
        severity=Severity.WARNING,
        message=f"{fuse.words} is made for {volts:g} V, and the battery reaches {reach:g} V: it may not break the arc.",
        fix=f"Take a fuse for {reach:g} V or more.",
        where=at_contacts(judgement.craft, fuse.contacts),
        harm=harm.HEAT,
    )


def _too_small(judgement: Judgement, fuse: Fuse) -> Finding:
    return Finding(
        rule="fuse-size",
        severity=Severity.WARNING,
        message=f"{fuse.words} opens under load: {fuse.load_a:.3g} A flow over it.",
        fix="Take a fuse above the load, and wire behind it that carries more than that; or correct Takes or Rating.",
        where=at_contacts(judgement.craft, fuse.contacts),
        harm=harm.TOO_WEAK,
    )
