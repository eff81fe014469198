"""UART lines joined to their like: TX on TX, RX on RX, RTS on RTS, CTS on CTS."""

from __future__ import annotations

from collections.abc import Iterator

from tabside.analysis.clash_groups import Group, groups_of, told_pairs
from tabside.analysis.judgement import Judgement
from tabside.analysis.meeting.outcome import Agreement, Cause
from tabside.analysis.places import at_contacts
from tabside.model.craft import Contact, Craft
from tabside.model.findings import Finding, Severity
from tabside.rules.rule import check
from tabside.words.contacts import link_name, listed, name_of

_FIX = (
    "Swap the two wires at one end, so that TX meets RX and RTS meets CTS. Some boards label a port with the other"
    " board's names: if yours does, enter the real functions in Signals."
)


@check("uart-not-crossed", severity=Severity.ERROR)
def uart_not_crossed(judgement: Judgement) -> Iterator[Finding]:
    """A net of a UART has one driver and any number of listeners.

    Two outputs work against each other, and two inputs wait for each other: no byte gets through.  Example: TX on
    TX and RX on RX between autopilot and radio.

    Fix: swap the two wires at one end; if a board labels a port with the other board's names, enter the real
    functions in Signals.
    Accept: boards that print the other side's names.
    Passes: TX to RX; TX to two RX; half-duplex lines and shared telemetry, which are no UART lines.
    Fails: TX on TX, RX on RX with no TX on the net, RTS on RTS, CTS on CTS; TX+ on TX+ where the drawing says RS-422.
    Source: the table of pairs of functions (makers' troubleshooting page for TX and RX; common practice for RTS and
    CTS).
    """
    craft = judgement.craft
    told = [pair for pair in told_pairs(judgement) if pair[2].cause is Cause.CROSSING]
    groups = list(groups_of(judgement, told))
    for link, joints in judgement.not_crossed.items():
        pairs = [(joint.a, joint.b, judgement.clashing[joint]) for joint in joints]
        pairs += [pair for group in groups if group.link == link for pair in _pairs(group)]
        yield _finding(craft, f"{link_name(craft, link)}: UART not crossed", pairs, link)
    for group in groups:
        if group.link not in judgement.not_crossed:
            yield _finding(craft, f"Net {group.odd.net}: UART not crossed", _pairs(group), group.link)


def _pairs(group: Group) -> list[tuple[Contact, Contact, Agreement]]:
    return [(group.odd, other, group.worst) for other in group.others]


def _finding(
    craft: Craft, what: str, pairs: list[tuple[Contact, Contact, Agreement]], link: tuple[str, str] | None
) -> Finding:
    told = [f"{name_of(craft, a)} meets {name_of(craft, b)} ({found.reason})" for a, b, found in pairs]
    return Finding(
        rule="uart-not-crossed",
        severity=Severity.ERROR,
        message=f"{what}: {listed(told)}.",
        fix=_FIX,
        where=at_contacts(craft, [contact for a, b, _ in pairs for contact in (a, b)]),
        link=link,
        harm=max(found.harm for _, _, found in pairs),
    )
