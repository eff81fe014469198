"""A battery without a fuse or limiter in its run."""

from __future__ import annotations

import re
from collections.abc import Iterator

from tabside.analysis import harm
from tabside.analysis.joined.joints import letters_of, passes
from tabside.analysis.judgement import Judgement
from tabside.analysis.meeting.agreement import LOAD_ENDS
from tabside.analysis.meeting.supply_agreement import CELL_TAP
from tabside.analysis.places import at_contacts
from tabside.model.craft import Contact, ContactKey, Craft, Kind, Termination
from tabside.model.findings import Finding, Severity
from tabside.rules.rule import check
from tabside.wiring.terminations.part_kinds import FUSES
from tabside.words.contacts import listed, name_of

_PANELS = ("PV", "SOLAR")  # on the inputs of charge controllers; common practice, no source


@check("fuse-missing", severity=Severity.WARNING)
def fuse_missing(judgement: Judgement) -> Iterator[Finding]:
    """The plus lead of a battery meets a fuse, or a limiter that the craft file states, before it meets a board.

    A short in an unfused battery run heats wire and pack until one of them burns.  Example: the pack's plus lead
    straight on the speed controller.

    Fix: draw a fuse as close to the battery as possible, or declare a limiter ([[protection]]).
    Accept: small craft that must not lose power in flight, first powered through a current limiter.
    Passes: a fuse in-line; `[[protection]]` at either end of the run in the craft file; several packs in series,
    with the fuse between them too.
    Warns: a pack whose lead goes to a board as it is, also one of which nothing is stated.
    Source: boats: nothing fused below the wire's rating, fuse at the battery's end; common practice, no source.
    """
    craft = judgement.craft
    protected = {protection.at for protection in craft.settings.protections}
    by_battery: dict[str, list[tuple[Contact, Contact]]] = {}
    for termination in judgement.ends:
        by_battery.setdefault(termination.board, []).extend(
            (contact, met)
            for contact in termination.contacts
            if _is_plus_of_pack(judgement, contact) and contact.key not in protected
            if not _fused_within_series(judgement, termination)
            for met in _met_without_fuse(judgement, contact)
            if met.key not in protected
        )
    for bare in by_battery.values():
        if bare:
            yield _finding(judgement, list(dict.fromkeys(c.key for c, _ in bare)), [met for _, met in bare])


def _is_plus_of_pack(judgement: Judgement, contact: Contact) -> bool:
    """The plus lead of a part of its own, or a giving contact of a board that has no other battery contact."""
    if not contact.role.battery or contact.takes or contact.either:
        return False
    termination = judgement.craft.terminations[contact.termination]
    if sum(neighbour.role.name == CELL_TAP for neighbour in termination.contacts) > 1:
        return False  # the highest tap of a balance lead, which carries no load
    on_board = [
        neighbour for other in judgement.terminations_of_board[termination.board] for neighbour in other.contacts
    ]
    if any(neighbour.takes for neighbour in on_board):
        return False  # a board that passes the battery on
    if termination.kind is Kind.CAPTIVE:
        return True
    return all(any(rail.battery for rail in neighbour.gives) for neighbour in on_board if neighbour.role.battery)


def _met_without_fuse(judgement: Judgement, start: Contact) -> list[Contact]:
    """Contacts of other boards that the battery reaches over leads, splices and parts that are no fuse."""
    craft, leads_at = judgement.craft, judgement.leads_at
    board = craft.terminations[start.termination].board
    seen, front = {start.key}, [start.key]
    met: list[Contact] = []
    while front:
        key = front.pop()
        for lead in leads_at.get(key, ()):
            other = lead.b if lead.a == key else lead.a
            if other in seen:
                continue
            seen.add(other)
            part = craft.terminations[other[0]]
            if not passes(craft, other[0]):
                if part.board != board and _feeds(craft.contact(other)) and not _is_panel_input(craft, other):
                    met.append(craft.contact(other))
                continue
            front.append(other)  # more leads may meet on this side of a fuse
            if part.kind is Kind.SPLICE or letters_of(part.reference) not in FUSES:
                inside = [contact.key for contact in part.contacts if contact.key not in seen]
                seen.update(inside)
                front += inside
    return met


def _feeds(met: Contact) -> bool:
    return met.role.is_supply or met.role.name in LOAD_ENDS


def _is_panel_input(craft: Craft, key: ContactKey) -> bool:
    """Whether a solar panel goes there, which gives no more current than the sun makes."""
    return any(word in _PANELS for word in re.split(r"[^A-Z]+", craft.contact(key).label.upper()))


def _fused_within_series(judgement: Judgement, pack: Termination, above: frozenset[str] = frozenset()) -> bool:
    """Whether a fuse stands between this pack's minus and the plus of the next in series: one current, one fuse."""
    seen = {pack.reference, *above}
    front = [(contact.key, False) for contact in pack.contacts if contact.role.is_ground]
    while front:
        key, fused = front.pop()
        for lead in judgement.leads_at.get(key, ()):
            other = lead.b if lead.a == key else lead.a
            part = judgement.craft.terminations[other[0]]
            if part.reference in seen:
                continue
            if passes(judgement.craft, part.reference):
                seen.add(part.reference)
                over = fused or (part.kind is not Kind.SPLICE and letters_of(part.reference) in FUSES)
                front += [(contact.key, over) for contact in part.contacts if contact.key != other]
            elif _is_plus_of_pack(judgement, judgement.craft.contact(other)) and (
                fused or _fused_within_series(judgement, part, frozenset(seen))
            ):
                return True
    return False


def _finding(judgement: Judgement, keys: list[ContactKey], met: list[Contact]) -> Finding:
    craft = judgement.craft
    packs = [craft.contact(key) for key in keys]
    return Finding(
        rule="fuse-missing",
        severity=Severity.WARNING,
        message=f"{listed([name_of(craft, contact) for contact in packs])} feeds"
        f" {listed(list(dict.fromkeys(name_of(craft, contact) for contact in met)), 3)} without a fuse or limiter:"
        " a short can set the wire and the pack on fire.",
        fix="Draw a fuse as close to the battery as possible, state a limiter ([[protection]]), or accept it in the "
        "craft file.",
        where=at_contacts(craft, [*packs, *met]),
        link=(packs[0].termination, met[0].termination),
        harm=harm.NO_FUSE,
    )
