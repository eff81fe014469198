"""Rows for the eye: only where hands were, and at plugs that go in or get another number."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Sequence

from tabside.compare.fates.cable_fate import KEEP
from tabside.compare.work.cable_work import CableWork
from tabside.documents.build import CraftBuild
from tabside.make.sheets.cable_plan import Action
from tabside.prove.measurement import Measurement, RowKind, When, touched_leads
from tabside.prove.rows.eye import look_again

_AT_JOINTS = (Action.TAKE_OUT, Action.LEAVE_OUT, Action.PUT_IN, Action.SOLDER, Action.INSULATE)


def idle_looks(cables: Sequence[CableWork]) -> set[str]:
    """Rows of looks at joints on which no hand was, where the wires of the row are measured all the same."""
    worked = {
        step.termination
        for work in cables
        for step in work.steps
        if step.action in _AT_JOINTS and step.cavity is not None and not step.of_old
    }
    rows = {row.id: row for work in cables for row in work.measure}
    stated = {row.id for work in cables if work.fate.what == KEEP or work.stopped for row in work.measure}
    idle = {key for key in rows.keys() - stated if _is_idle(rows[key], worked)}
    found: set[str] = set()
    for key in sorted(idle):
        others = [row for row in rows.values() if row.id != key and row.id not in found]
        if touched_leads(rows[key]) <= {mark for row in others for mark in touched_leads(row)}:
            found.add(key)
    return found


def looked_at(build: CraftBuild, cables: Collection[CableWork], rows: Iterable[Measurement]) -> Iterator[Measurement]:
    """Labels are held against printed names where a plug goes in or a cable gets another number."""
    plugs: set[str] = set()
    for work in cables:
        fate = work.fate
        if fate.new is None:
            continue
        renumbered = fate.old is not None and fate.old.mark != fate.new.mark
        whole = renumbered or (bool(work.steps) and (fate.replugged is None or bool(work.measure)))
        plugs |= set(fate.new.ends if whole else fate.replugged or ())
        plugs |= {aside.termination for step in work.steps for aside in step.unplug}
    for row in rows:
        seen = look_again(build.proof.world, row, plugs)
        if seen is not None:
            yield seen


def _is_idle(row: Measurement, worked: Collection[str]) -> bool:
    return row.kind is RowKind.LOOK and row.when is When.SOLDERED and row.where.termination not in worked
