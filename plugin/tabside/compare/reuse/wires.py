"""Whether a wire that is there will do for a drawn one: gauge, colour, length, insulation, what is on its ends."""

from __future__ import annotations

from collections.abc import Collection, Iterator

from tabside.analysis.joined.lead_ends import EndKind, LeadEnd, plug_kind
from tabside.compare.reuse.what_part import Told, is_another, told_by_value
from tabside.compare.side import Side
from tabside.facts.contacts import contact_parts
from tabside.make.needs.cable_jobs import releasable
from tabside.model.craft import Cable, ContactKey, Kind, Termination
from tabside.model.natural import natural

Ends = frozenset[ContactKey]
_CRIMPED = EndKind.CONTACT
JOINTS = (EndKind.PAD, EndKind.SPLICE, EndKind.INLINE)
_PLUGS = (EndKind.CONTACT, EndKind.CUP, EndKind.SLOT, EndKind.MADE, EndKind.PLUG)
SLACK = "the steps take an end off, shorten it and put it back; or pass over these steps, and tie back the slack."
SAME_MM = 0.1  # lengths that differ by less are the same


def why_not(old: Side, before: Ends, new: Side, after: Ends) -> str:
    """Why the old wire will not do for the new one, "" when it will; what is not known on one side is looked at."""
    if _kinds(old, before) != _kinds(new, after):
        return "made in another way at its ends"
    return unfit(old, before, new, after)


def unfit(old: Side, before: Ends, new: Side, after: Ends) -> str:
    """The same of the wire itself, whatever is on its ends."""
    was, now = old.facts(before), new.facts(after)
    if old.is_own(before) and new.is_own(after):
        return ""  # it comes with the part: what is stated of it is looked at
    if None not in (was.gauge_awg, now.gauge_awg) and was.gauge_awg != now.gauge_awg:
        return f"of {was.gauge_awg} AWG, {now.gauge_awg} AWG is drawn"
    if was.gauge_awg is not None and now.gauge_awg is None:
        needed = new.gauge_worked_out(after)
        if needed is not None and was.gauge_awg > needed:
            return f"too thin: {was.gauge_awg} AWG, {needed} AWG is worked out for what it carries"
    if was.gauge_awg is now.gauge_awg is None:
        planned, needed = old.gauge_worked_out(before), new.gauge_worked_out(after)
        if planned is not None and needed is not None and planned > needed:
            return f"too thin: {planned} AWG was worked out for it, {needed} AWG is for what it carries now"
    if None not in (was.colour, now.colour) and was.colour != now.colour:
        return f"{was.colour}, {now.colour} is drawn"
    if was.length_mm is not None and now.length_mm is not None and was.length_mm < now.length_mm - SAME_MM:
        return f"too short: {was.length_mm:g} mm, {now.length_mm:g} mm is needed"
    return _insulation(old, was.gauge_awg, new, now.gauge_awg)


def own_unfit(old: Side, before: Ends, new: Side, after: Ends) -> str:
    """Why a part's own wire will not do: nobody makes it, and it cannot grow; "" where another part brings others.

    Of one that is not cut the drawing knows the path alone: that it reaches is looked at.
    """
    if not (old.is_own(before) and new.is_own(after)) or _may_be_another_part(old, before, new, after):
        return ""
    was, now = old.facts(before), new.facts(after)
    if None not in (was.gauge_awg, now.gauge_awg) and (was.gauge_awg or 0) > (now.gauge_awg or 0):
        return f"too thin: {was.gauge_awg} AWG, {now.gauge_awg} AWG is drawn"
    cut = not old.is_in_own_plug(before)
    if cut and was.length_mm is not None and now.length_mm is not None and was.length_mm < now.length_mm - SAME_MM:
        return f"too short: it was cut for {was.length_mm:g} mm, {now.length_mm:g} mm is needed"
    return ""


