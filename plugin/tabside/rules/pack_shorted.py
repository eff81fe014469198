"""A pack whose plus and minus meet over grounds of other boards."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from tabside.analysis import harm
from tabside.analysis.joined.joints import passes, runs_of
from tabside.analysis.joined.rails import is_isolated
from tabside.analysis.judgement import Judgement
from tabside.analysis.meeting.packs import PackLeads
from tabside.analysis.meeting.supply_agreement import CELL_TAP
from tabside.analysis.places import at_contacts
from tabside.model.craft import Contact, ContactKey
from tabside.model.findings import Finding, Severity
from tabside.model.groups import Groups
from tabside.rules.rule import check
from tabside.words.contacts import listed, name_of


@check("role-clash", severity=Severity.ERROR)
def pack_shorted(judgement: Judgement) -> Iterator[Finding]:
    """No pack has its plus and minus connected over the grounds of boards.

    Each wire by itself connects a ground to a ground; only together are they a short.

    Of packs in series the minus of the upper one is the plus of the lower one.  A ground that connects both, in a
    charger or a monitor for their balance leads, shorts the lower pack.  Example: both balance leads of two packs in
    series on one cell monitor.

    Fix: connect only one of the two; use a monitor or a signal line that is isolated, and state Isolated there.
    Accept: contacts called ground that their board keeps apart.
    Passes: packs in series whose boards all stand on the lowest minus; a place that states Isolated; a ground in the
    middle of two packs that nothing connects to the lowest.
    Fails: a path from plus to minus of a pack over grounds inside boards.
    Source: logic; the lowest balance tap is the pack's minus.
    """
    if not judgement.packs.series:
        return
    runs = runs_of(judgement.craft, but="D")
    ground = _grounds(judgement, runs)
    for pack in judgement.packs.leads:
        plus, minus = (runs[contact.net_id] for contact in (pack.plus, pack.minus))
        if ground.root(plus) == ground.root(minus) and plus != minus:
            yield _finding(judgement, pack, runs, ground)


def _grounds(judgement: Judgement, runs: Mapping[int, int]) -> Groups[int]:
    """Runs that boards join inside, over their grounds."""
    groups: Groups[int] = Groups(runs.values())
    first: dict[str, int] = {}
    for contact in _ground_contacts(judgement):
        run = runs[contact.net_id]
        groups.join(run, first.setdefault(judgement.craft.terminations[contact.termination].board, run))
    return groups


def _ground_contacts(judgement: Judgement) -> Iterator[Contact]:
    """Contacts of boards and packs that stand on the ground of their board."""
    for end in judgement.craft.terminations.values():
        if not passes(judgement.craft, end.reference) and not is_isolated(end):
            yield from (contact for contact in end.contacts if _is_ground(contact))


def _is_ground(contact: Contact) -> bool:
    return contact.role.is_ground or (contact.role.name == CELL_TAP and contact.role.index == 0)


def _finding(judgement: Judgement, pack: PackLeads, runs: Mapping[int, int], ground: Groups[int]) -> Finding:
    craft = judgement.craft
    way = ground.root(runs[pack.plus.net_id])
    own = {pack.plus.key, pack.minus.key}
    between = [
        contact
        for contact in _ground_contacts(judgement)
        if ground.root(runs[contact.net_id]) == way and contact.key not in own and _is_joined(judgement, contact.key)
    ]
    boards = list(dict.fromkeys(craft.terminations[contact.termination].board for contact in between))
    return Finding(
        rule="role-clash",
        severity=Severity.ERROR,
        message=f"{name_of(craft, pack.plus)} is connected to its own minus {name_of(craft, pack.minus)} over the"
        f" grounds of {listed(boards, 4)}: a short of the pack.",
        fix="Take one of these grounds away, or isolate it and state Isolated: boards that share a ground must all"
        " stand on the lowest minus.",
        where=at_contacts(craft, [pack.plus, pack.minus, *between]),
        harm=harm.PACK_SHORT,
    )


def _is_joined(judgement: Judgement, key: ContactKey) -> bool:
    return key in judgement.joined
