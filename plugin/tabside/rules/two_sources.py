"""Two boards that feed, or drive, the same net."""

from __future__ import annotations

from collections.abc import Iterator

from tabside.analysis import harm
from tabside.analysis.causes.clash_groups import groups_of, told_pairs
from tabside.analysis.joints import members_of, runs_of
from tabside.analysis.judgement import Judgement
from tabside.analysis.meeting.outcome import Cause
from tabside.analysis.places import at_contacts
from tabside.model.craft import Contact, Craft, Kind
from tabside.model.findings import Finding, Severity
from tabside.rules.role_clash import clash_finding
from tabside.rules.rule import check
from tabside.words.contacts import listed, name_of


@check("two-sources", severity=Severity.ERROR)
def two_sources(judgement: Judgement) -> Iterator[Finding]:
    """One source for each net: two regulators feed each other, two outputs fight.

    Passes: two boards with a diode between, or with `Either`; a board that passes on what it takes from the net;
    several outputs of one board; open-drain outputs; telemetry of several ESCs on one input.
    Fails: two boards that state `Gives` (or have power-output pins) on one net; two outputs on one signal.
    Source: makers' and autopilot wikis on feeding one rail from two regulators (table of role pairs).
    """
    craft = judgement.craft
    whole = judgement.whole_runs
    takers = _boards_that_take(judgement)
    # A diode keeps its two sides apart; fuses, switches and coils do not.
    for contacts in members_of(craft, runs_of(craft, but="D", changeovers=False)).values():
        sources = [
            contact
            for contact in contacts
            if gives(contact) and (whole[contact.net_id], _board(craft, contact)) not in takers
        ]
        sources = _without_passed_on(craft, sources)
        first_of_board = list({_board(craft, contact): contact for contact in reversed(sources)}.values())[::-1]
        if len(first_of_board) > 1 and not judgement.agree(*first_of_board[:2]).clashes:
            yield _two_supplies(craft, first_of_board)
    for group in groups_of(judgement, told_pairs(judgement)):
        if group.worst.cause is Cause.BOTH_DRIVE:
            yield clash_finding(craft, group, "two-sources")


def gives(contact: Contact) -> bool:
    """Whether the drawing states that the board puts power out here, and not perhaps takes it."""
    return (bool(contact.gives) or contact.pin_type == "power_out") and not contact.either


def _board(craft: Craft, contact: Contact) -> str:
    return craft.terminations[contact.termination].board


def _boards_that_take(judgement: Judgement) -> set[tuple[int, str]]:
    """(run, board) of boards that take power from the run themselves: what they give there they only pass on."""
    return {
        (run, _board(judgement.craft, contact))
        for run, contacts in judgement.whole_members.items()
        for contact in contacts
        if contact.role.is_supply and not gives(contact) and (contact.takes or contact.role.battery)
    }


def _without_passed_on(craft: Craft, sources: list[Contact]) -> list[Contact]:
    """Beside a pack with its own leads, boards that give battery only pass it on."""
    packs = [c for c in sources if c.role.battery and craft.terminations[c.termination].kind is Kind.CAPTIVE]
    return packs + [contact for contact in sources if not contact.role.battery] if packs else sources


def _two_supplies(craft: Craft, sources: list[Contact]) -> Finding:
    names = [name_of(craft, contact) for contact in sources]
    return Finding(
        rule="two-sources",
        severity=Severity.ERROR,
        message=f"{listed(names)} all feed the net {sources[0].net}."
        if len(names) > 2
        else f"{names[0]} and {names[1]} both feed the net {sources[0].net}: two regulators work against each other.",
        fix="Leave one of these supplies open, put a diode into each, or state Either where a supply may be an input.",
        where=at_contacts(craft, sources),
        harm=harm.TWO_REGULATORS,
    )
