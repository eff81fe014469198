"""New numbers for cables and wires that are there, in an order in which no two of them ever carry the same one."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from enum import Enum, auto
from typing import NamedTuple

from tabside.analysis.joined.lead_ends import EndKind
from tabside.compare.fates.cable_fate import CableFate, becomes_of_cables, becomes_of_wires
from tabside.compare.matched.rebuild import Rebuild
from tabside.compare.reuse.wires import Ends, is_another_part
from tabside.compare.side import Side
from tabside.model.natural import natural
from tabside.words.spare_wires import spare_name

ASIDE = "X"  # written before the number of a wire or cable while that is needed and its new one is not free


class Renumber(Enum):
    """What is done to a tag."""

    OFF = auto()  # of a cable that becomes part of another one
    APART = auto()  # of a plug's leads that stay on the part which brings them, while the plug goes
    ASIDE = auto()  # marked for now, until its new number is free
    SPARE = auto()  # of a wire that is no longer used
    NEW = auto()


class Number(NamedTuple):
    """One tag that is changed."""

    how: Renumber
    was: str
    now: str  # "" where it comes off
    where: str  # the old cable, or the two ends of a wire, by which it is found
    into: str = ""  # the cable that it becomes part of, or the numbers under which its wires go on
    of_cable: bool = False  # it is the number of a cable, with nothing written before it
    first: str = ""  # in the old drawing, of what gets another number; `was` may have a mark before it by now


def new_numbers(rebuild: Rebuild, fates: Iterable[CableFate], named: Collection[str] = ()) -> tuple[Number, ...]:
    """Cables, then wires; those of which something goes on or whose number another one gets, there already or new.

    `named`: old numbers of wires that the steps call spare.
    """
    old, new = rebuild.old, rebuild.new
    listed = list(fates)
    laid_by = {fate.old.mark for fate in listed if fate.old is not None and _is_laid_by(rebuild, fate)}
    cables = {was: now for was, now in becomes_of_cables(listed).items() if was not in laid_by}
    retired = {fate.old.mark for fate in listed if fate.old is not None and fate.new is None}
    joins = {
        source: fate.name
        for fate in listed
        for source in fate.sources[1:]
        if source not in cables and source not in retired and source not in laid_by
    }
    wires = becomes_of_wires(rebuild, listed)
    stay_on = _own_of_parts_that_stay(rebuild, listed)
    wires |= {old.leads[wire].mark: mark for wire, mark in stay_on.items()}
    apart = _taken_apart(listed, stay_on)
    for fate in listed:
        own = own_again(rebuild, fate)
        wires |= {old.leads[wire].mark: mark for wire, mark in own.items()}
    wires = {was: now for was, now in wires.items() if was not in named}
    places = {cable.mark: " - ".join(old.name(end) for end in cable.ends) for cable in old.craft.cables}
    ends = {lead.mark: _where(old, lead.mark, places) for lead in old.craft.leads}
    left = {mark: where for mark, where in places.items() if mark not in joins and mark not in apart}
    return (
        *(
            Number(Renumber.OFF, mark, "", places[mark], joins[mark], of_cable=True)
            for mark in sorted(joins, key=natural)
        ),
        *(
            Number(Renumber.APART, mark, "", places[mark], apart[mark], of_cable=True)
            for mark in sorted(apart, key=natural)
        ),
        *_in_order(cables | wires, left | ends, set(left), {*_marks_of_cables(new), *new.by_mark, *named}),
    )


def own_again(rebuild: Rebuild, fate: CableFate) -> dict[Ends, str]:
    """A part's own wires that end elsewhere now: the part keeps them, whatever they are called."""
    return _goes_on(rebuild, fate.gone, fate.made)


