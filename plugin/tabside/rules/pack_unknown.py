"""Inputs for a range of volts on the battery, when nothing says which battery it is."""

from __future__ import annotations

from collections.abc import Iterator

from tabside.analysis.judgement import Judgement
from tabside.analysis.meeting.outcome import Cause
from tabside.analysis.places import at_contacts
from tabside.model.findings import Finding, Severity
from tabside.rules.rule import check
from tabside.words.contacts import listed, name_of


@check("over-voltage", severity=Severity.NOTE)
def pack_unknown(judgement: Judgement) -> Iterator[Finding]:
    """The pack's volts are known wherever a board states what it takes from it.

    An input for 7 to 26 V is right or wrong by the number of cells, and nothing says it.  Example: a camera of
    7-17V on VBAT, without a battery in the craft file.

    Fix: say it in the craft file, for example battery = "4S".
    Accept: it is a note; the verdict rests on it.
    Passes: a 7-26V camera on a 4S pack; inputs that state no range.
    Notes: the same camera while neither the craft file nor `Gives` of the pack says how many cells: not checked.
    Source: logic.
    """
    contacts = [
        contact
        for joint, found in judgement.outcomes.items()
        if found.cause is Cause.PACK_UNKNOWN
        for contact in (joint.a, joint.b)
        if any(rail.volts is not None for rail in contact.takes)
    ]
    if contacts:
        craft = judgement.craft
        names = listed(list(dict.fromkeys(name_of(craft, contact) for contact in contacts)))
        yield Finding(
            rule="over-voltage",
            severity=Severity.NOTE,
            message=f"Nothing says which battery this is, so these inputs on it are not checked: {names}.",
            fix='Say it in the craft file, for example battery = "4S".',
            where=at_contacts(craft, contacts),
        )
