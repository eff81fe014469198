"""Names as kicad stores them: escaped characters and text variables."""

from __future__ import annotations

import re
from collections.abc import Mapping

# Written by kicad instead of characters that have a meaning in net names and paths.
_CHARACTERS = {
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
# Braces behind ~ ^ _ $ are overbars, super- and subscripts, and variables: they stay.
_ESCAPED = re.compile(r"(?<![~^_$])\{([a-z]+)\}")
_VARIABLE = re.compile(r"\$\{([^{}]*)\}")


def unescaped(text: str) -> str:
    """The text with `{slash}` and its like as the characters that they stand for."""
    if "{" not in text:
        return text
    return _ESCAPED.sub(lambda found: _CHARACTERS.get(found[1], found[0]), text)


def expanded(text: str, variables: Mapping[str, str]) -> str:
    """The text with `${NAME}` replaced where the name is known; others stay as they are."""
    if "${" not in text:
        return text
    return _VARIABLE.sub(lambda found: variables.get(found[1], found[0]), text)


def unknown_variable(text: str, variables: Mapping[str, str]) -> str | None:
    """The first `${NAME}` in the text that is not known, None when there is none."""
    return next((found[0] for found in _VARIABLE.finditer(text) if found[1] not in variables), None)
