"""A decision on a cable as its fate: with what is done, in words."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from typing import NamedTuple

from tabside.compare.fates.cable_fate import (
    KEEP,
    MEASURED,
    MOVE_PLUG,
    RE_HOUSE,
    RE_PIN,
    RE_USE,
    CableFate,
    own_unfit_words,
)
from tabside.compare.fates.conversions import Conversion
from tabside.compare.fates.decision import Decision
from tabside.compare.fates.leads import LeadFates, with_made
from tabside.compare.matched.rebuild import Rebuild
from tabside.compare.reuse.wires import (
    SLACK,
    Ends,
    to_see,
    to_see_words,
)
from tabside.compare.side import Side
from tabside.facts import families
from tabside.model.natural import natural
from tabside.words.contacts import counted, listed


class Decided(NamedTuple):
    """What becomes of one old cable, and the leads as it uses them: what the next decision begins with."""

    fate: CableFate
    leads: LeadFates


def decided(
    rebuild: Rebuild, leads: LeadFates, conversion: Conversion, taken: Collection[tuple[Ends, Ends]] = ()
) -> Decided:
    """`taken`: wires of which one end goes into another plug, or is made anew."""
    fate = _fate(rebuild, leads, conversion, taken)
    return Decided(fate, with_made(leads, fate.made))


def _fate(
    rebuild: Rebuild, leads: LeadFates, conversion: Conversion, taken: Collection[tuple[Ends, Ends]]
) -> CableFate:
    decision = Decision(rebuild, leads, conversion, taken)
    moves = decision.what in (RE_PIN, RE_HOUSE, RE_USE, MOVE_PLUG)
    return CableFate(
        what=decision.what,
        old=decision.was,
        new=decision.now,
        said=" ".join(_said(decision)),
        wires=tuple(sorted(decision.wires, key=lambda pair: sorted(pair[1]))),
        made=tuple(sorted(decision.made, key=sorted)),
        gone=tuple(sorted(decision.gone, key=sorted)),
        places=tuple(decision.places.items()),
        moved=len(decision.hands) if moves else None,
        rehoused=tuple(decision.over),
        in_own_plug=tuple(sorted(decision.there_already, key=sorted)),
        unfit=tuple(sorted(decision.unfit.items(), key=lambda item: natural(item[0]))),
        replugged=tuple(decision.plugs.values()) if decision.only_plugged else None,
        untried=tuple(decision.untried) if decision.only_plugged else (),
    )


def _said(decision: Decision) -> Iterator[str]:
    yield from _said_of_plugs(decision)
    yield from _said_of_ends(decision)
    yield from _said_of_wires(decision)
    if decision.only_plugged:
        yield _replugged_words(decision.new, decision.untried)
    elif decision.what != KEEP:
        yield MEASURED


def _said_of_plugs(decision: Decision) -> Iterator[str]:
    old, new = decision.old, decision.new
    if decision.plugs and not decision.stays:
        yield f"Use the old cable of {' and '.join(old.name(end) for end in decision.was.ends)} here."
    for ref, to in decision.plugs.items():
        places = [old.name(ref), new.name(to)]
        if places[0] == places[1]:  # one reference for both: what is printed there tells them apart
            values = old.terminations[ref].value, new.terminations[to].value
            places = [f"{place} ({value})" for place, value in zip(places, values, strict=True)]
        yield f"Unplug it from {places[0]} and plug it into {places[1]}."
    if decision.replaced:
        names = ", ".join(new.name(decision.places[ref]) for ref in decision.replaced)
        yield f"What goes in at {names} has changed."
    for to in (decision.places[ref] for ref in decision.over):
        housing = f"{families.family(new.terminations[to].family or '').title} {new.terminations[to].ways}-way"
        yield f"Re-house: at {new.name(to)} its contacts go over into a {housing} housing."


def _said_of_ends(decision: Decision) -> Iterator[str]:
    contacts, joints = decision.contacts, len(decision.hands) - decision.contacts - decision.new_ends
    if contacts and not decision.over:
        yield f"Re-pin, {counted(contacts, 'contact')} to move: the steps name each wire."
    if joints > 0:
        yield f"Re-solder, {counted(joints, 'joint')} to move: the steps name each wire."
    if decision.new_ends:
        yield f"New ends to make: {decision.new_ends}; the steps name each wire."
    if decision.housings:
        yield f"It gets a new housing at {listed([decision.new.name(ref) for ref in decision.housings], 40)}."


def _said_of_wires(decision: Decision) -> Iterator[str]:
    old, new = decision.old, decision.new
    if decision.there_already or decision.unused:
        yield "Of the part's own plug another wire is used than before: it stays as it is."
    if decision.made or decision.gone:
        yield _said_of_made(decision)
        yield from sorted(f"One there is {why}." for why in decision.reasons)
    yield from _said_of_lengths(decision)
    for mark in sorted(decision.unfit, key=natural):
        yield own_unfit_words(mark, decision.unfit[mark])
    seen = {place for before, after in decision.wires for place in to_see(old, before, new, after)}
    if seen:
        yield to_see_words(sorted(seen, key=natural))


def _said_of_made(decision: Decision) -> str:
    if decision.made and not decision.wires:
        if all(map(decision.new.is_in_own_plug, decision.made)):
            return "The new part brings its own wires and its plug; the old cable goes."
        if decision.was.mark:
            return "All its wires are made new, and the old cable goes whole."
    counts = ((decision.made, "make"), (decision.gone, "take out"))
    said = [f"{counted(len(wires), 'wire')} to {do}" for wires, do in counts if wires]
    return f"{listed(said)}."


def _said_of_lengths(decision: Decision) -> Iterator[str]:
    """Wires that are too long by as much in one sentence."""
    marks: dict[str, list[str]] = {}
    for ends, spare in sorted(decision.shorter.items(), key=lambda item: natural(decision.new.leads[item[0]].mark)):
        marks.setdefault(f"{round(spare, 1):g} mm too long: {SLACK}", []).append(decision.new.leads[ends].mark)
    for words, alike in marks.items():
        yield f"{listed(alike, 40)} {'is' if len(alike) == 1 else 'are'} {words}"


def _replugged_words(new: Side, untried: Collection[str]) -> str:
    if not untried:
        return "Nothing in it changes."
    first = listed([new.name(to) for to in untried], 40)
    return f"Nothing in it changes; measure it at {first}, where no such plug has been."
