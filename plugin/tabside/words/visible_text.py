"""Names of a drawing as a terminal may be shown them."""

from __future__ import annotations

import re

# Control characters move the cursor or change what follows; marks of direction turn the rest of the line about.
_UNSEEN = re.compile("[\x00-\x1f\x7f-\x9f\u061c\u200e\u200f\u2028\u2029\u202a-\u202e\u2066-\u2069]")


def visible(text: str) -> str:
    """The text with every control character and mark of direction written out: a name cannot rewrite the page."""
    return _UNSEEN.sub(lambda sign: f"\\u{ord(sign[0]):04x}", text)
