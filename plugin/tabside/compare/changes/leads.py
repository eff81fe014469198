"""Wires that do not stay as they are, each with what is done with it."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping

from tabside.compare.changes.change import ADDED, CHANGED, MOVED, REMOVED, Change
from tabside.compare.fates.leads import LeadFates, WireWork
from tabside.compare.matched.rebuild import Rebuild
from tabside.compare.reuse.wires import (
    SLACK,
    Ends,
    is_another_part,
    own_unfit,
    shorter_by,
    to_see,
    to_see_words,
    why_not,
)
from tabside.compare.side import LeadFacts, Side
from tabside.model.craft import Kind


def changes_of_leads(
    rebuild: Rebuild, fates: LeadFates, works: Mapping[Ends, WireWork], gone: Collection[Ends]
) -> Iterator[Change]:
    """A change for each lead that does not stay as it is, in the order of the new drawing, what goes first.

    `works`: what its cable does with each new lead; `gone`: old leads that leave their cable.
    """
    old, new = rebuild.old, rebuild.new
    for ends in fates.removed:
        bench = "Take it out of both ends." if ends in gone else "It stays in the part's own plug, unused."
        if ends in gone and old.is_own(ends):
            plug = old.is_in_own_plug(ends)
            bench = (
                "The part's own wire stays on it: unplug it." if plug else "Take its far end off: the part keeps it."
            )
        yield Change(REMOVED, "lead", old.lead_name(ends), _words(old, ends), None, bench)
    for before, after in fates.moved:
        bench = _move_words(old, new, works[after]) + _see_words(old, new, before, after)
        yield Change(MOVED, "lead", new.lead_name(after), old.lead_name(before), new.lead_name(after), bench)
    for before, after in fates.altered:
        bench = _alter_words(old, new, before, after, works[after])
        was, now = _told_apart(old, before, new, after)
        yield Change(CHANGED, "lead", new.lead_name(after), was, now, bench)
    for ends in fates.added:
        bench = "The part's own plug brings it along: test it from end to end."
        if works[ends].is_made:
            own = f"It is the part's own wire: the steps of {works[ends].name} say where its far end goes."
            bench = own if new.is_own(ends) else "Make it, and test it from end to end."
        yield Change(ADDED, "lead", new.lead_name(ends), None, _words(new, ends), bench)


def _told_apart(old: Side, before: Ends, new: Side, after: Ends) -> tuple[str, str]:
    """Before and now, with how the ends are made and what parts they are where all else is the same."""
    was, now = _words(old, before), _words(new, after)
    planned = old.gauge_worked_out(before), new.gauge_worked_out(after)
    if was == now and None not in planned and planned[0] != planned[1]:
        return f"{was}; {planned[0]} AWG worked out", f"{now}; {planned[1]} AWG worked out"
    if was == now:
        was, now = f"{was}; {_end_words(old, before)}", f"{now}; {_end_words(new, after)}"
    if was == now:
        was, now = f"{was}; of {_values(old, before)}", f"{now}; of {_values(new, after)}"
    return was, now


def _end_words(side: Side, wire: Ends) -> str:
    return " to ".join(end.words for end in side.made[wire].ends)


def _values(side: Side, wire: Ends) -> str:
    """The parts at its ends: they tell it from another where all else is the same."""
    return " and ".join(side.terminations[ref].value or side.name(ref) for ref, _ in side.leads[wire].ends)


def _words(side: Side, ends: Ends) -> str:
    facts = side.facts(ends)
    length = None if facts.length_mm is None else f"{facts.length_mm:g} mm"
    said = [
        f"{facts.gauge_awg} AWG" if facts.gauge_awg is not None else "",
        facts.colour or "",
        length or "",
    ]
    return ", ".join(text for text in said if text) or "gauge, colour and length not known"


def _move_words(old: Side, new: Side, work: WireWork) -> str:
    """By what is on its ends: a plug's contact is moved, a joint made anew; with its plug a wire moves as it is."""
    if not work.moves:
        test = "" if work.untouched else " Test it from end to end."
        return f"It stays in its plugs; {work.name} is plugged in elsewhere.{test}"
    said = []
    for here, there in work.moves:
        at, to = old.contact_name(here), new.contact_name(there)
        match old.terminations[here[0]].takes_plug, new.terminations[there[0]].takes_plug:
            case True, True:
                said.append(f"Move its contact from {at} to {to}.")
            case True, False:
                said.append(f"Take its contact out of {at}, cut it off, and solder the end to {to}.")
            case False, True:
                said.append(f"Unsolder it at {at}, crimp a contact on, and put it into {to}.")
            case _:
                said.append(f"Unsolder it at {at}, solder it to {to}.")
    return f"{' '.join(said)} Test it from end to end."


def _see_words(old: Side, new: Side, before: Ends, after: Ends) -> str:
    seen = list(to_see(old, before, new, after))
    said = f" {to_see_words(seen)}" if seen else ""
    why = own_unfit(old, before, new, after)
    said += f" The part's own wire is {why}: draw an extension, fit another part, or state what it is." if why else ""
    spare = shorter_by(old, before, new, after)
    return said + (f" It is {round(spare, 1):g} mm too long: {SLACK}" if spare else "")


def _alter_words(old: Side, new: Side, before: Ends, after: Ends, work: WireWork) -> str:
    why = why_not(old, before, new, after)
    if work.is_made and new.is_own(after) and old.is_own(before) and not is_another_part(old, before, new, after):
        return f"The part's own wire stays on it and gets a new far end: see {work.name}."
    if work.is_made and new.is_own(after) and old.is_own(before):
        return "The other part brings its own wire: the steps of its cable say when it goes on."
    if work.is_made and old.is_own(before):
        if all(new.terminations[reference].kind is not Kind.CAPTIVE for reference, _ in after):
            return "The old part's own wire goes with it: make this one, and test it from end to end."
        return "The part's own wire stays on it; what its plug goes into is made new."
    if why and work.is_made:
        return f"Make it again: the wire there is {why}."
    if why:
        return f"It stays and gets one new end: see {work.name}.{_see_words(old, new, before, after)}"
    if work.is_made:
        return "Make it again: what it goes into, or its cable, is another one."
    if work.over:
        return f"Its contact goes over into another housing: see {work.name}."
    return _see_words(old, new, before, after).strip() or _nothing_words(old.facts(before), new.facts(after))


def _nothing_words(was: LeadFacts, now: LeadFacts) -> str:
    if None not in (was.length_mm, now.length_mm) and (was.length_mm or 0.0) > (now.length_mm or 0.0):
        return "It is longer than is needed: tie back the slack."
    return "Nothing to do: less is stated of it than before."
