"""Packs' own wires: last of all, one at a time, while they carry voltage."""

from __future__ import annotations

from collections.abc import Sequence

from tabside.analysis.joined.lead_ends import EndKind, MadeLead
from tabside.make.sheets.cable_plan import Action
from tabside.make.sheets.loose.covers import COVERED, cover, cover_joint, inspect, tape
from tabside.make.sheets.loose.joints import Company, join_parts, looks_of, solder
from tabside.make.sheets.loose.loose_sheet import LooseSheet
from tabside.make.sheets.loose.preparing import prepare
from tabside.make.sheets.when.pack_volts import Volts, power_off
from tabside.make.solve.lead_methods import is_of_two_parts
from tabside.prove.measurement import Measurement
from tabside.prove.rows.row_words import DC_VOLTS
from tabside.words.cautions import PACKS_WITHIN


def live_lead(made: MadeLead, sheet: LooseSheet, looks: Sequence[Measurement]) -> None:
    """Cut, strip, joint, look and cover in one go, while every other lead of the pack is covered."""
    mark = made.lead.mark
    own = next(end for end in made.ends if end.kind is EndKind.OWN)
    for other in sheet.packs.live_later[mark]:
        seen = f"{sheet.packs.live[mark]}'s other wire, {looks_of(other, sheet.craft)}"
        brief = f"first tape over the end of {other}; where it has no label yet, it is {seen}"
        sheet.steps.work(Action.INSULATE, own.key, mark, brief)
    prepare(made, sheet)
    if first := sheet.packs.equal_first.get(mark):
        there = next((end for end in made.ends if end.kind is not EndKind.OWN), made.ends[-1])
        sheet.steps.test(there.key[0], _equal_words(mark, first, sheet.steps.shown(there.key[0])))
    joints = sheet.joints_now((made,))
    for joint in joints:
        solder(joint, sheet)
    if is_of_two_parts(made):
        join_parts(made, sheet)
    sheet.test(looks, "inspect now, before the joint is covered", (made,))
    by_eye = {row.where.termination for row in looks}
    for joint in joints:
        inspect(joint, sheet.steps, by_eye)
    cover(made, sheet, by_eye)


def _equal_words(mark: str, other: str, place: str) -> str:
    return (
        f"measure volts now, {DC_VOLTS}, at the plug or pads beyond {place}: black on minus, red on plus, "
        f"where {other} is on already; then red on the bare end of {mark}: equal within "
        f"{PACKS_WITHIN}, or charge one of them first"
    )


def measure_volts(volts: Sequence[Volts], sheet: LooseSheet) -> str:
    """One bare end after the other.  Returns the wire whose end is left bare, with its fuse in; "" for none."""
    at = {joint.mark: joint for joint in sheet.last}
    here, bare, steps = _stripped_here(sheet), "", sheet.steps
    first = sheet.made_here[0].lead.a[0] if volts else ""
    for n, each in enumerate(volts):
        if each.wire in at and each.wire != bare and each.wire not in here:
            steps.untape(at[each.wire].end.key[0], each.wire)
        bare = each.wire
        steps.test(first, each.words(sheet.craft), each.rows)
        after = volts[n + 1 :]
        if after and each.gates:
            steps.label(first, power_off(each.gates))
            steps.beside_volts()
        if after and each.wire in at and after[0].wire != each.wire:
            again = "tape over the bare end again: it is soldered below"
            steps.work(Action.INSULATE, at[each.wire].end.key, each.wire, again)
            steps.beside_volts()
    return bare


def _stripped_here(sheet: LooseSheet) -> set[str]:
    """Packs' own wires whose ends are bare since a step of this sheet."""
    return sheet.packs.live.keys() & {made.lead.mark for made in sheet.made_here}


def last_joints(sheet: LooseSheet, looks: Sequence[Measurement], bared: str, gates: Sequence[str]) -> None:
    """What was bare for the meter: with the switch off and the fuse out again, where there are some.

    `bared`: the wire whose end is still bare; `gates`: what is still in and on for it.
    """
    off = f"{power_off(gates)}, then " if gates else ""
    joints = sorted(sheet.last, key=lambda joint: joint.mark != bared)
    here = _stripped_here(sheet)
    for n, joint in enumerate(joints):
        if joint.mark != bared and (joint.mark not in here or n):
            sheet.steps.untape(joint.end.key[0], joint.mark)
        solder(joint, sheet, Company(off=off if n == 0 else ""))
    if joints:
        sheet.test(looks, "inspect now")
    seen = {row.where.termination for row in looks}
    for joint in joints:
        inspect(joint, sheet.steps, seen)
        if joint.end.kind in COVERED and not sheet.tube_is_elsewhere(joint):
            cover_joint(joint, sheet, seen)
        else:
            tape(joint, "cover the joint with tape", sheet.steps)
