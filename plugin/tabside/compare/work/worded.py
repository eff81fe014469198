"""Steps of words alone that comparing puts between those of the plan, and what its rooms ask of any step."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from msgspec.structs import replace

from tabside.make.sheets.cable_plan import Action, Step
from tabside.prove.measurement import Measurement

ON = (Action.PUT_IN, Action.SOLDER)
BARED = (Action.CUT, Action.STRIP)  # what covered the end goes with what is cut off
OFF_BOARD = "off"  # as in `Step.swap`
OVER = "5 mm over the insulation"  # how far a cover goes, as in the plan
COVER = f"heat-shrink from a free end, else tape, {OVER}"
AT_JOINT = (Action.SHRINK, Action.SOLDER, Action.INSULATE)


def old_number(step: Step, olds: Mapping[str, str]) -> str | None:
    """Of the wire in hand; None of a new one.  `olds`: how steps call an old wire -> its number in the old drawing."""
    return olds.get(step.lead) or step.spare or None


def of_no_wire(near: Step, action: Action, words: str, rows: tuple[Measurement, ...] = ()) -> Step:
    """At the place of another step; its number comes with the sheet (`CableWork.with_steps`)."""
    step = Step(0, action, near.board, near.termination, None, None, None, "", False, None, (), None, words, words)
    return replace(step, rows=rows, of_old=near.of_old)


def of_wire(near: Step, action: Action, words: str) -> Step:
    """At the wire and the place of another step."""
    told = replace(near, full=words, short=words, who=f"{near.lead}: ", power="", wait=None)
    return replace(told, action=action, occupancy=(), rows=())


def with_tape(steps: Sequence[Step], off: int) -> tuple[Step, ...]:
    """A step that takes something off, and the tape over the bare end that comes with it."""
    step = steps[off]
    after = steps[off + 1 : off + 2]
    return (step, *(tape for tape in after if tape.action is Action.INSULATE and step.lead and tape.lead == step.lead))


def cut_cover_off(what: str) -> str:
    """In words; `what`: a joint, or a splice."""
    return f"cut the cover off {what}, clear of the wires' insulation"


def behind_joint(steps: Sequence[Step], joint: int) -> int:
    """Where a cover goes on: behind the joints, covers and tests that follow."""
    after = joint + 1
    while after < len(steps) and steps[after].action in (*AT_JOINT, Action.TEST):
        after += 1
    return after


def end_in_hand(steps: Sequence[Step], joint: int) -> int:
    """Where the end for the joint is taken into the hand: with its heat-shrink, which comes first."""
    first = joint
    while first and steps[first - 1].action is Action.SHRINK and steps[first - 1].lead == steps[joint].lead:
        first -= 1
    return first
