"""What to get before the work, and by what a probe reaches a contact, as lines of a list."""

from __future__ import annotations

from collections.abc import Iterator

from tabside.compare.comparison import Comparison
from tabside.compare.work.parts.thing import Need
from tabside.facts import families
from tabside.make.buy.purchase import MILLIMETRES
from tabside.prove.continuity import ground_plugs_for, spare_plugs_for


def need_line(need: Need) -> str:
    stocked = need.to_buy is not None and need.to_buy != need.more
    there = f", {need.more - (need.to_buy or 0)} from stock" if stocked else ""
    note = f" ({need.note})" if need.note else ""
    thing = need.thing
    count = f"{need.more} mm of {thing.words}" if thing.unit == MILLIMETRES else f"{need.more} x {thing.item}"
    return f"{count}{there}{note}"


def spare_plugs(found: Comparison) -> Iterator[tuple[str, int | None, int]]:
    """What a probe needs where it may not be pushed into a contact: family, ways, and how many."""
    if found.build is not None:
        yield from spare_plugs_for(found.build.proof.world, found.measure)


def ground_plugs(found: Comparison) -> Iterator[tuple[str, int | None, str]]:
    """By what a probe reaches a board's known ground: family, ways, and the board connector it goes into."""
    if found.build is not None:
        yield from ground_plugs_for(found.build.proof.world, found.measure)


def spare_plug_lines(found: Comparison) -> Iterator[str]:
    """The same in words."""
    for family, ways, number in spare_plugs(found):
        size = f" {ways}-way" if ways else ""
        yield (
            f"{number} x spare mating connector with pigtails, {families.family(family).title}{size} "
            "(for tests: what the plug goes into, with a wire on each contact for the probes)"
        )
    for family, ways, place in ground_plugs(found):
        size = f" {ways}-way" if ways else ""
        yield (
            f"1 x spare cable plug with pigtails, {families.family(family).title}{size} "
            f"(for tests: it goes into {place}, a known ground is on it)"
        )
