"""Words and steps at live wires: marked, taped, and named by their places."""

from __future__ import annotations

from msgspec.structs import replace

from tabside.make.sheets.cable_plan import Action, Step


def place_words(step: Step) -> str:
    """ "power/J2 1", "F1 2"."""
    return f"{step.termination if step.board == step.termination else step.end} {step.cavity}"


def tape_words(step: Step) -> str:
    """Over a joint of a live wire."""
    return f"cover the joint at {place_words(step)} with tape"


def at_live_wire(near: Step, action: Action, lead: str, words: str, cavity: str | None = None) -> Step:
    """A step of words at a live wire, at the place of another one."""
    return replace(
        near,
        action=action,
        cavity=cavity,
        from_mark=None,
        from_left=None,
        lead=lead,
        listed=not (lead == near.lead and near.spare),
        spare=near.spare if lead == near.lead else "",
        colour=near.colour if lead == near.lead else None,
        occupancy=(),
        parked=None,
        full=words,
        short=words,
        who=f"{lead}: ",
        power="",
        wait=None,
        signal=near.signal if lead == near.lead else "",
        live=True,
        rows=(),
        housing="",
        swap="",
    )
