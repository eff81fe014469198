"""Rows that no step names: which of them can be measured at all, and in which words."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from typing import NamedTuple

from msgspec.structs import replace

from tabside.compare.matched.rebuild import Rebuild
from tabside.compare.reuse.what_part import is_another
from tabside.compare.side import Side
from tabside.compare.work.cable_work import CableWork
from tabside.compare.work.measuring.spoiled_rows import SpoiledRows
from tabside.compare.work.packs.hot import Hot
from tabside.compare.work.packs.last_joint import from_ground, is_own_plug
from tabside.make.sheets.when.moments import is_volts
from tabside.prove.measurement import At, Measurement, RowKind, Section, When

ANOTHER = "of the new part, in the hand: not of the one that has wires on it"


def measurable(
    rows: Iterable[Measurement],
    cables: Iterable[CableWork],
    later: Collection[str],
    hot: Hot,
    rebuild: Rebuild,
) -> Iterator[Measurement]:
    """Without rows of no step that nobody can measure: volts that would be on a craft, a part with its wires on.

    `later`: rows that are told where a pack comes on again.
    """
    told = {row.id for work in cables for row in work.tested}
    stays, another = wired_before(rebuild)
    for row in rows:
        volts = is_volts(row) and (
            row.id in later or any(at.is_of(row) for at in hot.circuits if not at.has_plug or is_own_plug(row))
        )
        part = row.when is When.PART and row.where.termination in stays
        if row.when is When.PART and row.where.termination in another and row.kind is RowKind.BEEP:
            row = replace(row, notes=(ANOTHER, *row.notes))
        if row.id in told or not (
            volts or part or (row.kind is RowKind.BEEP and _at_soldered_pack(row, hot, rebuild.new))
        ):
            yield row


class WiredBefore(NamedTuple):
    """What had wires on it before, by the new references."""

    same: set[str]
    another: set[str]  # it is another part now


def wired_before(rebuild: Rebuild) -> WiredBefore:
    old, new, matching = rebuild
    there = [(was, now) for was, now in matching.pairs.items() if old.leads_at[was]]
    another = {now for was, now in there if is_another(old.terminations[was], new.terminations[now])}
    return WiredBefore({now for _, now in there} - another, another)


def _at_soldered_pack(row: Measurement, hot: Hot, new: Side) -> bool:
    """Whether it is metered where a pack's own plug goes on, and another pack is soldered to these wires."""
    places = frozenset[str]().union(*(at.places for at in hot.circuits))
    at = {end.termination for end in row.ends if end.at is At.CONTACT}
    return any(ref in places and new.terminations[ref].board in new.packs for ref in at)


def rows_of_no_cable(cables: Iterable[CableWork], rows: SpoiledRows) -> Iterator[Measurement]:
    """What is measured when all else is done; parts by themselves and volts have their own places."""
    known = {row.id for work in cables for row in (*work.measure, *work.tested)}
    for row in rows.all(known):
        looks_at_wires = row.kind is RowKind.LOOK and row.leads
        if row.id not in known and row.when not in (When.METER, When.PART) and not is_volts(row) and not looks_at_wires:
            yield row


def work_from_ground(work: CableWork, volts: Sequence[Measurement], hot: Hot) -> CableWork:
    """The joint of a pack's minus, covered by then, stays so in every look for a short."""
    steps = [replace(step, rows=tuple(from_ground(row, volts, hot) for row in step.rows)) for step in work.steps]
    rows = tuple(from_ground(row, volts, hot) for row in work.measure)
    return work.with_steps(steps)._replace(measure=rows)


def as_looked_at(work: CableWork, seen: Mapping[str, Measurement]) -> CableWork:
    """Labels are looked at where plugs go in, on the cable's sheet as well; of one that is not worked on nothing is."""
    if work.stopped:
        return work._replace(measure=())
    rows = (seen.get(row.id, row) for row in work.measure if row.group is not Section.PLUGGING or row.id in seen)
    return work._replace(measure=tuple(rows))


def with_rows_of_steps(work: CableWork) -> CableWork:
    """Each row that a step names stands in the cable's list."""
    known = {row.id for row in work.measure}
    more = {row.id: row for row in work.tested if row.id not in known}
    return work._replace(measure=(*work.measure, *more.values())) if more else work
