"""Lengths as they are written on a page."""

from __future__ import annotations

import math


def tenths_up(length_mm: float | None) -> float | None:
    """The length in mm with one decimal, never rounded down: a lead must not come out short.  None stays None."""
    if length_mm is None:
        return None
    # Digits beyond the sixth are noise of the arithmetic: 0.1 + 0.2 mm is 0.3 mm, not 0.4 mm.
    return math.ceil(round(length_mm * 10, 6)) / 10


def length_words(length_mm: float | None) -> str:
    """ "234 mm", "length not known"."""
    length = tenths_up(length_mm)
    return "length not known" if length is None else f"{length:g} mm"
