"""Leads that join what must not meet, told one by one: no single slip of the pencil explains them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import groupby

from tabside.analysis import harm
from tabside.analysis.causes.clash_groups import Group, groups_of, told_pairs
from tabside.analysis.joints import Joint
from tabside.analysis.judgement import Judgement
from tabside.analysis.meeting.outcome import Agreement, Cause, Outcome
from tabside.analysis.places import at_contacts
from tabside.model.craft import Contact, Craft
from tabside.model.findings import Finding, Severity
from tabside.rules.rule import check
from tabside.words.contacts import counted, link_name, listed, name_of, termination_name

RULE_OF = {
    Cause.OVER: "over-voltage",
    Cause.UNDER: "under-voltage",
    Cause.CROSSING: "uart-not-crossed",
    Cause.BOTH_DRIVE: "two-sources",
}


def rule_of(found: Agreement) -> str:
    return RULE_OF.get(found.cause, "role-clash")


@check("role-clash", "over-voltage", "under-voltage", severity=Severity.ERROR)
def role_clash(judgement: Judgement) -> Iterator[Finding]:
    """A lead joins ground, supply and signal only to their like, and supplies of the same volts.

    One finding for each contact that does not belong on its net, however many leads meet it there.

    Passes: 5V on 5V, 5V on VIN, TX on RX, a 7-26V camera on a 4S pack.
    Fails: GND on TX, 5V on 3V3, VBAT on 5V, SDA on SCL.
    Warns: M1 on M2; a name with several readings of which none would do.
    Source: logic; the 10 % between two rails is common practice, no source.
    """
    craft = judgement.craft
    for group in groups_of(judgement, told_pairs(judgement)):
        rule = rule_of(group.worst)
        if rule in ("role-clash", "over-voltage", "under-voltage"):
            yield clash_finding(craft, group, rule)
    yield from _doubtful(judgement)


def clash_finding(craft: Craft, group: Group, rule: str) -> Finding:
    odd, others = group.odd, group.others
    meets = listed([name_of(craft, other) for other in others], 3)
    hidden = "" if group.direct else f" It is no lead of its own that joins them, but the net {odd.net}."
    return Finding(
        rule=rule,
        severity=Severity.ERROR,
        message=f"{name_of(craft, odd)} meets {meets}: {group.worst.reason}.{hidden}",
        fix=_fix(craft, group, rule),
        where=at_contacts(craft, (odd, *others)),
        link=group.link,
        harm=group.worst.harm,
    )


def _fix(craft: Craft, group: Group, rule: str) -> str:
    net = group.odd.net
    if rule == "over-voltage":
        return (
            f"Feed {name_of(craft, group.odd)} from a rail that it takes, or correct what the drawing says of its volts"
            " (Signals, Gives, Takes). Do not power it like this."
        )
    if rule == "under-voltage":
        return f"Feed {name_of(craft, group.odd)} from a rail that reaches its volts, or correct Gives and Takes."
    board = termination_name(craft, group.odd.termination)
    return (
        f"Look up the pinout of {board} and of its counterpart, and take {name_of(craft, group.odd)} off the net"
        f" {net}, or correct its name."
    )


def _doubtful(judgement: Judgement) -> Iterator[Finding]:
    """Warnings, one per link and kind: motors of other numbers, unclear names, resistors between."""
    told = {joint for each in judgement.explained.values() for joint in each.doubts}
    warned = [
        (joint, found)
        for joint, found in judgement.outcomes.items()
        if found.outcome is Outcome.WARN and joint not in told
    ]
    for (link, cause), each in groupby(sorted(warned, key=_link_and_cause), key=_link_and_cause):
        yield _doubt(judgement.craft, link, Cause(cause), list(each))


def _link_and_cause(warned: tuple[Joint, Agreement]) -> tuple[tuple[str, str], str]:
    return warned[0].link, warned[1].cause.value


def _doubt(craft: Craft, link: tuple[str, str], cause: Cause, warned: list[tuple[Joint, Agreement]]) -> Finding:
    pairs = [f"{joint.a.number} to {joint.b.number}: {found.reason}" for joint, found in warned]
    what = {
        Cause.MOTOR: "joins motors of different number",
        Cause.UNCLEAR: "has names that can be read in several ways, and none of the readings agrees",
    }.get(cause, "joins what does not usually meet")
    fix = {
        Cause.MOTOR: "Tell the firmware the order of the motors, or exchange the leads.",
        Cause.UNCLEAR: "Write the role of these contacts in the field Signals as the maker's pinout gives it.",
    }.get(cause, "Look at the boards' pinouts, and accept this in the craft file when it is meant.")
    return Finding(
        rule="role-clash",
        severity=Severity.WARNING,
        message=f"{link_name(craft, link)} {what}: {'; '.join(pairs)}.",
        fix=fix,
        where=at_contacts(craft, _contacts(joint for joint, _ in warned)),
        link=link,
        harm=max((found.harm for _, found in warned), default=harm.NOTHING),
    )


def _contacts(joints: Iterable[Joint]) -> list[Contact]:
    return [contact for joint in joints for contact in (joint.a, joint.b)]


def folded_clash(craft: Craft, joint: Joint, found: Agreement) -> Finding:
    """One clash as it stands inside the finding that explains it."""
    marks = listed(list(joint.leads))
    return Finding(
        rule=rule_of(found),
        severity=Severity.ERROR,
        message=f"{marks} joins {name_of(craft, joint.a)} to {name_of(craft, joint.b)}: {found.reason}.",
        fix=f"See the finding that explains it ({counted(len(joint.leads), 'lead')}).",
        where=at_contacts(craft, (joint.a, joint.b)),
        link=joint.link,
        harm=found.harm,
    )
