"""The answer of `tabside plan --json`."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from tabside.make.sheets.cable_plan import Action, CableEnd, CablePlan, Step
from tabside.words.cautions import CAUTIONS, ORDER_OF_WORK


def plan_json(cables: Iterable[CablePlan], *, cleared: bool) -> dict[str, Any]:
    """One JSON object; its keys stay."""
    return {
        "format": "tabside/plan/1",
        "cleared": cleared,
        "cautions": [*CAUTIONS, *ORDER_OF_WORK],
        "cables": [_cable(cable) for cable in cables],
    }


def _cable(cable: CablePlan) -> dict[str, Any]:
    return {
        "mark": cable.mark,
        "ends": [_end(end) for end in cable.ends],
        "method": cable.method.value,
        "start_from": cable.start_from,
        "start": None if cable.start is None else [list(pair) for pair in cable.start],
        "same_as": cable.same_as,
        "steps": [step_json(step) for step in cable.steps],
        "needs_one_look": list(cable.needs_one_look),
        "minutes": round(cable.minutes, 2),
        "cost": round(cable.cost, 2),
        "why": cable.stopped or cable.why,
        "cautions": list(cable.cautions),
    }


def _end(end: CableEnd) -> dict[str, Any]:
    return {"board": end.board, "termination": end.termination, "family": end.family, "ways": end.ways}


def step_json(step: Step) -> dict[str, Any]:
    """One step of the hands."""
    return {
        "step": step.number,
        "action": step.action.value,
        "end": step.end,
        "cavity": _number(step.cavity),
        "from_mark": step.from_mark,
        "from_left": step.from_left,
        "lead": step.lead if step.listed else None,
        "colour": step.colour,
        "signal": step.signal or None,
        "live": step.live,
        "words": step.words,
        "rows": [row.id for row in step.rows] if step.action is Action.TEST else None,
    }


def _number(text: str | None) -> int | str | None:
    return int(text) if text is not None and text.isascii() and text.isdigit() else text
