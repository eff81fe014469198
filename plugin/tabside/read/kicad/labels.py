"""Texts of labels: how they take part in a net's name, and text variables."""

from __future__ import annotations

import re
from collections.abc import Callable

from tabside.model.escapes import unescape

_VARIABLE = r"\$\{([^{}]*)\}"
_LONGEST = 10_000
_DEPTH = 10  # variables within variables; KiCad too gives up on circles


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
        expanded = re.sub(_VARIABLE, lambda found: found[0] if (got := value(found[1])) is None else got, text)
        if expanded == text:
            break
        text = expanded
    return text
