"""What goes over a joint once it was looked at, and over a bare end that waits."""

from __future__ import annotations

from collections.abc import Collection

from tabside.analysis.joined.lead_ends import EndKind, MadeLead
from tabside.make.needs.cable_jobs import soldered
from tabside.make.sheets.cable_plan import Action, Wait
from tabside.make.sheets.loose.loose_sheet import NOT_ON_THE_PART, LooseSheet
from tabside.make.sheets.step_list import StepList, Words
from tabside.make.sheets.when.lead_joints import LeadJoint

SHRINK_ON = "push the heat-shrink over the joint, 5 mm over the insulation, and shrink it"
COVERED = (EndKind.SPLICE, EndKind.INLINE, EndKind.CUP, EndKind.MATE)  # joints with nothing of a board around them
INTO_PLUGS = {EndKind.CUP, EndKind.MATE}
_MAGNIFIER = "look with a magnifier: no solder and no strand beyond this contact; then "


def cover(made: MadeLead, sheet: LooseSheet, seen: Collection[str]) -> None:
    """Heat-shrink over each joint that is made; tape over what waits.  `seen`: places that the eye has been to."""
    mark = made.lead.mark
    for joint in (LeadJoint(made, end) for end in made.ends):
        other = sheet.waits_for(joint)
        if other is None:
            cover_joint(joint, sheet, seen)
        elif mark not in sheet.packs.live or other != sheet.name:
            wait = Wait(other, last=joint.at in sheet.facts.last_joints)
            where = f" for {sheet.steps.shown(joint.end.key[0])}"
            words = Words("tape over the bare end", where, wait=wait)
            sheet.steps.work_on(Action.INSULATE, joint.end.key, mark, words)


def cover_joint(joint: LeadJoint, sheet: LooseSheet, seen: Collection[str]) -> None:
    """Source of the 5 mm: NASA-STD-8739.4, read in the document."""
    end = joint.end
    if sheet.gets_tape(joint):
        tape(joint, "cover the joint with tape", sheet.steps)
    if soldered(end) and end.kind in COVERED and not sheet.tube_is_elsewhere(joint):
        look = end.kind in INTO_PLUGS and end.key[0] in sheet.looked_at and end.key[0] not in seen
        brief = f"{_MAGNIFIER if look else ''}{SHRINK_ON}"
        place = f"{sheet.steps.shown(end.key[0])} {end.key[1]}"
        at = f"the loose mating connector for {place}, {NOT_ON_THE_PART}" if end.kind is EndKind.MATE else place
        sheet.steps.work(Action.INSULATE, end.key, joint.mark, brief, f", at {at}")


def tape(joint: LeadJoint, brief: str, steps: StepList) -> None:
    at = f" at {steps.shown(joint.end.key[0])} {joint.end.key[1]}"
    steps.work(Action.INSULATE, joint.end.key, joint.mark, brief, at)


def inspect(joint: LeadJoint, steps: StepList, seen: Collection[str]) -> None:
    """`seen`: places at which a row is for the eye now; in a plug the step of the cover says it."""
    reference, contact = joint.end.key
    if reference not in seen and joint.end.kind not in INTO_PLUGS:
        steps.test(reference, inspect_words(joint.mark, f"{steps.shown(reference)} {contact}"))


def inspect_words(mark: str, place: str) -> str:
    """A look at one joint before its cover, where no row looks there; common practice, no source."""
    return f"inspect {mark} at {place}: solder all round, none of it and no strand beyond it; tug it gently"