def is_another_part(old: Side, before: Ends, new: Side, after: Ends) -> bool:
    """Whether what brings the wire along is another part now: by its value, or as it has another plug of its own."""
    parts = _whose(old, before), _whose(new, after)
    other = len(parts[0]) != len(parts[1]) or any(is_another(*pair) for pair in zip(*parts, strict=True))
    return other or has_other_plug(old, before, new, after)


def _may_be_another_part(old: Side, before: Ends, new: Side, after: Ends) -> bool:
    """The same, or one of the drawings leaves it open."""
    if is_another_part(old, before, new, after):
        return True
    pairs = zip(_whose(old, before), _whose(new, after), strict=True)
    return any(told_by_value(*pair) is not Told.SAME for pair in pairs)


def _whose(side: Side, wire: Ends) -> list[Termination]:
    """The parts that bring the wire along."""
    return [side.terminations[reference] for reference, _ in sorted(side.own_ends(wire))]


def has_other_plug(old: Side, before: Ends, new: Side, after: Ends) -> bool:
    """Whether a part's own wire is drawn with another plug of the part, or in one that had been cut off."""
    if not (old.is_own(before) and new.is_own(after)):
        return False
    was, now = (
        {side.terminations[ref].family for ref, _ in side.own_ends(wire)}
        for side, wire in ((old, before), (new, after))
    )
    if not new.is_in_own_plug(after):
        return was != now and None not in was | now
    return was != now or not old.is_in_own_plug(before)


def _kinds(side: Side, wire: Ends) -> list[str]:
    """Joints, plugs, and what a part brings along: a wire never turns from one into another."""
    kinds = (end.kind for end in side.made[wire].ends)
    return sorted("joint" if kind in JOINTS else "plug" if kind in _PLUGS else kind.value for kind in kinds)


def is_made_anew(here: LeadEnd, there: LeadEnd) -> bool:
    """Whether an end with a contact becomes a joint, or a joint an end with a contact."""
    return (here.kind in JOINTS) is not (there.kind in JOINTS)


def end_of(side: Side, wire: Ends, key: ContactKey) -> LeadEnd:
    """How the wire ends at this contact."""
    return next(end for end in side.made[wire].ends if end.key == key)


def gets_new_end(old: Side, before: Ends, here: ContactKey, new: Side, after: Ends, there: ContactKey) -> bool:
    """Whether the end is made anew: of a part's own wire, which nobody can replace, a crimped contact as well."""
    was, now = end_of(old, before, here), end_of(new, after, there)
    if is_made_anew(was, now):
        return True
    if not (old.is_own(before) and new.is_own(after)) or not was.kind is now.kind is _CRIMPED:
        return False
    return not (releasable(was.family) and _contacts_fit(was.family, now.family))


def to_see(old: Side, before: Ends, new: Side, after: Ends) -> Iterator[str]:
    """What is stated now and was not known of the wire that is there; of a part's own all that is stated otherwise.

    With what was stated before, where something was.
    """
    if own_unfit(old, before, new, after):
        return  # it is known, and will not do
    was, now = old.facts(before), new.facts(after)
    own = old.is_own(before) and new.is_own(after)
    if now.gauge_awg is not None and (was.gauge_awg is None or (own and was.gauge_awg != now.gauge_awg)):
        yield f"{now.gauge_awg} AWG{_before(was.gauge_awg, ' AWG')}"
    if now.colour is not None and (was.colour is None or (own and was.colour != now.colour)):
        yield f"{now.colour}{_before(was.colour)}"
    if now.length_mm is not None and (was.length_mm is None or (own and was.length_mm < now.length_mm - SAME_MM)):
        yield f"{now.length_mm:g} mm{_before(None if was.length_mm is None else f'{was.length_mm:g}', ' mm')}"
    outside = _over_insulation(old, was.gauge_awg), _over_insulation(new, now.gauge_awg)
    if outside[0] is None and outside[1] is not None:
        yield f"{outside[1]:g} mm over its insulation"


def to_see_words(seen: Collection[str]) -> str:
    """What `to_see` found, as something to do."""
    return f"Stated otherwise, or for the first time: check that the wire you have is {', '.join(seen)}."


