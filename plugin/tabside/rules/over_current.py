"""Contacts and wires that carry more than they are made for."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING, NamedTuple

from tabside.analysis import harm
from tabside.analysis.current.circuits import Circuits, Ends
from tabside.analysis.current.flow import Amps, Flow
from tabside.analysis.current.lead_amps import mated_families, own_gauge, shares
from tabside.analysis.judgement import Judgement
from tabside.analysis.places import at_contacts
from tabside.model.craft import Contact, Craft, Lead, Limits
from tabside.model.findings import Finding, Severity
from tabside.rules.rule import check
from tabside.words.contacts import counted, link_name, listed

if TYPE_CHECKING:
    from tabside.facts.ampacity import Ampacity
    from tabside.facts.sources import Source

_SLACK = 1 + 1e-9


class Carrying(NamedTuple):
    """A lead with the current that is counted for it."""

    lead: Lead
    amps: float
    whole: Amps  # of its bundle
    beside: int  # leads of the bundle

    @property
    def words(self) -> str:
        least = "" if self.whole.whole else "at least "
        if self.beside == 1:
            return f"{least}{self.amps:.3g} A"
        shared = f"{self.whole.most:.3g} A shared by {self.beside} leads, each counted at 80 %"
        return f"{least}{self.amps:.3g} A each ({shared})"


@check("over-current-contact", "over-current-wire", severity=Severity.ERROR)
def over_current(judgement: Judgement) -> Iterator[Finding]:
    """A lead carries what is taken beyond it: its contacts and its conductor must stand that.

    Passes: 1 A over a contact for 1 A; 1.5 A over two such contacts; leads whose load is not stated.
    Fails: 1.2 A over it; 1.7 A over two; 5 A over 28 AWG by a standard's table.
    Warns: figures from the trade, from memory, or of common practice.
    Notes: loops, whose current this does not decide.
    Source: the table of connectors (makers' ratings); the chosen table of currents, named in each finding; 80 %
    sharing of parallel contacts is common practice, no source.
    """
    flows = judgement.flows
    if not flows.any_stated:
        return
    carrying = [
        each
        for circuits, found in ((flows.supplies, flows.in_supplies), (flows.grounds, flows.in_grounds))
        for each in _carrying(judgement.craft, circuits, found)
    ]
    yield from _over_contact(judgement.craft, carrying)
    yield from _over_wire(judgement.craft, carrying)
    unequal = [lead for circuits in (flows.supplies, flows.grounds) for lead in _unequal(judgement.craft, circuits)]
    loops = list(dict.fromkeys([*flows.undecided(flows.supplies), *flows.undecided(flows.grounds), *unequal]))
    if loops:
        yield _not_determined(judgement.craft, loops)


def _carrying(craft: Craft, circuits: Circuits, found: dict[Ends, Flow]) -> Iterator[Carrying]:
    """Each lead whose current is determined."""
    for circuit in circuits.circuits:
        for ends, leads in circuit.bundles.items():
            flow = found.get(ends)
            parts = shares(craft, leads) if flow is not None else None
            if flow is not None and parts is not None and flow.amps.most > 0:
                for lead, part in zip(leads, parts, strict=True):
                    yield Carrying(lead, part * flow.amps.most, flow.amps, len(leads))


def _unequal(craft: Craft, circuits: Circuits) -> Iterator[Lead]:
    """Leads of several links side by side, of which nobody can tell how they share."""
    for circuit in circuits.circuits:
        for leads in circuit.bundles.values():
            if not circuit.clashes and shares(craft, leads) is None:
                yield from leads


def _over_contact(craft: Craft, carrying: Sequence[Carrying]) -> Iterator[Finding]:
    """One finding for each link and family."""
    from tabside.facts.families import family

    told: dict[tuple[tuple[str, str], str], list[Carrying]] = {}
    for each in carrying:
        for family_id in dict.fromkeys(mated_families(craft, each.lead)):
            rating = family(family_id).rating_a if family_id else None
            if rating is not None and each.amps > rating * _SLACK:
                told.setdefault((each.lead.link, family_id), []).append(each)
    for (link, family_id), over in told.items():
        known = family(family_id)
        hard = known.rating_source.is_hard_for("rating") and known.rating_source.is_hard_for("current")
        at = f" at AWG {known.at_awg_text}" if known.at_awg_text else ""
        yield Finding(
            rule="over-current-contact",
            severity=Severity.ERROR if hard else Severity.WARNING,
            message=f"{_which(craft, over)}; a contact of {known.title} is rated {known.rating_a:g} A{at}"
            f" ({_source_words(known.rating_source, 'rating')}).",
            fix="Spread the current over more contacts, choose a family that carries it, or feed the load another way.",
            where=at_contacts(craft, _contacts(craft, over)),
            link=link,
            harm=harm.HEAT,
        )


def _over_wire(craft: Craft, carrying: Sequence[Carrying]) -> Iterator[Finding]:
    """One finding for each link and gauge."""
    told: dict[tuple[tuple[str, str], int], list[Carrying]] = {}
    for each in carrying:
        gauge = own_gauge(craft, each.lead)
        if gauge is not None and each.amps > wire_limit(craft.settings.limits, gauge)[0] * _SLACK:
            told.setdefault((each.lead.link, gauge), []).append(each)
    for (link, gauge), over in told.items():
        _, row = wire_limit(craft.settings.limits, gauge)
        yield Finding(
            rule="over-current-wire",
            severity=Severity.ERROR if row.source.is_hard_for("") else Severity.WARNING,
            message=f"{_which(craft, over)}; wire of {gauge} AWG may carry {wire_words(craft.settings.limits, gauge)}.",
            fix="Use a thicker gauge or more leads; the table is chosen in the craft file (wire.ampacity).",
            where=at_contacts(craft, _contacts(craft, over)),
            link=link,
            harm=harm.HEAT,
        )


def wire_limit(limits: Limits, gauge_awg: int) -> tuple[float, Ampacity]:
    """The most that a wire may carry by the chosen table and the builder's own factor."""
    from tabside.facts.ampacity import ampacity

    row = ampacity(limits.ampacity, gauge_awg)
    return row.amps * limits.ampacity_factor, row


def wire_words(limits: Limits, gauge_awg: int) -> str:
    """The limit of a wire with its table, condition and source."""
    most, row = wire_limit(limits, gauge_awg)
    less = "less than " if row.below else ""
    of = "" if row.at_awg == gauge_awg else f", the figure of {row.at_awg} AWG"
    own = "" if limits.ampacity_factor == 1 else f", times {limits.ampacity_factor:g} by the craft file"
    return (
        f"{less}{most:.3g} A{of} (table {row.table.id}: {row.table.conditions}{own}; {_source_words(row.source, '')})"
    )


def _source_words(source: Source, about: str) -> str:
    return source.grade_for(about).words


def _which(craft: Craft, over: Sequence[Carrying]) -> str:
    """ "pilot/J1 - lamp/J2: W1 (5V) and W2 (GND) carry 1.2 A"."""
    worst = max(over, key=lambda each: each.amps)
    names = [f"{each.lead.mark} ({_label(craft, each.lead)})" for each in over]
    verb = "carries" if len(over) == 1 else "carry"
    upto = "" if len({round(each.amps, 6) for each in over}) == 1 else "up to "
    return f"{link_name(craft, over[0].lead.link)}: {listed(names)} {verb} {upto}{worst.words}"


def _label(craft: Craft, lead: Lead) -> str:
    return next((label for key in lead.ends if (label := craft.contact(key).label)), lead.net)


def _contacts(craft: Craft, over: Sequence[Carrying]) -> list[Contact]:
    return [craft.contact(key) for each in over for key in each.lead.ends]


def _not_determined(craft: Craft, loops: Sequence[Lead]) -> Finding:
    links = [link_name(craft, link) for link in dict.fromkeys(lead.link for lead in loops)]
    return Finding(
        rule="over-current-wire",
        severity=Severity.NOTE,
        message=f"The current in {counted(len(loops), 'supply or ground lead')} is not determined: several ways lead"
        f" to the same place, or it is not told which board feeds it ({listed(links, 4)}).",
        fix="Size these leads for all of the current that could run there.",
        where=at_contacts(craft, [craft.contact(key) for lead in loops[:6] for key in lead.ends]),
    )
