"""A switch, fuse or relay that does nothing: both of its sides are one net, or one side goes nowhere."""

from __future__ import annotations

from collections.abc import Hashable, Iterator
from itertools import pairwise

from tabside.analysis import harm
from tabside.analysis.joined.joints import letters_of, passes
from tabside.analysis.joined.rails import is_isolated
from tabside.analysis.judgement import Judgement
from tabside.analysis.places import at_contacts
from tabside.facts.labels.text import clean_label
from tabside.model.craft import Contact, Craft, Kind, Termination
from tabside.model.findings import Finding, Severity
from tabside.model.groups import Groups
from tabside.rules.rule import check
from tabside.wiring.terminations.part_kinds import FUSES
from tabside.words.contacts import name_of

_TIES = frozenset(("NT", "R", "L", "FB"))  # joining both sides is what they are for, or changes little
_PROTECTION = ("B-", "P-")  # where the pack's minus goes, and where the loads' minus goes; common practice, no source
_OPENERS = FUSES | {"SW", "S", "K"}  # a side that goes nowhere: nothing to open


@check("switch-bypassed", severity=Severity.WARNING)
def switch_bypassed(judgement: Judgement) -> Iterator[Finding]:
    """What opens a circuit has two nets, one on each side, and something on both.

    A fuse or a switch that current goes around protects and switches nothing, and looks on paper as if it did.
    Example: a lamp connected to the battery's side of its switch, the other side of the switch left open.

    Fix: give the two sides two names, and connect the load to the far side.
    Accept: a spare switch that is to be connected later.
    Passes: net ties, coils; the free throw of a changeover; a side under a no-connect flag.
    Warns: a fuse, breaker, switch, relay, jumper or diode with one name on both sides; a fuse, breaker, switch or relay
    with one side that nothing is connected to; one in a ground whose two sides other grounds connect, so that all
    of the load's current returns over a signal cable when it opens; B- and P- of a battery's protection on one net.
    Source: logic.
    """
    craft = judgement.craft
    yield from _protections(judgement)
    for part in craft.terminations.values():
        if part.kind is not Kind.INLINE or letters_of(part.reference) in _TIES:
            continue
        for pair in part.passes:
            a, b = (part.contact(number) for number in pair)
            if a.net_id == b.net_id:
                yield _around(judgement, part, a, b)
            elif len(part.passes) == 1 and letters_of(part.reference) in _OPENERS:
                yield from _nowhere(judgement, part, a, b)
                yield from _over_ground(judgement, part, a, b)


def _protections(judgement: Judgement) -> Iterator[Finding]:
    """B- and P- of a battery's protection on one net: the load's current goes around what is to cut it off."""
    for ends in judgement.terminations_of_board.values():
        contacts = [contact for end in ends for contact in end.contacts if contact.key in judgement.joined]
        by_name = {clean_label(contact.label).plain: contact for contact in contacts}
        pack, load = (by_name.get(name) for name in _PROTECTION)
        if pack is None or load is None or judgement.whole_runs[pack.net_id] != judgement.whole_runs[load.net_id]:
            continue
        craft = judgement.craft
        yield Finding(
            rule="switch-bypassed",
            severity=Severity.WARNING,
            message=f"{name_of(craft, pack)} and {name_of(craft, load)} are on one net: the load's current goes around"
            " the battery's protection.",
            fix="Connect the pack's minus to B- alone, and the minus of all loads and of the charger to P-.",
            where=at_contacts(craft, (pack, load)),
            harm=harm.NO_FUSE,
        )


def _around(judgement: Judgement, part: Termination, a: Contact, b: Contact) -> Finding:
    value = f" ({part.value})" if part.value else ""
    return Finding(
        rule="switch-bypassed",
        severity=Severity.WARNING,
        message=f"Both sides of {part.reference}{value} are the net {a.net}: current goes around it.",
        fix="Give the two sides two names: a power symbol or label of the same name on both connects them.",
        where=at_contacts(judgement.craft, (a, b)),
        harm=harm.NO_FUSE,
    )


def _nowhere(judgement: Judgement, part: Termination, a: Contact, b: Contact) -> Iterator[Finding]:
    """One side is connected, and the other meets nothing: the load is on the wrong side of it."""
    for used, idle in ((a, b), (b, a)):
        met = idle.key in judgement.joined or idle.net_id in judgement.unread_nets
        if used.key in judgement.joined and not met and not idle.flagged_empty:
            value = f" ({part.value})" if part.value else ""
            yield Finding(
                rule="switch-bypassed",
                severity=Severity.WARNING,
                message=f"Nothing is connected to contact {idle.number} of {part.reference}{value}: what it is to"
                f" switch or protect is wired past it, on the net {used.net}.",
                fix=f"Connect the load to contact {idle.number} of {part.reference}, and take it off {used.net}.",
                where=at_contacts(judgement.craft, (used, idle)),
                harm=harm.NO_FUSE,
            )


def _over_ground(judgement: Judgement, part: Termination, a: Contact, b: Contact) -> Iterator[Finding]:
    """Both sides are grounds, and boards join them past the part: over the ground of a signal cable."""
    craft = judgement.craft
    if not (a.role.is_ground and b.role.is_ground):
        return
    groups: Groups[Hashable] = Groups([])
    for lead in craft.leads:
        groups.join(lead.a, lead.b)
    for other in craft.terminations.values():
        if other.reference != part.reference:
            for here, there in _joined_inside(craft, other):
                groups.join(here, there)
    if groups.root(a.key) != groups.root(b.key):
        return
    yield Finding(
        rule="switch-bypassed",
        severity=Severity.WARNING,
        message=f"{part.reference} is in a ground, and other grounds go around it: when it opens, what it switches or"
        " protects draws all of its current over them, signal cables too.",
        fix=f"Put {part.reference} into the plus lead, or take away the grounds that connect its two sides.",
        where=at_contacts(craft, (a, b)),
        harm=harm.HEAT,
    )


def _joined_inside(craft: Craft, other: Termination) -> Iterator[tuple[Hashable, Hashable]]:
    """What an in-line part or a splice passes on, and the grounds of a board."""
    if passes(craft, other.reference):
        keys = [contact.key for contact in other.contacts]
        if other.kind is Kind.SPLICE:
            yield from pairwise(keys)
        yield from (((other.reference, x), (other.reference, y)) for x, y in other.passes)
    elif not is_isolated(other):
        yield from ((contact.key, other.board) for contact in other.contacts if contact.role.is_ground)
