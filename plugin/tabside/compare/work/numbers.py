"""New numbers for cables and wires that are there, in an order in which no two of them ever carry the same one."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import NamedTuple

from tabside.compare.fates.cable_fate import CableFate, becomes_of_cables
from tabside.compare.side import Side
from tabside.model.natural import natural

ASIDE = "X"  # written on a wire or cable while its number is needed and its new one is not free
SPARE = "spare "  # before the number of a wire that is taken out


class Number(NamedTuple):
    """One tag that is changed."""

    was: str
    now: str
    where: str  # the old cable, or the two ends of a wire, by which it is found


def new_numbers(old: Side, new: Side, fates: Iterable[CableFate]) -> tuple[Number, ...]:
    """Cables, then wires; those of which something goes on or whose number another one gets."""
    listed = list(fates)
    cables = becomes_of_cables(listed)
    wires = {old.leads[a].mark: new.leads[b].mark for fate in listed for a, b in fate.wires}
    places = {cable.mark: " - ".join(old.name(end) for end in cable.ends) for cable in old.craft.cables}
    ends = {lead.mark: _where(old, lead.mark, places) for lead in old.craft.leads}
    return (
        *_in_order(cables, places),
        *_in_order(wires, ends),
    )


def _where(old: Side, mark: str, places: Mapping[str, str]) -> str:
    lead = old.by_mark[mark]
    return places.get(lead.cable or "", "") or " - ".join(old.name(reference) for reference, _ in lead.ends)


def _in_order(becomes: Mapping[str, str], where: Mapping[str, str]) -> list[Number]:
    """The highest first; each number is free when it is given, those in a ring by way of one that is set aside."""
    todo = {was: now for was, now in becomes.items() if was != now}
    held = set(where)
    found: list[Number] = []

    def give(was: str, now: str, at: str) -> None:
        found.append(Number(was, now, at))
        held.discard(was)
        held.add(now)

    spare = sorted((now for now in todo.values() if now in held and now not in becomes), key=natural)
    for mark in spare:  # it leaves the craft, or its cable
        give(mark, f"{SPARE}{mark}", where[mark])
    while todo:
        ready = [was for was, now in todo.items() if now not in held]
        if ready:
            was = max(ready, key=natural)
            give(was, todo.pop(was), where[was])
            continue
        was = max(todo, key=natural)
        now = todo.pop(was)
        give(was, ASIDE, where[was])
        while (holder := next((each for each, to in todo.items() if to not in held), None)) is not None:
            give(holder, todo.pop(holder), where[holder])
        give(ASIDE, now, where[was])
    return found
