"""Escapes of kicad's files that sexpdata does not know, and comments."""

from __future__ import annotations

import re

_KNOWN = re.compile(r'\\[nrtbf"\\]|(\\)')  # what sexpdata reads as kicad does | the others
_NUMBERED = r"\\x[0-9a-fA-F]{1,2}|\\[0-7]{1,3}"
_ESCAPE = re.compile(rf'\\[nrtbf"\\]|((?:{_NUMBERED})++)|\\(.)')
_EACH_NUMBERED = re.compile(r"\\x([0-9a-fA-F]{1,2})|\\([0-7]{1,3})")
_COMMENT = re.compile(r"^[ \t\r\f\v]*+#[^\n]*+", re.MULTILINE)


def plain(text: str) -> str:
    """The same text with kicad's escapes such as `\\x41` or `\\101` resolved, and with comments blanked out.

    KiCad writes only the escapes that sexpdata knows, and no comments, but reads the others too.
    """
    text = without_comments(text)
    if "\\" in text and any(_KNOWN.findall(text)):
        text = _ESCAPE.sub(_resolved, text)
    return text


def without_comments(text: str) -> str:
    """The same text with blanks for comments: lines whose first character, after blanks, is `#`."""
    if "#" in text and _COMMENT.search(text):
        return _COMMENT.sub(lambda comment: " " * len(comment[0]), text)
    return text


def _resolved(escape: re.Match[str]) -> str:
    if escape[1]:
        codes = bytes(
            int(found[1], 16) if found[1] else int(found[2], 8) & 0xFF for found in _EACH_NUMBERED.finditer(escape[1])
        )
        # The escapes give bytes of UTF-8.
        return "".join(map(_quoted, codes.decode("utf-8", "replace").replace("\0", "\N{REPLACEMENT CHARACTER}")))
    if escape[2]:
        # \x without a digit is x; of any other letter kicad keeps the backslash, as sexpdata does
        return {"a": "\a", "v": "\v", "x": "x"}.get(escape[2], escape[0])
    return escape[0]


def _quoted(character: str) -> str:
    return {'"': '\\"', "\\": "\\\\", "\n": "\\n", "\r": "\\r"}.get(character, character)
