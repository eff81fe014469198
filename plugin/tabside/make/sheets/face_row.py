"""The row of a plug as it lies in the hand: cavity by cavity from the left, with contact 1's mark at its end.

Where the side is not known the row is counted from the mark, which then stands at its left, and nothing is meant by it.
"""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct

from tabside.make.sheets.cable_plan import HANDS, CableEnd, Step


class FaceBox(Struct, frozen=True):
    """One cavity."""

    number: str
    lead: str  # "" when it is empty
    here: bool  # the step works on it


class FaceRow(Struct, frozen=True):
    """Left to right, locking-tab side towards the person, wires down."""

    boxes: tuple[FaceBox, ...]
    mark_left: bool  # at which end contact 1 lies
    known: bool  # False: counted from the mark, left and right are not known
    parked: str  # lead that lies beside the housing
    housing: str  # "old", "new", ""


def face_of_step(step: Step, end: CableEnd) -> FaceRow | None:
    """The housing after the step, or as wires are tagged by it; None where neither is done, or no row of cavities."""
    if end.is_cup:
        return None
    if step.tags and any(step.occupancy):
        return face_of(step.occupancy, end)
    if step.action not in HANDS or step.cavity is None or not step.occupancy:
        return None
    return _row(step.occupancy, end, step.cavity, step.parked or "", step.housing)


def face_of(leads: Sequence[str | None], end: CableEnd) -> FaceRow:
    return _row(leads, end, None, "", "")


def _row(leads: Sequence[str | None], end: CableEnd, cavity: str | None, parked: str, housing: str) -> FaceRow:
    boxes = tuple(FaceBox(str(n), lead or "", str(n) == cavity) for n, lead in enumerate(leads, 1))
    left = end.contact_1_on_tabs != "right"
    known = end.contact_1_on_tabs is not None
    return FaceRow(boxes if left else boxes[::-1], left, known, parked, housing)