def _before(stated: str | int | None, unit: str = "") -> str:
    return "" if stated is None else f" (before: {stated}{unit})"


def shorter_by(old: Side, before: Ends, new: Side, after: Ends) -> float:
    """By how much the old wire is longer than the new one; 0 when it is not, or when a length is not known."""
    was, now = old.facts(before).length_mm, new.facts(after).length_mm
    if new.is_in_own_plug(after):
        return 0.0  # nobody shortens a part's own cable
    return max(0.0, was - now) if was is not None and now is not None and was - now > SAME_MM else 0.0


def another_plug(old: Side, reference: str, new: Side, now: str) -> bool:
    """Whether another plug goes in there: of another kind, family or number of ways, as far as both are known."""
    before, after = old.terminations[reference], new.terminations[now]
    if before.kind is not after.kind:
        return True
    if not before.takes_plug and not after.takes_plug:
        return False  # a splice takes one wire more, a board gets one more pad
    pairs = ((before.family, after.family), (before.ways, after.ways))
    return any(one is not None and other is not None and one != other for one, other in pairs)


def goes_over(old: Side, reference: str, new: Side, now: str) -> bool:
    """Whether the contacts of the plug there can go over into the housing of the one that goes in now."""
    before, after = old.terminations[reference], new.terminations[now]
    if not before.kind is after.kind is Kind.RECEPTACLE or before.family is None or after.family is None:
        return False
    if None in (before.ways, after.ways) or not releasable(before.family) or plug_kind(after.family) is not _CRIMPED:
        return False
    if before.family == after.family:
        return before.ways != after.ways and before.rows == after.rows
    return before.rows == after.rows and _contacts_fit(before.family, after.family)


def is_replaced(old: Side, reference: str, new: Side, now: str) -> bool:
    """Whether the plug there becomes another one, made anew."""
    return another_plug(old, reference, new, now) and not goes_over(old, reference, new, now)


def _contacts_fit(before: str | None, after: str | None) -> bool:
    """Whether the crimped contacts of one family lock in a housing of the other."""
    if before is None or after is None or before == after:
        return before == after
    fits = {part.number for part in contact_parts(after)}
    known = [part.number for part in contact_parts(before)]
    return bool(known) and fits.issuperset(known)  # of a family without a table of contacts nobody knows what locks


def end_can_move(old: Side, here: ContactKey, new: Side, there: ContactKey) -> bool:
    """Whether the end of a wire at one contact can go to another: a joint anew, or a contact of the same family."""
    before, after = old.terminations[here[0]], new.terminations[there[0]]
    if before.kind is not Kind.RECEPTACLE and after.kind is not Kind.RECEPTACLE:
        return not before.takes_plug and not after.takes_plug and Kind.CAPTIVE not in (before.kind, after.kind)
    if before.kind is not after.kind:
        return False
    if before.family != after.family:
        return goes_over(old, here[0], new, there[0])
    kind = plug_kind(before.family)
    return kind is EndKind.CUP or (kind is EndKind.CONTACT and releasable(before.family))


def _insulation(old: Side, was: int | None, new: Side, now: int | None) -> str:
    before, after = _over_insulation(old, was), _over_insulation(new, now)
    if before is not None and after is not None and before != after:
        return f"{before:g} mm over its insulation, {after:g} mm is stated"
    return ""


def _over_insulation(side: Side, gauge_awg: int | None) -> float | None:
    """What is stated of wire of this gauge."""
    return None if gauge_awg is None else side.craft.settings.limits.insulation_mm.get(gauge_awg)


def as_cable(side: Side, wires: Collection[Ends]) -> Cable:
    """Wires that no cable ties together, as one without a mark."""
    marks = sorted((side.leads[wire].mark for wire in wires), key=natural)
    met = {key[0] for wire in wires for key in wire}
    return Cable("", tuple(sorted(met, key=natural)), tuple(marks))
