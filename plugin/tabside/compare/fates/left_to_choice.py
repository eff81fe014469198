"""Leads that the drawing leaves to choice, on a net of the same contacts, are the same build.

Which of several equal leads joins a net, and which of two ground contacts of one plug serves which partner, is decided
by the order of references, which say nothing of the wiring.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from collections.abc import Set as AbstractSet
from typing import NamedTuple

from tabside.compare.matched.rebuild import Rebuild
from tabside.compare.reuse.wires import SAME_MM, Ends, another_plug
from tabside.compare.side import LeadFacts, Side, another_board
from tabside.model.craft import ContactKey, Lead

_CHOSEN = {"beside", "joined", "chosen"}  # of leads that are no line of their own in the drawing


class Unplaced(NamedTuple):
    """Leads of both builds that do not stay where they are."""

    old: list[Ends]
    new: list[Ends]
    goes: Collection[str]  # old places on boards that go, where no joint stays


class SameNets(NamedTuple):
    """Those that are the same build all the same, and those that are left."""

    kept: list[tuple[Ends, Ends]]
    left: Unplaced


def same_nets(rebuild: Rebuild, unplaced: Unplaced, *, whole: bool = False) -> SameNets:
    """`whole`: of a net no lead need stay that is not drawn, since one beside others follows what else was chosen.

    But where contacts cannot take all of its leads, another contact is left open.
    """
    crowded = {crowding.net_id for crowding in rebuild.old.craft.crowded}
    free, kept, rest = list(unplaced.new), [], []
    for ends in unplaced.old:
        before = _in_words_of_the_new(rebuild, ends)
        tie = whole and before.lead.net_id not in crowded
        nearest = sorted(
            free, key=lambda wire: -len(before.ends & wire)
        )  # one that ends where it does, if there is one
        serving = (after for after in nearest if _is_choice(rebuild, before, after, unplaced.goes, tie=tie))
        after = None if _is_at_another(rebuild, before.places) else next(serving, None)
        if after is None:
            rest.append(ends)
        else:
            free.remove(after)
            kept.append((ends, after))
    return SameNets(kept, Unplaced(rest, free, unplaced.goes))


class _Before(NamedTuple):
    """An old lead, and what it meets as the new drawing calls it; None for what that does not have."""

    lead: Lead
    ends: AbstractSet[ContactKey | None]
    own: AbstractSet[ContactKey | None]  # where it comes out of a part
    net: AbstractSet[ContactKey | None]
    link: AbstractSet[str | None]
    places: Mapping[str, str | None]  # old termination -> new one
    facts: LeadFacts


def _in_words_of_the_new(rebuild: Rebuild, ends: Ends) -> _Before:
    old, matching = rebuild.old, rebuild.matching
    lead = old.leads[ends]
    return _Before(
        lead,
        ends=set(map(matching.key, ends)),
        own=set(map(matching.key, old.own_ends(ends))),
        net=set(map(matching.key, old.nets[lead.net_id])),
        link=set(map(matching.pairs.get, lead.link)),
        places={reference: matching.pairs.get(reference) for reference, _ in ends},
        facts=old.facts(ends),
    )


def _is_choice(rebuild: Rebuild, before: _Before, after: Ends, goes: Collection[str], *, tie: bool) -> bool:
    """Whether a new lead is the old one, chosen otherwise; a part keeps its own wires."""
    new = rebuild.new
    there = new.leads[after]
    net = new.nets[there.net_id]
    same_net = before.net == net
    same_link = before.link == set(there.link) and before.ends <= net
    if not _left_to_choice(before.lead.how, there.how, same_net, same_link, tie=tie and same_net):
        return False
    off = any(reference in goes and now not in dict(after) for reference, now in before.places.items())
    return before.own == new.own_ends(after) and not off and alike(before.facts, new.facts(after))


def _left_to_choice(was: str, now: str, same_net: bool, same_link: bool, *, tie: bool) -> bool:
    """Neither is a line of its own in the drawing: equal contacts of one link, or chosen among equals on one net."""
    if not {was, now} <= _CHOSEN:
        return False
    return same_link or tie or (same_net and "chosen" in (was, now))


def same_parts(rebuild: Rebuild) -> bool:
    """Whether every termination is still there as it was, and none has come."""
    old, new, matching = rebuild
    return len(matching.pairs) == len(old.terminations) == len(new.terminations) and not _is_at_another(
        rebuild, matching.pairs
    )


def _is_at_another(rebuild: Rebuild, places: Mapping[str, str | None]) -> bool:
    """Whether another plug goes in at one of these places, or it is on another board."""
    known = ((was, now) for was, now in places.items() if now is not None)
    return any(_is_another(rebuild.old, was, rebuild.new, now) for was, now in known)


def _is_another(old: Side, reference: str, new: Side, now: str) -> bool:
    return another_plug(old, reference, new, now) or another_board(old, new, reference, now)


def alike(a: LeadFacts, b: LeadFacts) -> bool:
    """A length that differs by less than a tenth of a millimetre is the same."""
    lengths = (a.length_mm, b.length_mm)
    same_length = lengths[0] == lengths[1] or (
        None not in lengths and abs((lengths[0] or 0) - (lengths[1] or 0)) < SAME_MM
    )
    return a.gauge_awg == b.gauge_awg and a.colour == b.colour and same_length
