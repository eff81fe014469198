"""A motor with a phase that no lead meets."""

from __future__ import annotations

import re
from collections.abc import Iterator

from tabside.analysis import harm
from tabside.analysis.joined.joints import phases_of
from tabside.analysis.judgement import Judgement
from tabside.analysis.judging.text_clashes import motor_leads
from tabside.analysis.places import at_contacts
from tabside.model.craft import Contact, Termination
from tabside.model.findings import Finding, Severity
from tabside.model.roles import RoleClass
from tabside.rules.rule import check
from tabside.words.contacts import listed, name_of

PHASES = 3  # of one motor
_COIL_END = re.compile(r"[AB][+-]")  # of a stepper, whose two coils have two ends each
_COIL_ENDS = 4


@check("not-connected", severity=Severity.WARNING)
def phase_open(judgement: Judgement) -> Iterator[Finding]:
    """A motor that has some of its phases connected has all of them connected.

    On two phases a motor does not start, it stutters, and motor and driver get hot.  Example: A and B of a motor on A
    and B of its driver, C open at both ends.

    Fix: connect the third phase.
    Accept: where the third contact is no phase of this motor.
    Passes: three phases in any order; a driver's output that no motor is on; a contact under a no-connect flag beside
    a motor of two leads.
    Warns: one or two of three phases connected, at the motor or at the driver; told once for the two; an end of a
    stepper's coil open while others are connected.
    Source: common practice, no source.
    """
    told: set[str] = set()
    for end in judgement.ends:
        open_ones = list(_open_phases(judgement, end))
        if open_ones and end.reference not in told:
            told |= {end.reference, *_partners(judgement, end)}
            yield _finding(judgement, open_ones)


def _open_phases(judgement: Judgement, end: Termination) -> Iterator[Contact]:
    """Open phases of a motor whose other phases are connected; a driver's contacts are of one motor by their number."""
    motors: dict[int | None, list[Contact]] = {}
    for contact in phases_of(end) or motor_leads(end):
        motor = contact.role.index if contact.role.cls is RoleClass.PHASE else None  # M1, M2, M3: of one motor
        motors.setdefault(motor, []).append(contact)
    for phases in motors.values():
        joined = [contact for contact in phases if contact.key in judgement.joined]
        if len(phases) == PHASES and 0 < len(joined) < PHASES:
            yield from (contact for contact in phases if contact not in joined)
    coils = [contact for contact in end.contacts if _COIL_END.fullmatch(contact.label.strip())]
    open_ends = [contact for contact in coils if contact.key not in judgement.joined and not contact.flagged_empty]
    if len(coils) == _COIL_ENDS and len(open_ends) < len(coils):
        yield from open_ends


def _partners(judgement: Judgement, end: Termination) -> set[str]:
    return {reference for joint in judgement.by_termination.get(end.reference, ()) for reference in joint.link}


def _finding(judgement: Judgement, contacts: list[Contact]) -> Finding:
    craft = judgement.craft
    names = listed([name_of(craft, contact) for contact in contacts])
    verb = "is" if len(contacts) == 1 else "are"
    coils = all(_COIL_END.fullmatch(contact.label.strip()) for contact in contacts)
    what = "coil ends" if coils else "phases"
    return Finding(
        rule="not-connected",
        severity=Severity.WARNING,
        message=f"{names} {verb} not connected while the motor's other {what} are: it does not start, and gets hot.",
        fix="Connect both ends of each coil to one pair of the driver's outputs."
        if coils
        else "Connect all three phases of the motor to the three phases of one driver, in any order.",
        where=at_contacts(craft, contacts),
        harm=harm.HEAT,
    )
