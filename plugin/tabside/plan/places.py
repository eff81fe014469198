"""Where a cavity lies on face `tabs`, counted from the left: only where the drawing says enough, never guessed."""

from __future__ import annotations

from ..model.craft import Termination
from ..wiring.faces import RELEASE_SIDE, tabs_reversed


def places_from_left(end: Termination, ways: int) -> tuple[int, ...] | None:
    """The place from the left of each cavity from 1 up, release side facing you and leads hanging down.

    None when entry, release side or the side of contact 1 is not known, or when the row is not single.
    """
    if end.contact_1 is None or end.rows != 1 or (end.entry or "", end.tabs or "") not in RELEASE_SIDE:
        return None
    from_right = (end.contact_1 == "right") != tabs_reversed(end.entry or "", end.tabs or "")
    return tuple(range(ways, 0, -1)) if from_right else tuple(range(1, ways + 1))


def what_is_missing(end: Termination) -> str:
    """What one look at the real part must settle before a place can be counted from the left; "" when all is known."""
    missing = [
        words
        for known, words in (
            (end.entry, "whether the receptacle opens to the side or to the top (Entry)"),
            (end.tabs, "where the plug's release side faces when it is plugged in (Tabs)"),
            (end.contact_1, "on which side contact 1 lies (Contact 1)"),
        )
        if known is None
    ]
    return "; ".join(missing)
