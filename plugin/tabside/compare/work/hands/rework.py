"""A cable of which wires are used again: joints off, contacts moved, ends made anew, tests, joints, covers."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from typing import NamedTuple

from tabside.analysis.joined.lead_ends import EndKind, MadeLead
from tabside.compare.changes.phases import is_phase
from tabside.compare.reuse.wires import Ends, shorter_by
from tabside.compare.work.hands.cavities import EndMove, Moves, fill, move_in_plug, move_over, moves_on
from tabside.compare.work.hands.ends_anew import make_up_to_joints, prepare, shorten, shorten_in_hand
from tabside.compare.work.hands.taking_off import lift
from tabside.compare.work.hands.testing import OF_ONE_CABLE, SECOND, add_test, can_be_made
from tabside.compare.work.hands.work_sheet import WorkSheet
from tabside.make.needs.cable_jobs import soldered
from tabside.make.sheets.cable_plan import Action, Step
from tabside.make.sheets.loose.covers import COVERED, SHRINK_ON, inspect_words
from tabside.make.sheets.loose.loose_steps import TEST_LOOSE
from tabside.model.craft import ContactKey
from tabside.prove.measurement import Measurement, touched_leads
from tabside.words.contacts import listed
from tabside.words.part_joints import pole_words

_NO_METER = "no meter tells a motor's wires apart, and two of them swapped turn it the other way"


class Joint(NamedTuple):
    """An end that is soldered when the loose ends have been measured."""

    at: ContactKey
    lead: str


def rework(sheet: WorkSheet, rows: Sequence[Measurement]) -> None:
    """`rows`: what is measured with this cable."""
    moves = moves_on(sheet)
    for move in moves.elsewhere:
        lift(sheet, move)
    too_long = {
        before for before, after in sheet.fate.wires if shorter_by(sheet.builds.old, before, sheet.builds.new, after)
    }
    too_long -= _move_contacts(sheet, moves, too_long)
    joints = _ends_that_stay(sheet, moves.elsewhere, too_long)
    made = [sheet.builds.made[sheet.builds.new.leads[wire].mark] for wire in sheet.fate.made]
    cold = [wire for wire in made if wire.lead.mark not in sheet.builds.live]
    planned = [step for wire in cold for step in make_up_to_joints(sheet, wire)]
    bare = sheet.builds.joints(wire.lead.mark for wire in cold) | {joint.at for joint in joints}
    second = _test_loose(sheet, rows, bare)
    tubes = _solder(sheet, joints, planned)
    _test_soldered(sheet, second)
    _see_phases(sheet, [*_in_cavities(sheet, moves), *joints])
    _inspect(sheet, joints, rows)
    sheet.steps.steps += [step for step in planned if step.action is Action.INSULATE]
    _shrink(sheet, tubes)
    _join_live(sheet, made)


def _move_contacts(sheet: WorkSheet, moves: Moves, too_long: Collection[Ends]) -> set[Ends]:
    """Plug by plug, those that get another housing first: what is shortened while it is out of both is given back."""
    builds, in_plugs = sheet.builds, dict(moves.in_plugs)
    marks = {builds.new.leads[after].mark: before for before, after in sheet.fate.wires if before in too_long}
    anew = {move.lead for move in moves.elsewhere if builds.is_new_end(move.wire, move.here, move.lead, move.there)}
    waiting = {mark for mark in marks if mark not in anew and not any(map(soldered, builds.made[mark].ends))}

    def between(lead: str, key: ContactKey) -> None:
        if lead in waiting and builds.is_crimped(lead, key):
            shorten_in_hand(sheet, lead, key)
            waiting.remove(lead)

    before = set(waiting)
    for ref in sheet.fate.rehoused:
        now = sheet.places[ref]
        move_over(sheet, now, in_plugs.pop(now, []), between)
    for reference, contacts in in_plugs.items():
        move_in_plug(sheet.steps, reference, contacts)
    return {marks[mark] for mark in before - waiting}


def _ends_that_stay(sheet: WorkSheet, moves: Sequence[EndMove], too_long: set[Ends]) -> list[Joint]:
    """Ends of wires that are there, up to their joints, which are given back."""
    builds = sheet.builds
    wires = {before: builds.new.leads[after].mark for before, after in sheet.fate.wires}
    joints = []
    for move in moves:
        if builds.is_new_end(move.wire, move.here, move.lead, move.there):
            prepare(sheet, move, shorter=move.wire in too_long)
            too_long = too_long - {move.wire}
        if builds.is_crimped(move.lead, move.there):
            sheet.steps.put_in(move.there, move.lead)
        else:
            joints.append(Joint(move.there, move.lead))
    for wire in (wire for wire in wires if wire in too_long):
        off = _joint_that_is_off(sheet, moves, wire)
        again = shorten(sheet, wires[wire], off=off)
        joints += [Joint(again, wires[wire])] if again is not None and again != off else []
    return joints


def _joint_that_is_off(sheet: WorkSheet, moves: Iterable[EndMove], wire: Ends) -> ContactKey | None:
    moved = (move for move in moves if move.wire == wire)
    return next((move.there for move in moved if sheet.builds.is_soldered(move.lead, move.there)), None)


def _test_loose(sheet: WorkSheet, rows: Iterable[Measurement], bare: Collection[ContactKey]) -> list[Measurement]:
    """What can be measured before the joints; what is left of one cable is given back."""
    given = list(rows)
    first = [row for row in given if can_be_made(sheet.builds, row, bare)]
    second = [row for row in given if row not in first and row.when in OF_ONE_CABLE]
    words = TEST_LOOSE if bare else "test the loose cable"
    add_test(sheet, next(iter(sheet.ends)), first, words, then=second)
    return second


def _solder(sheet: WorkSheet, joints: Iterable[Joint], planned: Iterable[Step]) -> list[Joint]:
    """Joints of wires that are there, then of new ones; where a tube waits for its place is given back."""
    builds, steps = sheet.builds, sheet.steps
    tubes: dict[str, Joint] = {}  # one for all wires of a splice
    for joint in joints:
        (reference, contact), kind = joint.at, builds.new_end(joint.lead, joint.at).kind
        if kind in COVERED:
            place = reference if kind is EndKind.SPLICE else f"{reference} {contact}"
            if tubes.setdefault(place, joint) == joint:
                steps.work(Action.SHRINK, joint.at, joint.lead, "slide new heat-shrink on")
        cup = reference in builds.new.plugged((joint.lead,))
        to = f"into the plug for {steps.shown(reference)}, contact" if cup else f"to {steps.shown(reference)}"
        fill(steps, joint.at, joint.lead)
        pole = pole_words(builds.build.craft, joint.at)
        steps.work(Action.SOLDER, joint.at, joint.lead, f"solder it {to} {contact}{f', {pole}' if pole else ''}")
    for step in planned:
        if step.action is Action.SOLDER and step.cavity:
            fill(steps, (step.termination, step.cavity), step.lead)
        if step.action is not Action.INSULATE:
            steps.steps.append(step)
    return list(tubes.values())


def _test_soldered(sheet: WorkSheet, second: Iterable[Measurement]) -> None:
    cable = sheet.fate.new
    soldered = sheet.builds.joints(cable.leads if cable is not None else ())
    add_test(sheet, next(iter(sheet.ends)), second, SECOND, soldered=soldered)


def _inspect(sheet: WorkSheet, joints: Iterable[Joint], rows: Iterable[Measurement]) -> None:
    """Joints that no row touches are looked at."""
    touched = {mark for row in rows for mark in touched_leads(row)}
    for joint in joints:
        reference, contact = joint.at
        if joint.lead not in touched and sheet.builds.new_end(joint.lead, joint.at).kind is not EndKind.SPLICE:
            sheet.steps.test(reference, inspect_words(joint.lead, f"{sheet.steps.shown(reference)} {contact}"))


def _in_cavities(sheet: WorkSheet, moves: Moves) -> Iterable[Joint]:
    """Contacts that are in another cavity now."""
    for reference, here in moves.in_plugs.items():
        yield from (Joint((reference, move.target), move.lead) for move in here if move.source != move.target)
    for move in moves.elsewhere:
        if sheet.builds.is_crimped(move.lead, move.there):
            yield Joint(move.there, move.lead)


def _see_phases(sheet: WorkSheet, joints: Iterable[Joint]) -> None:
    """No meter tells a motor's wires apart, so that no row says which of them is where."""
    at: dict[str, list[Joint]] = {}
    for joint in joints:
        if is_phase(sheet.builds.new, joint.at):
            at.setdefault(joint.at[0], []).append(joint)
    for reference, there in at.items():
        where = listed([f"{joint.lead} on {joint.at[1]}" for joint in sorted(there)])
        sheet.steps.test(reference, f"look at {sheet.steps.shown(reference)}: {where}; {_NO_METER}")


def _shrink(sheet: WorkSheet, tubes: Iterable[Joint]) -> None:
    for joint in tubes:
        place = f", at {sheet.steps.shown(joint.at[0])} {joint.at[1]}"
        sheet.steps.work(Action.INSULATE, joint.at, joint.lead, SHRINK_ON, place)


def _join_live(sheet: WorkSheet, made: Iterable[MadeLead]) -> None:
    """A pack's own wires as the plan makes them, last."""
    for wire in made:
        mark = wire.lead.mark
        if mark in sheet.builds.live:
            sheet.steps.steps += sheet.builds.wires.steps.get(mark, ())
