"""How many wires of the old build could go on in the new one with one end where it is.

Of the wire: no other gauge or colour, not thinner than the plan finds where none is stated now, and long enough, as far
as both are stated.  Of its ends: one stays in its plug or at its joint, contact by contact; the other stays, too, or
goes into a plug of the same family, to another joint, or is made anew where a contact becomes a joint or a joint a
contact.  A plug of another family is made anew as a whole.  A plan that moves both ends of a wire may keep more.
Most pairs by augmenting paths, which is brute force; no source outside.
"""

from __future__ import annotations

from tabside.analysis.joined.lead_ends import EndKind, LeadEnd, MadeLead, WireFrom
from tabside.compare.comparison import Comparison
from tabside.facts import families

Wire = frozenset[tuple[str, str]]
JOINTS = (EndKind.PAD, EndKind.SPLICE, EndKind.INLINE)
CRIMPED = (EndKind.CONTACT, EndKind.CUP)


def could_stay(found: Comparison) -> int:
    """The most wires of cables that a plan can use again with one end where it is, whatever else it does."""
    olds, news = ([w for w, lead in side.leads.items() if lead.cable] for side in (found.old, found.new))
    fits = {a: [b for b in news if _fits(found, a, b)] for a in olds}
    given: dict[Wire, Wire] = {}

    def give(wire: Wire, tried: set[Wire]) -> bool:
        for there in fits[wire]:
            if there not in tried:
                tried.add(there)
                if there not in given or give(given[there], tried):
                    given[there] = wire
                    return True
        return False

    return sum(give(wire, set()) for wire in olds)


def do_stay(found: Comparison) -> int:
    """Of the same kind of wires those that the plan uses again."""
    pairs = [pair for fate in found.cables for pair in fate.wires]
    return sum(bool(found.new.leads[b].cable) and _is_plain(found.new.made[b]) for _, b in pairs)


def _is_plain(made: MadeLead) -> bool:
    return made.wire_from is WireFrom.NEW and not any(e.kind in (EndKind.SLOT, EndKind.MATE) for e in made.ends)


def _fits(found: Comparison, before: Wire, after: Wire) -> bool:
    old, new = found.old, found.new
    if not _is_plain(old.made[before]) or not _is_plain(new.made[after]):
        return False
    was, now = old.facts(before), new.facts(after)
    if any(None not in pair and pair[0] != pair[1] for pair in zip(was[:2], now[:2], strict=True)):
        return False
    if was.gauge_awg is not None and now.gauge_awg is None:
        needed = new.gauge_worked_out(after)  # the plan's word, held elsewhere
        if needed is not None and was.gauge_awg > needed:
            return False
    if None not in (was.length_mm, now.length_mm) and was.length_mm < now.length_mm - 0.1:
        return False
    a, b = old.made[before].ends
    ways = (new.made[after].ends, new.made[after].ends[::-1])
    return any(
        (_stays(found, a, c) and _can_go(found, b, d)) or (_stays(found, b, d) and _can_go(found, a, c))
        for c, d in ways
    )


def _stays(found: Comparison, here: LeadEnd, there: LeadEnd) -> bool:
    same_place = found.matching.pairs.get(here.key[0]) == there.key[0] and here.key[1] == there.key[1]
    return same_place and here.kind is there.kind and here.family == there.family


def _can_go(found: Comparison, here: LeadEnd, there: LeadEnd) -> bool:
    if here.kind in JOINTS or there.kind in JOINTS:
        return here.kind in (*JOINTS, *CRIMPED) and there.kind in (*JOINTS, *CRIMPED)
    if here.kind is there.kind is EndKind.PLUG or here.family != there.family:
        return _stays(found, here, there)
    return here.kind in CRIMPED and (here.kind is EndKind.CUP or families.family(here.family).crimped)
