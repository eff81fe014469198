"""Leads that join what must not meet, told one by one: no single slip of the pencil explains them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import groupby

from tabside.analysis import harm
from tabside.analysis.clash_groups import groups_of, told_pairs
from tabside.analysis.clash_words import clash_finding, rule_of
from tabside.analysis.joined.joints import Joint
from tabside.analysis.judgement import Judgement
from tabside.analysis.judging.power_carried import carries_power
from tabside.analysis.meeting.outcome import Agreement, Cause, Outcome
from tabside.analysis.places import at_contacts
from tabside.model.craft import Contact
from tabside.model.findings import Finding, Severity
from tabside.rules.rule import check
from tabside.words.contacts import link_name


@check("role-clash", "over-voltage", "under-voltage", severity=Severity.ERROR)
def role_clash(judgement: Judgement) -> Iterator[Finding]:
    """A wire connects ground, supply and signal only to their like, and supplies of the same volts.

    One finding for each contact that does not belong on its net, however many wires meet it there.

    A supply on ground is a short, on a signal it burns the input; two different lines on one wire are dead.
    Example: GND of one board on TX of the other; 12 V on a contact 5V.

    Fix: look up both pinouts, and move the wire or correct the name.
    Accept: names that mislead, with what the manual says.
    Passes: 5V on 5V, 5V on VIN, TX on RX, a 7-26V camera on a 4S pack.
    Fails: GND on TX, 5V on 3V3, VBAT on 5V, SDA on SCL.
    Warns: M1 on M2; a name with several readings of which none would do; a pack whose full volts, known from memory
    only, are above what an input takes.
    Source: logic; the 10 % between two rails is common practice, no source.
    """
    craft = judgement.craft
    for group in groups_of(judgement, told_pairs(judgement)):
        rule = rule_of(group.worst)
        if rule in ("role-clash", "over-voltage", "under-voltage"):
            yield clash_finding(craft, group, rule)
    yield from _doubtful(judgement)


_OPEN = (Cause.TEXT, Cause.UNCLEAR)  # what stands at an end is not known: a wire of power leaves the verdict open


def _doubtful(judgement: Judgement) -> Iterator[Finding]:
    """Warnings, one per link and kind: motors of other numbers, unclear names, resistors between."""
    told = {joint for cause in judgement.explained.values() for joint in cause.doubts}
    warned = [
        (joint, found)
        for joint, found in judgement.outcomes.items()
        if found.outcome is Outcome.WARN and joint not in told
    ]
    for (link, cause), warnings in groupby(sorted(warned, key=_link_and_cause), key=_link_and_cause):
        yield _doubt(judgement, link, Cause(cause), list(warnings))


def _link_and_cause(warned: tuple[Joint, Agreement]) -> tuple[tuple[str, str], str]:
    return warned[0].link, warned[1].cause.value


def _doubt(judgement: Judgement, link: tuple[str, str], cause: Cause, warned: list[tuple[Joint, Agreement]]) -> Finding:
    craft = judgement.craft
    pairs = [f"{joint.a.number} to {joint.b.number}: {found.reason}" for joint, found in warned]
    what = {
        Cause.MOTOR: "connects motors of different number",
        Cause.UNCLEAR: "has names that can be read in several ways, and none of the readings agrees",
        Cause.TEXT: "looks crossed by the names at its ends",
        Cause.UNUSED: "goes to contacts that are not connected",
        Cause.OVER: "may bring more volts than an input stands",
    }.get(cause, "connects what does not usually meet")
    fix = {
        Cause.MOTOR: "Tell the firmware the order of the motors, or swap the wires.",
        Cause.UNCLEAR: "Write the function of these contacts in the field Signals as the maker's pinout gives it.",
        Cause.TEXT: "Compare both pinouts with the drawing, and connect what has one name; accept it if it is meant.",
        Cause.UNUSED: "Connect the contact that was meant, or leave the wire out.",
        Cause.OVER: "Look up what the pack reaches when it is full, and state it (volts in the craft file).",
    }.get(cause, "Look at the boards' pinouts, and accept this in the craft file when it is meant.")
    return Finding(
        rule="over-voltage" if cause is Cause.OVER else "role-clash",
        severity=Severity.WARNING,
        message=f"{link_name(craft, link)} {what}: {'; '.join(pairs)}.",
        fix=fix,
        where=at_contacts(craft, _contacts(joint for joint, _ in warned)),
        link=link,
        harm=max((found.harm for _, found in warned), default=harm.NOTHING),
        undecided=sum(carries_power(judgement, joint) for joint, _ in warned) if cause in _OPEN else 0,
    )


def _contacts(joints: Iterable[Joint]) -> list[Contact]:
    return [contact for joint in joints for contact in (joint.a, joint.b)]
