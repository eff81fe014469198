"""What is measured between the steps, and what can be measured before the joints are made."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence

from msgspec.structs import replace

from tabside.compare.work.hands.both_builds import BothBuilds
from tabside.compare.work.hands.work_sheet import WorkSheet
from tabside.compare.work.measuring.alone import boards_alone
from tabside.make.sheets.cable_plan import Action, Step
from tabside.make.sheets.step_list import StepList
from tabside.make.sheets.when.moments import is_volts
from tabside.model.craft import ContactKey
from tabside.prove.measurement import At, Measurement, RowKind, When, touched_leads

OF_ONE_CABLE = (When.LOOSE, When.SPLICED, When.PLUGGED, When.SOLDERED)
SECOND = "test now, with the joints made"


def add_test(
    sheet: WorkSheet,
    at: str,
    rows: Iterable[Measurement],
    words: str,
    soldered: Collection[ContactKey] = (),
    then: Iterable[Measurement] = (),
) -> None:
    """The rows that a meter may measure on one cable; `then`: what a later test of it measures."""
    builds, steps, cable = sheet.builds, sheet.steps, sheet.fate.new
    measured = [row for row in rows if row.when in OF_ONE_CABLE and not is_volts(row) and builds.hot.by_meter(row)]
    measured.sort(key=lambda row: row.when is When.PLUGGED)  # first those for which no plug goes in
    if measured and cable is not None:
        steps.test(at, words, builds.tests.again(measured, soldered))
        later = builds.later | boards_alone(then)
        steps.steps[-1] = builds.tests.made_possible(steps.steps[-1], cable.ends, later)


def add_planned(sheet: WorkSheet, planned: Sequence[Step]) -> None:
    """Steps of a sheet of the plan, with what its tests need."""
    builds, steps, cable = sheet.builds, sheet.steps, sheet.fate.new
    own = cable.ends if cable is not None else ()
    for n, step in enumerate(planned):
        later = builds.later.union(*(boards_alone(next_step.rows) for next_step in planned[n + 1 :]))
        told = replace(step, rows=tuple(builds.tests.again(step.rows)))
        steps.add(builds.tests.made_possible(told, own, later) if step.rows else step)


def can_be_made(builds: BothBuilds, row: Measurement, bare: Collection[ContactKey]) -> bool:
    """Whether the row can be measured before the joints: the bare ends that it touches are loose."""
    if row.when not in (When.LOOSE, When.SPLICED, When.PLUGGED) or row.soldered_first:
        return False
    if row.kind is RowKind.LOOK and bare:
        return False  # the joints are looked at as well
    touched = {(end.termination, end.contact) for end in row.ends if end.at is At.BARE}
    return (touched | builds.joints(row.leads)) <= set(bare)


def in_words_of_steps(rows: Iterable[Measurement], steps: StepList) -> tuple[Measurement, ...]:
    """The same rows as the steps tell them."""
    told = {row.id: row for step in steps.steps for row in step.rows}
    return tuple(told.get(row.id, row) for row in rows)


def joints_at_rows(builds: BothBuilds, rows: Iterable[Measurement]) -> set[ContactKey]:
    """Ends that are soldered by then, of all wires that the rows touch."""
    return builds.joints(mark for row in rows for mark in touched_leads(row))


def covers_taken_off(steps: StepList) -> list[Step]:
    """The steps that cover joints, taken off the end of the list."""
    first = len(steps.steps)
    while first and steps.steps[first - 1].action is Action.INSULATE:
        first -= 1
    covers, steps.steps[first:] = steps.steps[first:], []
    return covers
