"""Texts of labels: KiCad's escapes for characters, and text variables."""

from __future__ import annotations

import re
from collections.abc import Callable

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
_ESCAPE = re.compile(r"(?<![~^_$])\{(" + "|".join(_ESCAPES) + r")\}")
_VARIABLE = re.compile(r"\$\{([^{}]*)\}")
_LONGEST = 10_000
_DEPTH = 10  # variables within variables; KiCad too gives up on circles


def unescape(text: str) -> str:
    """The text as a person reads it: "{slash}" is "/"."""
    if "{" not in text:
        return text
    return _ESCAPE.sub(lambda escape: _ESCAPES[escape[1]], text)


def net_text(text: str) -> str:
    """The text as it takes part in a net's name: one spelling for equal texts, no line breaks, "/" escaped.

    The escaped slash keeps the text apart from the path of sheets before it.
    """
    plain = unescape(text)
    if "\n" in plain or "\r" in plain:
        plain = plain.replace("\n", "").replace("\r", "")
    return plain.replace("/", "{slash}") if "/" in plain else plain


def shown_name(name: str) -> str:
    """A net's name as KiCad shows it."""
    return name.replace("{slash}", "/")


def expand(text: str, value: Callable[[str], str | None]) -> str:
    """The text with each ``${NAME}`` replaced by its value; names without a value stay as they are."""
    if "${" not in text:
        return text
    for _ in range(_DEPTH):
        if len(text) > _LONGEST:
            break  # a circle that grows
        expanded = _VARIABLE.sub(lambda found: found[0] if (got := value(found[1])) is None else got, text)
        if expanded == text:
            break
        text = expanded
    return text
