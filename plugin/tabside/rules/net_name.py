"""A rail's name on a net against the contacts that the net joins."""

from __future__ import annotations

from collections.abc import Iterator

from tabside.analysis.causes.name_clashes import NameClash
from tabside.analysis.judgement import Judgement
from tabside.analysis.meeting.outcome import Cause
from tabside.analysis.places import at_contact
from tabside.model.findings import Finding, Severity, Where
from tabside.rules.rule import check
from tabside.words.contacts import name_of

_RULES = {Cause.OVER: "over-voltage", Cause.UNDER: "under-voltage"}


@check("role-clash", "over-voltage", "under-voltage", severity=Severity.ERROR)
def net_name(judgement: Judgement) -> Iterator[Finding]:
    """What the drawing writes on the wire is what the contacts on it are made for.

    A power symbol or a label that names a rail says what will be on this net when the craft is powered.  A contact of
    another rail there is burnt, or not fed.  Example: the symbol +12V on the net that connects VOUT to a contact 5V.

    Fix: take the contact off the net, or correct the name.
    Accept: a name that is a leftover and that nobody reads.
    Passes: +5V on VCC, which says no volts; +5V on a contact 3V3 whose Takes admits 5 V; SERVO3 on SIG; BAT+ of a 12 V
    battery on a lamp's 12V.
    Fails: +12V on a contact 5V; +5V and +12V on one net; a label 3V3 on a contact 5V; +9V on RX.
    Source: logic; the 10 % between two rails is common practice, no source.
    """
    for clash in judgement.name_clashes:
        yield _finding(judgement, clash)


def _finding(judgement: Judgement, clash: NameClash) -> Finding:
    craft = judgement.craft
    net = craft.rule_nets.get(clash.net_id, clash.name)
    if clash.against is None:
        message = f'The net {net} is named "{clash.name}" and "{clash.other}": {clash.found.reason}.'
        fix = "Keep one of the two names, and give the other rail a net of its own."
        where: tuple[Where, ...] = (Where(net=net),)
    else:
        who = name_of(craft, clash.against)
        message = f'{who} is on a net named "{clash.name}": {clash.found.reason}.'
        fix = f'Take {who} off this net, or correct the name "{clash.name}", its name or its Takes.'
        where = (at_contact(craft, clash.against),)
    return Finding(
        rule=_RULES.get(clash.found.cause, "role-clash"),
        severity=Severity.ERROR,
        message=message,
        fix=fix,
        where=where,
        harm=clash.found.harm,
    )
