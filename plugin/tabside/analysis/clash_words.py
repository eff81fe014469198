"""A clash in words: which rule tells of it, what meets what, and what to do."""

from __future__ import annotations

from tabside.analysis.clash_groups import Group
from tabside.analysis.joined.joints import Joint
from tabside.analysis.meeting.outcome import Agreement, Cause
from tabside.analysis.places import at_contacts
from tabside.model.craft import Craft
from tabside.model.findings import Finding, Severity
from tabside.words.contacts import counted, listed, name_of, termination_name

RULE_OF = {
    Cause.OVER: "over-voltage",
    Cause.UNDER: "under-voltage",
    Cause.CROSSING: "uart-not-crossed",
    Cause.BOTH_DRIVE: "two-sources",
}


def rule_of(found: Agreement) -> str:
    return RULE_OF.get(found.cause, "role-clash")


def clash_finding(craft: Craft, group: Group, rule: str) -> Finding:
    odd, others = group.odd, group.others
    meets = listed([name_of(craft, other) for other in others], 3)
    hidden = "" if group.direct else f" They are connected not by a wire of their own but through the net {odd.net}."
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
            f"Feed {name_of(craft, group.odd)} from a supply it is rated for, or correct the voltages in the drawing"
            " (Signals, Gives, Takes). Do not apply power as drawn."
        )
    if rule == "under-voltage":
        return f"Feed {name_of(craft, group.odd)} from a supply of enough volts, or correct Gives and Takes."
    board = termination_name(craft, group.odd.termination)
    return (
        f"Look up the pinout of {board} and of the board at the other end, and take {name_of(craft, group.odd)} off"
        f" the net {net}, or correct its name."
    )


def folded_clash(craft: Craft, joint: Joint, found: Agreement) -> Finding:
    """One clash as it stands inside the finding that explains it."""
    marks = listed(list(joint.leads))
    return Finding(
        rule=rule_of(found),
        severity=Severity.ERROR,
        message=f"{marks} connects {name_of(craft, joint.a)} to {name_of(craft, joint.b)}: {found.reason}.",
        fix=f"See the finding that explains it ({counted(len(joint.leads), 'wire')}).",
        where=at_contacts(craft, (joint.a, joint.b)),
        link=joint.link,
        harm=found.harm,
    )
