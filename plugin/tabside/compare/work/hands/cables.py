"""Each cable's sheet by what becomes of it: kept, put away, made whole, or changed."""

from __future__ import annotations

from collections.abc import Collection

from tabside.compare.fates.cable_fate import KEEP, CableFate
from tabside.compare.fates.packs import boards_that_go
from tabside.compare.work.cable_work import CableWork, each_once, numbered
from tabside.compare.work.hands.both_builds import BothBuilds
from tabside.compare.work.hands.cavities import fill
from tabside.compare.work.hands.labels import label_again, lay_ready, pen_new_plugs, twist
from tabside.compare.work.hands.own_leads import leads_to_look_at
from tabside.compare.work.hands.places import FREED, called, ends_of, freed_ends, old_ends
from tabside.compare.work.hands.plug_rows import looks_at, plug_rows
from tabside.compare.work.hands.plugging import clear, plug_in, unplug, unplug_to_measure
from tabside.compare.work.hands.refusals import own_plug_gone, why_stopped
from tabside.compare.work.hands.rework import rework
from tabside.compare.work.hands.taking_off import lend, take_off_joints, take_out
from tabside.compare.work.hands.testing import (
    SECOND,
    add_planned,
    add_test,
    covers_taken_off,
    in_words_of_steps,
    joints_at_rows,
)
from tabside.compare.work.hands.work_sheet import WorkSheet, sheet_of_changed
from tabside.compare.work.plugs import OLD
from tabside.make.sheets.cable_plan import CablePlan
from tabside.make.sheets.step_list import StepFacts, StepList
from tabside.make.sheets.when.moments import is_volts
from tabside.make.sheets.when.pack_volts import MEASURE_VOLTS
from tabside.model.craft import Cable
from tabside.model.natural import natural
from tabside.prove.measurement import Measurement

_Rows = tuple[Measurement, ...]


def work_on(builds: BothBuilds, fate: CableFate, rows: _Rows) -> CableWork:
    """The sheet of one cable, as the craft stands when its turn comes; `rows`: what is measured with it."""
    if fate.new is None:
        return _put_away(builds, fate, fate.old) if fate.old else CableWork(fate)
    if fate.what == KEEP:
        return _keep(builds, fate, fate.new, rows)
    if fate.wires:
        return _change(builds, fate, fate.new, rows)
    return _make(builds, fate, fate.new, rows)


def _keep(builds: BothBuilds, fate: CableFate, cable: Cable, rows: _Rows) -> CableWork:
    """A cable that stays as it is; `rows`: what must be measured on it all the same."""
    if fate.unfit:
        return CableWork(fate, (), rows, stopped=why_stopped(builds, fate))
    if not rows:
        return CableWork(fate)
    sheet = WorkSheet(builds, fate, StepList(ends_of(builds, cable), StepFacts()))
    plugged = builds.plug_ends(cable)
    plugs = [ref for ref in cable.ends if ref in plugged]
    unplug_to_measure(sheet, plugs)
    twist(sheet, cable)
    words = "test the cable: what the drawing says of it has changed"
    add_test(sheet, cable.ends[0], rows, words, soldered=builds.joints(cable.leads))
    label_again(sheet, cable)
    plug_in(sheet, plugs)
    steps = sheet.steps
    told = in_words_of_steps(rows, steps)
    return CableWork(fate, tuple(steps.steps), told, each_once(steps.ends))


def _put_away(builds: BothBuilds, fate: CableFate, old: Cable) -> CableWork:
    """The old cable, or single wires, leave the craft."""
    seats = {ref: builds.plugs.seat(ref) for ref in old.ends} if fate.pack_goes else {}
    goes = dict(builds.plugs_that_go_on) | {
        ref: seat if builds.takes_plug(seat) and builds.stays_in_plug(ref) else "" for ref, seat in seats.items()
    }
    freed = [ref for ref in seats if not goes[ref] and called(builds, fate, ref, "")]
    steps = StepList(old_ends(builds, old.ends) | freed_ends(builds, freed), StepFacts())
    # a plug in which other wires are stays
    places = {ref: f"{FREED if ref in freed else OLD}{ref}" for ref in old.ends}
    sheet = WorkSheet(builds, fate, steps, places=places)
    unplug(sheet, goes)
    if not fate.pack_goes:
        take_off_joints(sheet, old)
    taped = _take_out_of_plugs_that_stay(sheet, old)
    sheet.put_in_live_order()
    if fate.pack_goes and steps.steps and not _goes_on_elsewhere(builds, fate):
        at = f"{OLD}{old.ends[0]}"
        tape = ", its bare ends taped, each by itself" if taped else ""
        near = "" if _goes_alone(builds, fate) else f"{',' if tape else ''} before another one comes near"
        steps.label(at, f"put the pack away{tape}{near}")
    return CableWork(fate, numbered(steps.steps), (), each_once(steps.ends))


def _goes_on_elsewhere(builds: BothBuilds, fate: CableFate) -> bool:
    """Whether a later sheet parts the same pack from the craft: its balance plug, or other wires of its own."""
    going = [other for other in builds.fates if other.pack_goes]
    later = going[going.index(fate) + 1 :] if fate in going else []
    return any(boards_that_go(builds.old, (fate,)) & boards_that_go(builds.old, (other,)) for other in later)


def _goes_alone(builds: BothBuilds, fate: CableFate) -> bool:
    """Whether no other pack comes in its place."""
    own = {ref for wire in fate.gone for ref, _ in builds.old.own_ends(wire)}
    return not any(ref in builds.matching.pairs for ref in own)


