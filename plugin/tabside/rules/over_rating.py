"""Switches, relays, diodes and the like in a wire, against the current over them."""

from __future__ import annotations

from collections.abc import Iterator

from tabside.analysis import harm
from tabside.analysis.current.fuses import load_over
from tabside.analysis.current.limits_of_leads import CONTACT
from tabside.analysis.current.part_ratings import read_rating
from tabside.analysis.joined.joints import letters_of
from tabside.analysis.judgement import Judgement
from tabside.analysis.places import at_contacts
from tabside.model.craft import Kind, Termination
from tabside.model.findings import Finding, Severity
from tabside.rules.rule import check
from tabside.wiring.terminations.part_kinds import FUSES

_SLACK = 1 + 1e-9


@check(CONTACT, severity=Severity.ERROR)
def over_rating(judgement: Judgement) -> Iterator[Finding]:
    """A part in a wire carries no more than its Rating.

    A switch or relay above its rating welds its contacts shut or burns: the craft can no longer be switched off.
    Example: a toggle switch of 3 A in the lead of a speed controller that takes 20 A.

    Fix: take a part for the current, or let a small switch work a relay that carries it.
    Accept: peaks of a moment, with their length.
    Passes: 5 A over a switch of 10 A; a part that states no amperes; loads that nobody states.
    Fails: 20 A over a switch whose Rating or Value says 3 A.
    Source: what the drawing states of the part; fuses and breakers are looked at by fuse-size.
    """
    if not judgement.flows.any_stated:
        return
    for part in judgement.craft.terminations.values():
        if part.kind is not Kind.INLINE or letters_of(part.reference) in FUSES:
            continue
        amps = read_rating(part.fields, part.value).amps
        load = load_over(judgement, part.contacts) if amps is not None else None
        if amps is not None and load is not None and load > amps * _SLACK:
            yield _finding(judgement, part, amps, load)


def _finding(judgement: Judgement, part: Termination, amps: float, load: float) -> Finding:
    return Finding(
        rule=CONTACT,
        severity=Severity.ERROR,
        message=f"{part.reference} is made for {amps:g} A, and {load:.3g} A flow over it.",
        fix=f"Take a part for {load:.3g} A or more, or let it work a relay that carries the current; or correct its "
        "Rating or Value, or Takes.",
        where=at_contacts(judgement.craft, part.contacts),
        harm=harm.HEAT,
    )
