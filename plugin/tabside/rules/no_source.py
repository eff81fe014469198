"""Loads on a net that nothing is stated to feed."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from tabside.analysis import harm
from tabside.analysis.judgement import Judgement
from tabside.analysis.places import at_contacts
from tabside.model.craft import Contact, Craft, Kind
from tabside.model.findings import Finding, Severity
from tabside.rules.rule import check
from tabside.words.contacts import listed, name_of


@check("no-source", severity=Severity.WARNING)
def no_source(judgement: Judgement) -> Iterator[Finding]:
    """A net between boards with stated loads has a stated source, here or behind in-line parts.

    Passes: a load behind a fuse and a switch; a board that passes on the battery that it is fed from; `Either`.
    Warns: `Takes` (or a power-input pin) on a net where no board states `Gives` (or has a power-output pin).
    Source: logic.
    """
    craft = judgement.craft
    runs, members = judgement.whole_runs, judgement.whole_members
    fed = _fed_runs(craft, members, runs)
    for run, contacts in members.items():
        loads = [contact for contact in contacts if is_load(contact)]
        boards = {craft.terminations[contact.termination].board for contact in contacts}
        if loads and len(boards) > 1 and run not in fed and run not in judgement.clashing_runs:
            yield _finding(craft, loads)


def is_load(contact: Contact) -> bool:
    return contact.role.is_supply and not contact.either and (bool(contact.takes) or contact.pin_type == "power_in")


def _is_source(craft: Craft, contact: Contact) -> bool:
    if contact.gives or contact.pin_type == "power_out" or contact.either:
        return True
    return contact.role.battery and not contact.takes and craft.terminations[contact.termination].kind is Kind.CAPTIVE


def _fed_runs(craft: Craft, members: Mapping[int, list[Contact]], runs: Mapping[int, int]) -> set[int]:
    """Runs with a source, and those that a board feeds from such a run by a contact of the same rail."""
    fed = {run for run, contacts in members.items() if any(_is_source(craft, contact) for contact in contacts)}
    by_rail: dict[tuple[object, ...], list[Contact]] = {}
    for contacts in members.values():
        for contact in contacts:
            if contact.role.is_supply and (contact.role.battery or contact.role.volts):
                rail = (craft.terminations[contact.termination].board, contact.role.battery, contact.role.volts)
                by_rail.setdefault(rail, []).append(contact)
    passing = [contacts for contacts in by_rail.values() if len({runs[c.net_id] for c in contacts}) > 1]
    grown = True
    while grown:
        grown = False
        for contacts in passing:
            there = {runs[contact.net_id] for contact in contacts}
            on_to = {runs[contact.net_id] for contact in contacts if not is_load(contact)}
            if there & fed and on_to - fed:
                fed |= on_to
                grown = True
    return fed


def _finding(craft: Craft, loads: list[Contact]) -> Finding:
    names = listed([name_of(craft, load) for load in loads])
    verb = "takes" if len(loads) == 1 else "take"
    return Finding(
        rule="no-source",
        severity=Severity.WARNING,
        message=f"{names} {verb} power from the net {loads[0].net}, and no board is stated to feed it.",
        fix="State Gives at the contact that feeds this net, or join the net to a supply.",
        where=at_contacts(craft, loads),
        harm=harm.NOT_FED,
    )