def _goes_on(rebuild: Rebuild, gone: Iterable[Ends], made: Iterable[Ends]) -> dict[Ends, str]:
    """Another part brings others.  Where two parts' own wires are joined, the number is that of one of them.

    Of two own plugs in each other nothing goes on: what comes in their place is another pair.
    """
    old, new, matching = rebuild
    by_key = {key: wire for wire in made for key in new.own_ends(wire)}
    joined = [wire for wire in gone if any(end.kind is EndKind.OWN for end in old.made[wire].ends)]
    keys = [(wire, matching.key(key)) for wire in joined for key in sorted(old.own_ends(wire))]
    found: dict[Ends, Ends] = {}
    for wire, now in ((wire, by_key.get(key)) for wire, key in keys if key is not None):
        if now is None or wire in found or now in found.values():
            continue
        if not is_another_part(old, wire, new, now) and old.is_of_pack(wire) == new.is_of_pack(now):
            found[wire] = now
    return {wire: new.leads[now].mark for wire, now in found.items()}


def _own_of_parts_that_stay(rebuild: Rebuild, fates: Iterable[CableFate]) -> dict[Ends, str]:
    """The same where one sheet lets them go and another makes them: a plug is cut off, its wires are soldered on."""
    listed = list(fates)
    gone = [wire for fate in listed if not fate.pack_goes for wire in fate.gone]
    return _goes_on(rebuild, gone, [wire for fate in listed for wire in fate.made])


def _taken_apart(fates: Iterable[CableFate], stay_on: Mapping[Ends, str]) -> dict[str, str]:
    """Each old cable that is none any more, while a part's own wires in it go on, and their new numbers."""
    found = {}
    for fate in fates:
        marks = sorted((stay_on[wire] for wire in fate.gone if wire in stay_on), key=natural)
        if marks and fate.old is not None and fate.old.mark and fate.new is None:
            found[fate.old.mark] = " ".join(marks)
    return found


def _is_laid_by(rebuild: Rebuild, fate: CableFate) -> bool:
    """Whether another cable is made in its place, and nothing of the old one goes on."""
    nothing = not (fate.wires or fate.in_own_plug or fate.lends or own_again(rebuild, fate))
    return fate.new is not None and bool(fate.made) and bool(fate.gone) and nothing


def _marks_of_cables(side: Side) -> set[str]:
    return {cable.mark for cable in side.craft.cables}


def _where(old: Side, mark: str, places: Mapping[str, str]) -> str:
    lead = old.by_mark[mark]
    return places.get(lead.cable or "", "") or " - ".join(old.name(reference) for reference, _ in lead.ends)


def _in_order(
    becomes: Mapping[str, str], where: Mapping[str, str], cables: Collection[str], wanted: Collection[str]
) -> list[Number]:
    """What is no longer used and whose number is `wanted`, then the highest first, all of one cable where it can be.

    Each number is free when it is given; those of a cable that are in a ring are set aside together.
    """
    todo = {was: now for was, now in becomes.items() if was != now}
    held = set(where)
    carried = {was: was for was in todo}  # what stands on it now
    found: list[Number] = []

    def give(how: Renumber, was: str, now: str) -> None:
        of_cable = was in cables and carried.get(was, was) == was
        found.append(Number(how, carried.get(was, was), now, where[was], of_cable=of_cable, first=was))
        held.discard(carried.get(was, was))
        held.add(now)
        carried[was] = now

    for mark in sorted(held & set(wanted) - set(becomes), key=natural):  # it leaves the craft, or its cable
        give(Renumber.SPARE, mark, spare_name(mark))
    while todo:
        ready = [was for was, now in todo.items() if now not in held]
        here = [was for was in ready if found and where[was] == found[-1].where]
        if ready:
            was = max(here or ready, key=natural)
            give(Renumber.NEW, was, todo.pop(was))
            continue
        ring = [was for was in todo if carried[was] == was and _comes_round(was, todo)]
        place = where[max(ring, key=natural)]
        for was in sorted((was for was in ring if where[was] == place), key=natural, reverse=True):
            give(Renumber.ASIDE, was, f"{ASIDE}{was}")
    return found


def _comes_round(mark: str, todo: Mapping[str, str]) -> bool:
    """Whether those that wait for each other's number come back to this one."""
    seen, at = {mark}, todo[mark]
    while at in todo and at not in seen:
        seen.add(at)
        at = todo[at]
    return at == mark
