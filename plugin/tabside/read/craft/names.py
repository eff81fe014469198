"""How the craft file names links, contacts, families and ways: texts to values, or one line that says what is wrong."""

from __future__ import annotations

import re

from tabside.errors import TabsideError
from tabside.facts import families
from tabside.model.craft import Named
from tabside.model.natural import natural
from tabside.words.nearest import did_you_mean

_LINK = re.compile(r"(?P<board_a>.+)/(?P<a>[^/\s]+)\s+-\s+(?P<board_b>.+)/(?P<b>[^/\s]+)\Z")
_CONTACT = r"((?P<board>.+)/)?(?P<termination>[^/:]+):(?P<contact>[^:]+)\Z"
_BEFORE_NAME = re.compile(r":[^\s:]+(?= \()")


def link_ends(key: str, where: str, name: str) -> tuple[Named, Named]:
    """Both terminations of a link such as "pilot/J1 - drive/J2"; `where` is the key's path.  Raises: TabsideError."""
    match = _LINK.match(key)
    if match is None or ":" in match["a"] or ":" in match["b"]:
        raise TabsideError(f'{where}: write "board/J1 - board/J2"', file=name)
    return (Named(where, match["board_a"], match["a"]), Named(where, match["board_b"], match["b"]))


def references(ends: tuple[Named, Named]) -> tuple[str, str]:
    """The references of a link's terminations, in natural order."""
    a, b = sorted((end.termination or "" for end in ends), key=natural)
    return (a, b)


def contact(text: str, where: str, name: str) -> Named:
    """A contact such as "pilot/J1:2", or "BT1:1" of what is a board by itself; "pilot/J1:2 (TX)", as findings print it.

    Raises: TabsideError.
    """
    bare = text.strip()
    number = _BEFORE_NAME.search(bare) if bare.endswith(")") else None
    match = re.match(_CONTACT, bare if number is None else bare[: number.end()])
    if match is None:
        raise TabsideError(f'{where}: "{text}" is no contact; write "board/J1:2"', file=name)
    return Named(where, match["board"] or match["termination"], match["termination"], match["contact"])


def termination(text: str, where: str, name: str) -> Named:
    """A termination such as "pilot/J1".  Raises: TabsideError."""
    board, slash, reference = text.rpartition("/")
    if not (slash and board.strip() and reference.strip()) or ":" in reference:
        raise TabsideError(f'{where}: "{text}" is no termination; write "board/J1"', file=name)
    return Named(where, board, reference)


def family_and_ways(text: str, where: str, name: str) -> tuple[str, int]:
    """A plug such as "jst_sh 8".  Raises: TabsideError."""
    words = text.rsplit(maxsplit=1)
    if len(words) != 2 or not words[1].isdecimal() or not 1 <= int(words[1]) <= 200:
        raise TabsideError(f'{where}: "{text}" is no family and ways; write "jst_sh 8"', file=name)
    return (family(words[0], where, name), int(words[1]))


def family(text: str, where: str, name: str) -> str:
    """The id of a family.  Raises: TabsideError."""
    found = families.family_by_text(text)
    if found is None:
        right = families.family_ids()
        hint = did_you_mean(text.replace(" ", "_"), right, "see `tabside families`", alike=0.4, quote="`")
        raise TabsideError(f'{where}: "{text}" is no family that Tabside knows; {hint}', file=name)
    return found.id
