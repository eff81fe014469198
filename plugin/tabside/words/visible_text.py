"""Text of a drawing as people may be shown it: in a terminal, on a page, in a message."""

from __future__ import annotations

import re

# What has no shape of its own: control characters move the cursor, marks of direction turn the rest of the line about,
# and signs without width, tags, fillers and selectors make two names that differ look alike.
# Source: the Unicode character database, general categories Cc, Cf, Cs, Zl, Zp, and Default_Ignorable_Code_Point.
_UNSEEN = (  # not compiled before a text needs it
    "["
    "\x00-\x1f\x7f-\x9f\u00ad\u034f\u061c\u070f\u115f\u1160\u17b4\u17b5\u180b-\u180f"
    "\u200b-\u200f\u2028-\u202e\u2060-\u206f\u2800\u3164\ud800-\udfff\ufe00-\ufe0f\ufeff\uffa0\ufff0-\ufffb"
    "\U0001bca0-\U0001bca3\U0001d173-\U0001d17a\U000e0000-\U000e0fff"
    "]"
)


def visible(text: str) -> str:
    """The text with every sign that has no shape of its own written out: a name cannot rewrite the page."""
    return text if _is_plain(text) else re.sub(_UNSEEN, _escape, text)


def visible_lines(text: str) -> str:
    """The same, but for tabs and the ends of lines, which stay."""
    if _is_plain(text):
        return text
    return re.sub(_UNSEEN, lambda sign: sign[0] if sign[0] in "\t\n\r" else _escape(sign), text)


def _is_plain(text: str) -> bool:
    """Whether it is ASCII without control characters, as most texts are: that is seen in a tenth of the time."""
    return text.isascii() and text.isprintable()


def _escape(sign: re.Match[str]) -> str:
    number = ord(sign[0])
    return f"\\u{number:04x}" if number < 0x10000 else f"\\U{number:08x}"
