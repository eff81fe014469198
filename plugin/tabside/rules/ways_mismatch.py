"""Symbols that do not fit their part: more contacts than it has, or names that do not match the contacts."""

from __future__ import annotations

from collections.abc import Iterator

from tabside.analysis import harm
from tabside.analysis.judgement import Judgement
from tabside.analysis.places import at_termination
from tabside.model.craft import Termination
from tabside.model.findings import Finding, Severity
from tabside.rules.rule import check
from tabside.words.contacts import counted, termination_name


@check("ways-mismatch", "signals-mismatch", severity=Severity.ERROR, may_be_accepted=False)
def ways_mismatch(judgement: Judgement) -> Iterator[Finding]:
    """A symbol's contacts fit the ways of its footprint, and `Signals` names each of them.

    A contact beyond the housing does not exist; names that do not count up belong to other contacts than drawn.
    Example: contact 7 of a 6-way plug; five names for six contacts.

    Fix: correct the symbol, the footprint or Signals.
    Accept: never: the drawing contradicts itself.
    Passes: a symbol of fewer contacts than ways; names for all contacts, or for all ways.
    Fails: contact 7 of a 6-way part; five names for six contacts.
    Source: logic.
    """
    for reference, termination in judgement.craft.terminations.items():
        name = termination_name(judgement.craft, reference)
        highest = _highest_contact(termination)
        if termination.sized_ways is not None and highest > termination.sized_ways:
            yield Finding(
                rule="ways-mismatch",
                severity=Severity.ERROR,
                message=f"{name} is drawn with contact {highest}, and its footprint {termination.footprint} has"
                f" {counted(termination.sized_ways, 'way')}.",
                fix="Choose the footprint of the part you have, or a symbol with as many contacts.",
                where=(at_termination(judgement.craft, reference),),
                harm=harm.CANNOT_BE_BUILT,
            )
        counts = {len(termination.contacts), termination.ways}
        if termination.signals_count is not None and termination.signals_count not in counts:
            yield Finding(
                rule="signals-mismatch",
                severity=Severity.ERROR,
                message=f"{name} has {counted(len(termination.contacts), 'contact')}, and Signals gives"
                f" {counted(termination.signals_count, 'name')}: which name belongs to which contact is not sure.",
                fix='Give one name for each contact, "nc" for one that is not used, separated by commas.',
                where=(at_termination(judgement.craft, reference),),
                harm=harm.NO_GROUND,
            )


def _highest_contact(termination: Termination) -> int:
    numbers = [int(c.number) for c in termination.contacts if c.number.isascii() and c.number.isdecimal()]
    return max(numbers, default=0)
