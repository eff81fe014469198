"""Escapes of kicad's files that sexpdata does not know, and comments."""

from __future__ import annotations

import re

_ESCAPED = re.compile(r"\\(.?)", re.DOTALL)
_KNOWN = frozenset('nrtbf"\\')  # escaped signs that sexpdata reads as kicad does
_NUMBERED = r"\\x[0-9a-fA-F]{1,2}|\\[0-7]{1,3}"
_ESCAPE = rf'\\[nrtbf"\\]|((?:{_NUMBERED})++)|\\(.)'  # rarely met, so compiled only then, as the next two
_EACH_NUMBERED = r"\\x([0-9a-fA-F]{1,2})|\\([0-7]{1,3})"
_COMMENT = r"(?m)^[ \t\r\f\v]*+#[^\n]*+"
# A `#` at the start or behind a blank: looking for it first is sixteen times as fast as to look into each line.
_MAY_BE_COMMENT = re.compile(r"#(?<![^ \t\r\f\v\n]#)")


def plain(text: str) -> str:
    """The same text with kicad's escapes such as `\\x41` or `\\101` resolved, and with comments blanked out.

    KiCad writes only the escapes that sexpdata knows, and no comments, but reads the others too.
    """
    text = without_comments(text)
    if not _KNOWN.issuperset(_ESCAPED.findall(text)):
        text = re.sub(_ESCAPE, _resolved, text)
    return text


def without_comments(text: str) -> str:
    """The same text with blanks for comments: lines whose first character, after blanks, is `#`."""
    if _MAY_BE_COMMENT.search(text):
        return re.sub(_COMMENT, lambda comment: " " * len(comment[0]), text)
    return text


def _resolved(escape: re.Match[str]) -> str:
    if escape[1]:
        codes = bytes(
            int(found[1], 16) if found[1] else int(found[2], 8) & 0xFF
            for found in re.finditer(_EACH_NUMBERED, escape[1])
        )
        # The escapes give bytes of UTF-8.
        return "".join(map(_quoted, codes.decode("utf-8", "replace").replace("\0", "\N{REPLACEMENT CHARACTER}")))
    if escape[2]:
        # \x without a digit is x; of any other letter kicad keeps the backslash, as sexpdata does
        return {"a": "\a", "v": "\v", "x": "x"}.get(escape[2], escape[0])
    return escape[0]


def _quoted(character: str) -> str:
    return {'"': '\\"', "\\": "\\\\", "\n": "\\n", "\r": "\\r"}.get(character, character)
