"""Two boards that feed, or drive, the same net."""

from __future__ import annotations

from collections.abc import Iterator

from tabside.analysis import harm
from tabside.analysis.causes.tied_outputs import Tie, tied_outputs
from tabside.analysis.clash_groups import groups_of, told_pairs
from tabside.analysis.clash_words import clash_finding
from tabside.analysis.judgement import Judgement
from tabside.analysis.meeting.outcome import Cause
from tabside.analysis.meeting.packs import PackLeads
from tabside.analysis.places import at_contacts
from tabside.analysis.supplies import Feeds, feeds_of
from tabside.model.craft import Contact
from tabside.model.findings import Finding, Severity
from tabside.model.roles import Volts
from tabside.rules.rule import check
from tabside.words.contacts import listed, name_of


@check("two-sources", severity=Severity.ERROR)
def two_sources(judgement: Judgement) -> Iterator[Finding]:
    """One source for each net: two regulators feed each other, two outputs fight.

    A regulator that is fed backwards may burn, or go on feeding a board whose supply was pulled; two outputs against
    each other are a short whenever they differ.  Example: a 5 V regulator on one plug of a board, and another on its
    second plug: the board connects them inside.

    Fix: leave one unconnected, give each a series (OR-ing) diode, or state Either where a supply may be an input.
    Accept: where the board itself chooses between its inputs, and its manual says so.
    Passes: two boards with a diode between, or with `Either`; a board that passes on what it takes from the net;
    several outputs of one board; open-drain outputs; telemetry of several ESCs on one input; a charger on its pack.
    Fails: two boards that state `Gives` (or have power-output pins) on one net, through splices, or on one rail of a
    board; two outputs on one signal; two motor outputs or two chip selects tied; packs of different volts in parallel.
    Warns: packs of equal volts in parallel: they must be within 0.1 V of each other before they are connected.
    Source: makers' and autopilot wikis on feeding one rail from two regulators (table of pairs of functions); 0.1 V is
    common practice, no source.
    """
    for feeds in feeds_of(judgement):
        if not _is_told(judgement, feeds):
            yield _two_supplies(judgement, feeds)
    for pair in judgement.packs.parallel():
        yield _parallel(judgement, *pair)
    for tie in tied_outputs(judgement):
        yield _tied(judgement, tie)
    for group in groups_of(judgement, told_pairs(judgement)):
        if group.worst.cause is Cause.BOTH_DRIVE:
            yield clash_finding(judgement.craft, group, "two-sources")


def _is_told(judgement: Judgement, feeds: Feeds) -> bool:
    first, second = feeds.sources[:2]
    return judgement.agree(first, second).clashes


def _two_supplies(judgement: Judgement, feeds: Feeds) -> Finding:
    craft = judgement.craft
    names = [name_of(craft, contact) for contact in feeds.sources]
    nets = list(dict.fromkeys(contact.net for contact in feeds.sources))
    what = f"the net {nets[0]}" if len(nets) == 1 else f"one rail ({listed(list(feeds.through) or nets)})"
    return Finding(
        rule="two-sources",
        severity=Severity.ERROR,
        message=f"{listed(names)} all feed {what}."
        if len(names) > 2
        else f"{names[0]} and {names[1]} both feed {what}: two regulators back-feed each other.",
        fix="Leave one of them unconnected, add a series (OR-ing) diode to each, or state Either where a supply may be"
        " an input.",
        where=at_contacts(craft, feeds.sources),
        harm=harm.TWO_REGULATORS,
    )


def _as_high(a: Volts, b: Volts) -> bool:
    """Whoever says how sure the volts are."""
    return (a.low, a.high) == (b.low, b.high)


def _parallel(judgement: Judgement, a: PackLeads, b: PackLeads) -> Finding:
    """Two packs beside each other: the fuller one charges the other with all that the wires let through."""
    from tabside.words.cautions import PACKS_WITHIN

    craft = judgement.craft
    differ = a.volts is not None and b.volts is not None and not _as_high(a.volts, b.volts)
    names = f"{name_of(craft, a.plus)} and {name_of(craft, b.plus)}"
    return Finding(
        rule="two-sources",
        severity=Severity.ERROR if differ else Severity.WARNING,
        message=f"{names} are packs of different volts ({a.volts} and {b.volts}) in parallel: one charges the other"
        " with all that the wires let through."
        if differ
        else f"{names} are packs in parallel: unless they are equal within {PACKS_WITHIN}, one charges the other too"
        " fast.",
        fix="Never connect them in parallel: give each a circuit of its own, or use packs of the same kind and cells."
        if differ
        else f"Measure both packs first: they must be equal within {PACKS_WITHIN} before they are connected. Then"
        " accept this.",
        where=at_contacts(craft, [a.plus, b.plus]),
        harm=harm.PACK_ON_RAIL if differ else harm.TWO_REGULATORS,
    )


def _tied(judgement: Judgement, tie: Tie) -> Finding:
    craft = judgement.craft
    contacts: list[Contact] = list(tie.contacts)
    return Finding(
        rule="two-sources",
        severity=Severity.ERROR,
        message=f"{listed([name_of(craft, contact) for contact in contacts])} are tied together: {tie.why}.",
        fix=tie.fix,
        where=at_contacts(craft, contacts),
        harm=harm.TWO_OUTPUTS,
    )
