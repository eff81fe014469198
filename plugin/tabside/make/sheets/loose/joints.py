"""Joints: one place after the other, with what can be measured in between."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from msgspec.structs import replace

from tabside.analysis.joined.lead_ends import EndKind, LeadEnd, MadeLead
from tabside.facts.colours import read_colour
from tabside.make.needs.crimping import strip_words
from tabside.make.sheets.cable_plan import Action
from tabside.make.sheets.loose.covers import COVERED, INTO_PLUGS, SHRINK_ON, inspect_words
from tabside.make.sheets.loose.loose_sheet import NOT_ON_THE_PART, LooseSheet
from tabside.make.sheets.step_list import Words
from tabside.make.sheets.when.late_joints import Shared, shared_place
from tabside.make.sheets.when.lead_joints import LeadJoint
from tabside.make.sheets.when.moments import soldering_order
from tabside.model.craft import Craft, Kind
from tabside.words.contacts import listed
from tabside.words.part_joints import pole_words
from tabside.words.signals import own_lead_words

POWER_HERE = "first power now, through a smoke stopper at this joint (see the page of first power); then "


class Company(NamedTuple):
    """What is joined together with a wire, and what is said before."""

    marks: Sequence[str] = ()  # all wires that meet there, at the first of their joints
    again: bool = False  # a later joint of the same place
    first: str = ""  # what comes off the bare ends before
    off: str = ""  # what is switched off and taken out again after the volts


ALONE = Company()


def solder_all(sheet: LooseSheet) -> None:
    """What carries no voltage: what is measured while it is soldered at one place alone is soldered there first."""
    cold, before, shown = sheet.cold, list[str](), list[str]()
    joints = list(_in_company([*sheet.late, *sheet.joints_now(cold)], sheet))
    sheet.test(sheet.moments.at_once(), "test now, before a joint of this sheet", cold)
    for termination in soldering_order({joint.end.key[0] for joint, _ in joints}, sheet.moments):
        here = [(joint, company) for joint, company in joints if joint.end.key[0] == termination]
        for joint, company in here:
            solder(joint, sheet, company)
        rows = sheet.moments.after([*before, termination], before)
        loose = "the loose plug for " if INTO_PLUGS & {joint.end.kind for joint, _ in here} else ""
        shown.append(f"{loose}{sheet.steps.shown(termination)}")
        sheet.test(rows, f"test now, with {listed(shown, len(shown))} soldered and the other ends loose", cold)
        before.append(termination)


def _in_company(joints: Sequence[LeadJoint], sheet: LooseSheet) -> Iterator[tuple[LeadJoint, Company]]:
    """Each with what meets it, told at the first joint of a place."""
    taped = {(joint.mark, shared_place(joint.end) or joint.end.key) for joint in sheet.late}
    joined: set[Shared] = set()
    for joint in joints:
        place = shared_place(joint.end)
        if place in joined:
            yield joint, Company(again=True)
            continue
        marks = [other.mark for other in joints if shared_place(other.end) == place] if place is not None else []
        off = [mark for mark in marks or (joint.mark,) if (mark, place or joint.end.key) in taped]
        yield joint, Company(marks, first=_tape_off(off, marks))
        joined |= {place} if place is not None else set()


def _tape_off(taped: Sequence[str], together: Sequence[str]) -> str:
    """Of all wires that are taped there."""
    if not taped:
        return ""
    return "take the tape off, " if len(together) < 2 else f"take the tape off {listed(list(taped), 40)}, "


def solder(joint: LeadJoint, sheet: LooseSheet, company: Company = ALONE) -> None:
    end, mark, shown = joint.end, joint.mark, sheet.steps.shown(joint.end.key[0])
    if end.kind in COVERED and not sheet.tube_is_elsewhere(joint):
        over = _one_tube(end, company.marks)
        sheet.steps.work_on(Action.SHRINK, end.key, mark, Words("slide heat-shrink on", sheet.at_end(end), over))
    brief, where = _solder_words(joint, sheet)
    if company.again:
        brief, where = "solder into the same joint", f" at {shown}"
    power = f"{company.off}{POWER_HERE if joint.at in sheet.facts.power.joints else ''}"
    words = Words(f"{company.first}{brief}", where, _side_by_side(end, company.marks), power)
    sheet.steps.work_on(Action.SOLDER, end.key, mark, words)


def _one_tube(end: LeadEnd, marks: Sequence[str]) -> str:
    if end.kind is not EndKind.INLINE or len(marks) < 2:
        return ""
    return f", one tube over {listed(list(marks), 40)} together"


def _side_by_side(end: LeadEnd, marks: Sequence[str]) -> str:
    """How the wires lie where several meet."""
    if len(marks) < 2:
        return ""
    if end.kind is EndKind.INLINE:
        return f": {listed(list(marks), 40)} together, into one joint"
    others = listed(list(marks[1:]), 40)
    return f": {marks[0]} from one side, {others} from the other, the bare ends side by side, all in one joint"


def _solder_words(joint: LeadJoint, sheet: LooseSheet) -> tuple[str, str]:
    """What is done, and where."""
    reference, contact = joint.end.key
    shown = sheet.steps.shown(reference)
    match joint.end.kind:
        case EndKind.SPLICE if sheet.facts.late.alone.get(reference) == joint.mark:
            return "tin the bare end", f" for splice {shown}, and tape it over: the pack's wire is laid along it later"
        case EndKind.SPLICE:
            return "solder", f" into splice {shown}"
        case EndKind.CUP if reference in sheet.packs.places:
            half = "solder into the half without bare pins (sockets), which belongs on the pack"
            return half, f": plug for {shown}, contact {contact}"
        case EndKind.CUP:
            return "solder", f" into the plug for {shown}, contact {contact}"
        case EndKind.MATE:
            return f"solder to the loose mating connector, {NOT_ON_THE_PART}", f": contact {contact} for {shown}"
        case EndKind.PAD:
            return "solder", f" to {shown} pad {contact}"
        case _:
            pole = pole_words(sheet.craft, joint.end.key)
            return "solder", f" to {shown} contact {contact}{f', {pole}' if pole else ''}"


def join_parts(made: MadeLead, sheet: LooseSheet) -> None:
    """Two parts' own wires, end to end; of two packs the other leads of both are covered meanwhile."""
    steps, mark, (own, other) = sheet.steps, made.lead.mark, made.ends
    name = own_lead_words(sheet.craft, other.key)
    board = sheet.craft.terminations[other.key[0]].board
    for beside in sorted(each for each, pack in sheet.packs.live.items() if pack == board and each != mark):
        seen = f"{board}'s other wire, {looks_of(beside, sheet.craft)}"
        steps.work(Action.INSULATE, own.key, mark, f"first tape over the end of {beside}, {seen}")
    strip, _ = strip_words(replace(other, kind=EndKind.SPLICE), made.lead.gauge_awg, sheet.craft.settings.cutting)
    steps.work(Action.STRIP, own.key, mark, f"strip {strip}", f" at its end for {name}")
    steps.work(Action.STRIP, other.key, mark, f"strip {name}, to which it is joined, as far")
    steps.work(Action.SHRINK, other.key, mark, "slide heat-shrink on", f" that goes over its joint with {name}")
    steps.work(Action.SOLDER, other.key, mark, f"solder it to {name}", ", the bare ends side by side")
    steps.test(other.key[0], inspect_words(mark, f"{steps.shown(other.key[0])} {other.key[1]}"))
    steps.work(Action.INSULATE, other.key, mark, SHRINK_ON, f", at {name}")


def looks_of(mark: str, craft: Craft) -> str:
    """How a pack's own wire is told before it carries a number: by its contact, its signal and its colour."""
    lead = next(lead for lead in craft.leads if lead.mark == mark)
    own = next((key for key in lead.ends if craft.terminations[key[0]].kind is Kind.CAPTIVE), lead.ends[0])
    colour = read_colour(lead.colour or "")
    told = filter(None, (own_lead_words(craft, own), colour.words if colour else ""))
    return ", ".join(told)
