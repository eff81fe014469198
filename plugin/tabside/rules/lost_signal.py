"""Ends whose signals all hang in the air, while the rest of the end is joined."""

from __future__ import annotations

from collections.abc import Iterator

from tabside.analysis import harm
from tabside.analysis.judgement import Judgement
from tabside.analysis.meeting.signal_agreement import ANY
from tabside.analysis.places import at_contacts
from tabside.model.craft import Contact, Termination
from tabside.model.findings import Finding, Severity
from tabside.model.roles import RoleClass
from tabside.rules.rule import check
from tabside.words.contacts import name_of


@check("not-connected", severity=Severity.WARNING)
def lost_signal(judgement: Judgement) -> Iterator[Finding]:
    """An end that is powered and whose one signal is open was to be connected to the one open contact that suits it.

    Without that wire the two ends have no connection of their own, and nothing else would tell of it.

    A part that is powered and whose only signal goes nowhere does nothing.  Example: a camera with 5 V and ground
    connected and its video open, beside the one open video input.

    Fix: connect the two, or put a no-connect flag on both.
    Accept: a part that is used without its signal.
    Passes: ends with a signal connected; contacts under a no-connect flag; signals that several open contacts suit.
    Warns: a camera with ground and supply connected and its video open, beside an open video input of another board;
    a light strip's DIN beside the one open LED contact.
    Source: common practice, no source.
    """
    told: set[tuple[str, str]] = set()
    loose = [contact for end in judgement.ends for contact in _only_open_signal(judgement, end)]
    open_signals = [contact for end in judgement.ends for contact in end.contacts if _is_open(judgement, contact)]
    for contact in loose:
        match = _only_match(judgement, contact, open_signals)
        if match is not None and not {contact.key, match.key} & told:
            told |= {contact.key, match.key}
            yield _finding(judgement, contact, match)


def _only_open_signal(judgement: Judgement, end: Termination) -> list[Contact]:
    """The end's signal, when it has one, open, and anything else of the end is joined."""
    signals = [contact for contact in end.contacts if contact.role.cls is RoleClass.SIGNAL]
    joined = any(contact.key in judgement.joined for contact in end.contacts)
    return signals if joined and len(signals) == 1 and _is_open(judgement, signals[0], few_readings=True) else []


def _is_open(judgement: Judgement, contact: Contact, *, few_readings: bool = False) -> bool:
    """An open signal of a known group; with `few_readings` also one of a few groups (DIN of a light strip)."""
    return (
        contact.role.cls is RoleClass.SIGNAL
        and (contact.role.group != ANY or (few_readings and bool(contact.role.readings)))
        and not contact.flagged_empty
        and contact.key not in judgement.joined
    )


def _only_match(judgement: Judgement, contact: Contact, open_signals: list[Contact]) -> Contact | None:
    """The one open signal of another board that agrees; None when there is none, several, or a link tells of it."""
    board = judgement.craft.terminations[contact.termination].board
    suits = [
        other
        for other in open_signals
        if judgement.craft.terminations[other.termination].board != board and judgement.agree(contact, other).agrees
    ]
    if len(suits) != 1:
        return None
    link = {contact.termination, suits[0].termination}
    return None if any(set(joint) == link for joint in judgement.links) else suits[0]


def _finding(judgement: Judgement, a: Contact, b: Contact) -> Finding:
    craft = judgement.craft
    return Finding(
        rule="not-connected",
        severity=Severity.WARNING,
        message=f"{name_of(craft, a)} and {name_of(craft, b)} are open, and nothing else in the craft suits them.",
        fix="Connect them, or put a no-connect flag on both.",
        where=at_contacts(craft, (a, b)),
        harm=harm.DRAWING,
    )
