"""Steps of words alone that comparing puts between those of the plan, and what its rooms ask of any step."""

from __future__ import annotations

from collections.abc import Mapping

from msgspec.structs import replace

from tabside.make.sheets.cable_plan import Action, Step
from tabside.prove.measurement import Measurement

OFF = (Action.TAKE_OUT, Action.LEAVE_OUT)


def old_number(step: Step, olds: Mapping[str, str]) -> str | None:
    """Of the wire in hand; None of a new one.  `olds`: how steps call an old wire -> its number in the old drawing."""
    return olds.get(step.lead) or step.spare or None


def of_no_wire(near: Step, action: Action, words: str, rows: tuple[Measurement, ...] = ()) -> Step:
    """At the place of another step; its number comes with the sheet (`CableWork.with_steps`)."""
    step = Step(0, action, near.board, near.termination, None, None, None, "", False, None, (), None, words, words)
    return replace(step, rows=rows, of_old=near.of_old)
