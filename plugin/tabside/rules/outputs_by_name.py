"""Two boards whose outputs, by their names, feed one rail."""

from __future__ import annotations

import re
from collections.abc import Iterator

from tabside.analysis import harm
from tabside.analysis.judgement import Judgement
from tabside.analysis.places import at_contacts
from tabside.analysis.supplies import board_of, gives, is_output_by_name
from tabside.model.craft import Contact
from tabside.model.findings import Finding, Severity
from tabside.rules.rule import check
from tabside.words.contacts import listed, name_of

_CHOOSES = re.compile(r"diode|or-?ing|\bideal|selector|\bmux", re.IGNORECASE)  # modules that join outputs on purpose


@check("two-sources", severity=Severity.WARNING)
def outputs_by_name(judgement: Judgement) -> Iterator[Finding]:
    """A supply contact called an output feeds a rail that nothing else feeds.

    A name is weaker than what Gives states: a pad called 5V OUT may take power, too.  Example: 3V3_OUT of one board on
    3V3_OUT of another; the plugs of two speed controllers, each called BEC 5V, on one servo rail.

    Fix: leave one of the two unconnected, or state Gives, Takes or Either there.
    Accept: a contact that may be fed, as its manual says.
    Passes: outputs of one board; a diode between, or modules called ideal diode, OR-ing or selector; a contact that
    states Takes or Either; the output of a charger on its pack; a board that passes the rail on under the same name.
    Warns: two boards on one rail, each with a contact called OUT, or BEC on a plug with leads of its own, or with a
    stated source, at least one of them by its name alone.  The verdict is then "not decided": names alone do not say
    which way power flows.
    Source: logic; the names are common practice, no source.
    """
    craft = judgement.craft
    for contacts in judgement.contacts_of_rails:
        if any(board_of(craft, contact) in judgement.packs.boards for contact in contacts):
            continue
        sources = {board_of(craft, contact): contact for contact in contacts if _feeds(judgement, contact)}
        found = list(sources.values())
        if len(found) > 1 and not all(map(gives, found)) and judgement.agree(*found[:2]).agrees:
            yield _finding(judgement, found)


def _feeds(judgement: Judgement, contact: Contact) -> bool:
    if not contact.role.is_supply or contact.key not in judgement.joined:
        return False
    end = judgement.craft.terminations[contact.termination]
    if _CHOOSES.search(f"{end.board} {end.value}"):
        return False
    named = is_output_by_name(judgement.craft, contact) and not _is_passed_on(judgement, contact)
    return gives(contact) or named


def _is_passed_on(judgement: Judgement, contact: Contact) -> bool:
    """Whether its board has the same name on another net that wires meet, as a bulkhead or an extension has."""
    return any(
        other.label.strip().upper() == contact.label.strip().upper() and other.net_id != contact.net_id
        for termination in judgement.terminations_of_board.get(board_of(judgement.craft, contact), ())
        for other in termination.contacts
        if other.key in judgement.joined
    )


def _finding(judgement: Judgement, sources: list[Contact]) -> Finding:
    names = [name_of(judgement.craft, contact) for contact in sources]
    return Finding(
        rule="two-sources",
        severity=Severity.WARNING,
        message=f"{listed(names)} feed one rail, by their names: two regulators back-feed each other.",
        fix="Leave one of them unconnected, or state Gives, Takes or Either there: a name does not say it for sure.",
        where=at_contacts(judgement.craft, sources),
        harm=harm.TWO_REGULATORS,
        undecided=len(sources) - 1,
    )
