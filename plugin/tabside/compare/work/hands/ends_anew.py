"""Ends of wires that are cut, stripped and crimped: of wires that stay, and of new ones as the plan makes them."""

from __future__ import annotations

from tabside.analysis.joined.lead_ends import EndKind, MadeLead, soldered_into_plug
from tabside.compare.reuse.wires import JOINTS
from tabside.compare.work.hands.cavities import EndMove, in_row
from tabside.compare.work.hands.work_sheet import WorkSheet
from tabside.compare.work.lengths import shorten_words
from tabside.compare.work.worded import AT_JOINT, ON
from tabside.facts import families
from tabside.make.needs.cable_jobs import soldered
from tabside.make.needs.crimping import crimp_of, strip_words
from tabside.make.sheets.cable_plan import Action, Step
from tabside.make.sheets.loose.preparing import fit_contact_words
from tabside.make.sheets.step_list import Words
from tabside.model.craft import ContactKey

_IN_A_PLUG = (EndKind.CONTACT, EndKind.PLUG, EndKind.CUP, EndKind.MATE)


def prepare(sheet: WorkSheet, move: EndMove, *, shorter: bool) -> None:
    """The end of a wire that had a contact and is to be soldered now, or the other way, or gets another contact."""
    builds = sheet.builds
    was = builds.old_end(move.wire, move.here)
    off = "what has solder on it" if was.kind in JOINTS or was.kind is EndKind.CUP else "the contact"
    if shorter:
        words = shorten_words(builds.made[move.lead], move.there, builds.cutting)
    else:
        cut = f"cut {off} off, close to it"
        words = _reach_words(sheet, move, cut) or f"{cut}; that little the wire loses: see that it still reaches"
    sheet.steps.cut(move.there, move.lead, words)
    _strip(sheet, move.lead, move.there)
    if builds.is_crimped(move.lead, move.there):
        _crimp(sheet, move.lead, move.there)


def _reach_words(sheet: WorkSheet, move: EndMove, cut: str) -> str:
    """Of an end that goes to another place: nothing is cut off a wire that is too short for it."""
    builds = sheet.builds
    if builds.matching.pairs.get(move.here[0]) == move.there[0]:
        return ""
    length = builds.made[move.lead].lead.length_mm
    drawn = f" ({length:g} mm as drawn)" if length is not None else ""
    place = sheet.steps.shown(move.there[0])
    return f"lay it along its way to {place} first{drawn}: too short, stop and make a new wire; then {cut}"


def _strip(sheet: WorkSheet, mark: str, key: ContactKey) -> None:
    builds, steps = sheet.builds, sheet.steps
    length, beside = strip_words(builds.new_end(mark, key), builds.made[mark].lead.gauge_awg, builds.cutting)
    how = ": hold the wire beside it" if beside else ""
    where = f" at the end for {steps.shown(key[0])} {key[1]}"
    steps.work_on(Action.STRIP, key, mark, Words(f"strip {length}", where, how))


def _crimp(sheet: WorkSheet, mark: str, key: ContactKey) -> None:
    builds, steps = sheet.builds, sheet.steps
    family = builds.new_end(mark, key).family
    known = crimp_of(family or "", builds.made[mark].lead.gauge_awg) if family else None
    contact = (known.contact if known else "") or (families.family(family).title if family else "a new contact")
    tool = f" (hand tool {known.tool})" if known and known.tool else ""
    steps.work(Action.CRIMP, key, mark, f"crimp {contact}{tool}", f" at the end for {steps.shown(key[0])} {key[1]}")


def shorten(sheet: WorkSheet, mark: str, *, off: ContactKey | None) -> ContactKey | None:
    """At a soldered end when there is one, else at a plug whose contacts are crimped; else the rest is tied back.

    `off`: a joint of it that is off already.  Returns the joint that is to be soldered again.
    """
    made, steps = sheet.builds.made[mark], sheet.steps
    joints = [end for end in made.ends if soldered(end) and off in (None, end.key)]
    crimped = [end for end in made.ends if end.kind is EndKind.CONTACT]
    if not joints and not crimped:
        words = f"{mark} is longer than the {made.lead.length_mm:g} mm that are drawn: tie back the rest"
        steps.label(made.ends[0].key[0], words)
        return None
    end = (joints or crimped)[-1]
    if off is None and joints:
        place = f"{steps.shown(end.key[0])} {end.key[1]}"
        place = sheet.cup_words(end.key) if soldered_into_plug(end) else place
        steps.work(Action.TAKE_OUT, end.key, mark, f"unsolder it from {place}")
    elif not joints and in_row(steps, end.key):
        steps.take_out(end.key[0], int(end.key[1]), mark, parks=False)
    elif not joints:
        steps.work(Action.TAKE_OUT, end.key, mark, "take it out")
    if joints:
        steps.cut(end.key, mark, shorten_words(made, end.key, sheet.builds.cutting))
        _strip(sheet, mark, end.key)
        return end.key
    shorten_in_hand(sheet, mark, end.key)
    steps.put_in(end.key, mark)
    return None


def shorten_in_hand(sheet: WorkSheet, mark: str, key: ContactKey) -> None:
    """A crimped end that is out of its plug: it loses its contact, and gets another one."""
    sheet.steps.cut(key, mark, shorten_words(sheet.builds.made[mark], key, sheet.builds.cutting))
    _strip(sheet, mark, key)
    _crimp(sheet, mark, key)


def make_up_to_joints(sheet: WorkSheet, made: MadeLead) -> list[Step]:
    """As the plan makes this new wire, up to its joints, which are given back."""
    mark, steps = made.lead.mark, sheet.steps
    planned = sheet.builds.wires.steps.get(mark, ())
    for step in planned:
        if step.action is Action.PUT_IN and step.cavity:
            steps.put_in((step.termination, step.cavity), mark)
        elif step.action not in AT_JOINT:
            steps.steps.append(step)
    done = {(step.termination, step.cavity) for step in planned if step.action in ON}
    for end in made.ends:
        if end.kind in _IN_A_PLUG and end.key not in done:  # the plan does not know its plug
            steps.work(Action.CRIMP, end.key, mark, fit_contact_words(steps.shown(end.key[0])))
            steps.put_in(end.key, mark)
    return [step for step in planned if step.action in AT_JOINT]
