"""The measurements of one sheet, by the moment in the order of work at which they can be made."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence

from msgspec import Struct

from tabside.make.needs.cable_jobs import CableJob
from tabside.model.natural import natural
from tabside.prove.measurement import Measurement, RowKind, Test, When

_NEVER = (When.METER, When.CRAFT)  # not of one cable


class Moments(Struct, frozen=True):
    """Each measurement of the sheet once."""

    parts: tuple[Measurement, ...]  # in-line parts by themselves, before a wire is on them
    loose: tuple[Measurement, ...]  # nothing soldered yet
    half: tuple[Measurement, ...]  # with the terminations that they name soldered, and no other
    soldered: tuple[Measurement, ...]  # all soldered; the meter sends no volts of a pack
    craft: tuple[Measurement, ...]  # of the whole craft, before a pack is soldered to it
    last: tuple[Measurement, ...]  # for the eye, with the pack's leads on
    volts: tuple[Measurement, ...]  # of a pack, when all of its leads are on
    done: frozenset[str] = frozenset()  # places whose joints were all made on earlier sheets

    def at_once(self) -> tuple[Measurement, ...]:
        """Those of the half-soldered cable that wait for no joint of this sheet."""
        return tuple(row for row in self.half if self.done.issuperset(row.soldered_first))

    def after(self, soldered: Iterable[str], before: Iterable[str]) -> tuple[Measurement, ...]:
        """Those of the half-soldered cable that can be made now and could not be before."""
        now, then = {*soldered, *self.done}, {*before, *self.done}
        needed = [(row, set(row.soldered_first)) for row in self.half]
        return tuple(row for row, first in needed if first <= now and not first <= then)


def moments_of(
    job: CableJob,
    rows: Sequence[Measurement],
    live: Collection[str],
    joints: bool,
    elsewhere: Mapping[str, str],
) -> Moments:
    """`live`: marks of leads that carry voltage; `joints`: something is soldered here.

    `elsewhere`: id of a row -> label of the sheet on which it can be made, where that is not its own cable's.
    """
    mine = [
        row
        for row in rows
        if elsewhere.get(row.id, job.label) == job.label
        and (is_of(row, job) or row.id in elsewhere)
        and (row.when not in _NEVER or row.id in elsewhere)
        and not is_volts(row)
    ]
    parts = [row for row in mine if row.when is When.PART]
    craft = [row for row in mine if row.test is Test.SHORT]
    mine = [row for row in mine if row.when is not When.PART and row not in craft]
    live_looks = [row for row in mine if row.kind is RowKind.LOOK and live and set(row.leads) & set(live)]
    hot = any(made.lead.mark in live for made in job.leads)
    last = [row for row in mine if row in live_looks or (row.kind is RowKind.LOOK and hot and row.id in elsewhere)]
    looks = [row for row in mine if row.kind is RowKind.LOOK and joints and row not in last]
    meter = [row for row in mine if row not in last and row not in looks]
    return Moments(
        parts=tuple(parts),
        loose=tuple(row for row in meter if row.when in (When.LOOSE, When.PLUGGED) and not row.soldered_first),
        half=tuple(row for row in meter if row.when in (When.LOOSE, When.SPLICED, When.PLUGGED) and row.soldered_first),
        soldered=tuple(row for row in meter if row.when in (When.SOLDERED, When.PACK)) + tuple(looks),
        craft=tuple(craft),
        last=tuple(last),
        volts=(),
    )


def soldering_order(terminations: Iterable[str], moments: Moments) -> list[str]:
    """What is measured while it is soldered at one place alone is soldered there first."""
    first = {
        termination: min(
            (len(row.soldered_first) for row in moments.half if termination in row.soldered_first), default=99
        )
        for termination in terminations
    }
    return sorted(first, key=lambda termination: (first[termination], natural(termination)))


def is_of(row: Measurement, job: CableJob) -> bool:
    if row.cable is not None:
        return row.cable == job.mark
    marks = {made.lead.mark for made in job.leads}
    return job.mark is None and bool(row.leads) and set(row.leads) <= marks


def is_volts(row: Measurement) -> bool:
    return row.kind is RowKind.VOLTS or row.test is Test.VOLTS
