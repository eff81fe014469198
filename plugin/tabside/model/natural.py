"""Natural order: J2 before J10, contact 9 before contact 10."""

from __future__ import annotations

import re
from functools import lru_cache

_DIGITS = re.compile(r"(\d+)")


@lru_cache(maxsize=65536)  # of references and contacts, which are sorted again and again
def natural(text: str) -> tuple[tuple[int, int, str], ...]:
    """A sort key for references and contact numbers; numbers within the text sort by value.

    Long runs of digits are compared as they stand, so that no text is too long to compare.
    """
    return tuple(
        (0, len(part.lstrip("0")), part.lstrip("0")) if part.isascii() and part.isdigit() else (1, 0, part)
        for part in _DIGITS.split(text)
        if part
    )
