"""How KiCad stores characters of a label that would end a name: "{slash}" is "/"."""

from __future__ import annotations

import re

_ESCAPES = {
    "slash": "/",
    "backslash": "\\",
    "lt": "<",
    "gt": ">",
    "colon": ":",
    "dblquote": '"',
    "quote": "'",
    "bar": "|",
    "comma": ",",
    "space": " ",
    "dollar": "$",
    "tab": "\t",
    "return": "\n",
    "brace": "{",
}
# After ~ ^ _ and $ a brace belongs to an overbar, a raised or lowered text or a variable.
_ESCAPE = r"(?<![~^_$])\{(" + "|".join(_ESCAPES) + r")\}"


def unescape(text: str) -> str:
    """The text as a person reads it: "{slash}" is "/"."""
    if "{" not in text:
        return text
    return re.sub(_ESCAPE, lambda escape: _ESCAPES[escape[1]], text)