def _take_out_of_plugs_that_stay(sheet: WorkSheet, old: Cable) -> bool:
    """Wires that go with a pack, but not with a plug; whether there are any."""
    side, fate = sheet.builds.old, sheet.fate
    along = side.plugged(old.leads) if old.mark else set()  # plugs that go with a whole cable
    own = [wire for wire in fate.gone if fate.pack_goes and not side.is_in_own_plug(wire)]
    bare = [wire for wire in own if not along & {ref for ref, _ in wire}]
    for wire in bare:
        for key in sorted(wire):
            take_out(sheet, wire, key, sheet.steps.spare(sheet.old_mark(wire)))
    return bool(bare)


def _make(builds: BothBuilds, fate: CableFate, cable: Cable, rows: _Rows) -> CableWork:
    """A cable of which no wire is there."""
    gone = own_plug_gone(builds, fate)
    if gone:
        return CableWork(fate, (), rows, stopped=gone)
    planned = builds.wires.whole.get(fate.name)
    places = old_ends(builds, fate.old.ends) if fate.old else {}
    steps = StepList(ends_of(builds, cable) | places, StepFacts())
    sheet = WorkSheet(builds, fate, steps)
    if fate.old is not None:
        unplug(sheet, builds.plugs_that_go_on)
        take_off_joints(sheet, fate.old)
    if planned is None or planned.stopped:
        why = "" if planned is None else planned.stopped
        return CableWork(fate, tuple(steps.steps), rows, each_once(steps.ends), sheet=planned, stopped=why)
    _make_as_planned(sheet, cable, planned, rows)
    return CableWork(
        fate,
        numbered(steps.steps),
        in_words_of_steps(rows, steps),
        each_once((*planned.ends, *steps.ends)),
        planned.needs_one_look,
        planned.rows,
        planned,
    )


def _make_as_planned(sheet: WorkSheet, cable: Cable, planned: CablePlan, rows: _Rows) -> None:
    builds, steps = sheet.builds, sheet.steps
    plugs = sorted(builds.plug_ends(cable), key=natural)
    clear(sheet, plugs)
    add_planned(sheet, planned.steps)
    told = {row.id for step in steps.steps for row in step.rows}
    left = [row for row in rows if row.id not in told]
    covers = covers_taken_off(steps)
    add_test(sheet, cable.ends[0], left, SECOND, soldered=joints_at_rows(builds, left))
    steps.steps += covers
    sheet.put_in_live_order()
    plug_in(sheet, plugs)


def _change(builds: BothBuilds, fate: CableFate, cable: Cable, rows: _Rows) -> CableWork:
    """A cable of which wires are used again."""
    stopped = why_stopped(builds, fate)
    if stopped:
        return CableWork(fate, (), rows, stopped=stopped)
    sheet = sheet_of_changed(builds, fate, cable)
    steps = sheet.steps
    _fill_plugs(sheet)
    before = {ref: steps.row(ref) for ref in sheet.ends}
    plugged, stay = builds.plug_ends(cable), _stays_in(builds, fate, cable, rows)
    clear(sheet, sorted(plugged - stay, key=natural))  # first: a plug in the hand may be called by such a connector
    unplug(sheet, sheet.places, stay)
    lend(sheet)
    _take_out_what_goes(sheet)
    lay_ready(sheet, cable)
    pen_new_plugs(sheet)
    twist(sheet, cable)
    rework(sheet, rows)
    for reference, words in leads_to_look_at(builds.new, fate):
        steps.test(reference, words)
    old_numbers = {name: sheet.old_mark(wire) for wire, name in sheet.names.items()}
    sheet.put_in_live_order(old_numbers, {sheet.ends[ref].name: row for ref, row in before.items()})
    label_again(sheet, cable)
    plug_in(sheet, [ref for ref in cable.ends if ref in plugged - stay])
    volts = [row for row in rows if is_volts(row)]
    if volts:
        steps.test(cable.ends[0], MEASURE_VOLTS, volts)
    done = numbered(steps.steps)
    return CableWork(
        fate,
        done,
        in_words_of_steps(rows, steps),
        each_once(steps.ends),
        looks_at(sheet, done),
        tuple(plug_rows(sheet, before, done)),
        old_leads=old_numbers,
        gauges=_gauges(sheet),
    )


def _gauges(sheet: WorkSheet) -> dict[str, int | None]:
    """Of the wires that are there, by how steps call them; of one without a gauge what is drawn now."""
    old, new = sheet.builds.old, sheet.builds.new
    now = {before: new.facts(after).gauge_awg for before, after in sheet.fate.wires}
    stated = {name: (old.facts(wire).gauge_awg, now.get(wire)) for wire, name in sheet.names.items()}
    return {name: after if before is None else before for name, (before, after) in stated.items()}


def _fill_plugs(sheet: WorkSheet) -> None:
    """What sits in them before the first step."""
    for wire, name in sheet.names.items():
        for key in wire:
            is_here = wire not in sheet.fate.lends or key[0] in sheet.places
            if is_here and not sheet.builds.plugs.is_loose(wire, key):
                fill(sheet.steps, sheet.at(key), name)


def _stays_in(builds: BothBuilds, fate: CableFate, cable: Cable, rows: Collection[Measurement]) -> set[str]:
    """Connectors whose plug stays where it is: no hand is on the cable but at plugs that go elsewhere."""
    if fate.replugged is None or rows:
        return set()
    return builds.plug_ends(cable) - set(fate.replugged)


def _take_out_what_goes(sheet: WorkSheet) -> None:
    """Wires that leave the cable."""
    for wire in sorted(sheet.fate.gone, key=lambda wire: natural(sheet.old_mark(wire))):
        for key in sorted(wire):
            if not sheet.builds.plugs.is_loose(wire, key):
                take_out(sheet, wire, key, sheet.names[wire])
