"""Cuts a schematic's text into its lists and drops what carries no wiring, before anything is parsed.

All of it is regular expressions that never look back (possessive quantifiers), so that the time is proportional to the
text, and that know quoted strings, so that `"(effects"` in a note is text.  They see lists nested up to a fixed depth;
whatever they do not recognise is left in, which costs time, never content.
"""

from __future__ import annotations

import re
from collections.abc import Generator, Iterator

# kicad's lexer reads line by line: a quoted string ends on its line.
STRING = r'"[^"\\\n]*+(?:\\[^\n][^"\\\n]*+)*+"'


def _body(depth: int) -> str:
    """What may stand between the brackets of a list that holds lists nested up to `depth`."""
    inner = STRING if depth == 0 else rf"(?:{STRING}|\({_body(depth - 1)}\))"
    return rf'[^()"]*+(?:{inner}[^()"]*+)*+'


_AFTER_WORD = r'(?=[\s()"])'
_HEAD = re.compile(rf"\s*+\(\s*+kicad_sch{_AFTER_WORD}", re.ASCII)
_OPENING = re.compile(r'\(\s*+[^\s()"]++', re.ASCII)
_LIST = re.compile(rf'\s*+(\(\s*+([^\s()"]++){_AFTER_WORD}{_body(8)}\))', re.ASCII)
_LIBRARY = re.compile(rf"\s*+\(\s*+lib_symbols{_AFTER_WORD}", re.ASCII)
_END = re.compile(r"\s*+\)\s*+", re.ASCII)


LIBRARY_NAME = re.compile(rf"\(symbol\s++({STRING})", re.ASCII)


class NotSeen(Exception):  # noqa: N818 - no failure: the text is then read whole
    """The text is laid out, nested or damaged in a way that the expressions here do not follow."""


def lists_in(text: str) -> Iterator[tuple[str, str]]:
    """(head, text) of each list directly in the `(kicad_sch ...)` that `text` holds.

    Raises: NotSeen, possibly after some lists were given.
    """
    opening = _HEAD.match(text)
    if opening is None:
        raise NotSeen
    end = yield from _lists(text, opening.end())
    closing = _END.fullmatch(text, end)
    if closing is None:
        raise NotSeen


def lists_and_library(text: str) -> Iterator[tuple[str, str]]:
    """The same with the library's lists in its place, as "lib_symbols symbol": half of a file need not be seen twice.

    Raises: NotSeen, possibly after some lists were given.
    """
    opening = _HEAD.match(text)
    if opening is None:
        raise NotSeen
    match, at, within = _LIST.match, opening.end(), ""
    while True:
        if not within and (library := _LIBRARY.match(text, at)) is not None:
            at, within = library.end(), "lib_symbols "
        found = match(text, at)
        if found is not None:
            yield within + found[2], found[1]
            at = found.end()
        elif within and (closing := _END.match(text, at)) is not None:
            at, within = closing.end(), ""
        else:
            break
    if within or _END.fullmatch(text, at) is None:
        raise NotSeen


def lists_of(text: str) -> Iterator[tuple[str, str]]:
    """(head, text) of each list directly in the list that `text` is.  Raises: NotSeen."""
    opening = _OPENING.match(text)
    if opening is None:
        raise NotSeen
    end = yield from _lists(text, opening.end())
    if _END.fullmatch(text, end) is None:
        raise NotSeen


def _lists(text: str, at: int) -> Generator[tuple[str, str], None, int]:
    match = _LIST.match
    found = match(text, at)
    while found is not None:
        yield found[2], found[1]
        at = found.end()
        found = match(text, at)
    return at


class Trimmer:
    """Drops lists by the word that they begin with, wherever they stand, if they hold lists no deeper than `depth`."""

    def __init__(self, depth: int, *heads: str) -> None:
        dropped = rf'(?:{"|".join(heads)})(?=[\s()"])'
        self._kept = re.compile(
            # whitespace | a dropped list | a run of what is kept
            rf"\s++|\({dropped}{_body(depth)}\)"
            rf'|((?:\(|{STRING}|[^\s("]++)(?:[^\s("]++|{STRING}| (?! )|\((?!{dropped}))*+)',
            re.ASCII,
        )

    def trim(self, text: str) -> str:
        return " ".join(filter(None, self._kept.findall(text)))


_IN_SYMBOL = re.compile(
    # a field's name and value | a pin that only has an identity | what says nothing of wiring
    # | any other list
    rf"\(property\s++({STRING}\s++{STRING}){_AFTER_WORD}{_body(3)}\)"
    rf"|\(pin\s++{STRING}\s*+\(uuid [^()]*+\)\s*+\)"
    r"|\((?:fields_autoplaced|exclude_from_sim|in_pos_files)(?: [a-z]++)?\)"
    # (or one nested too deeply to be followed: its bare bracket makes parsing fail, and the file is read whole)
    rf'|(\({_body(5)}\)|\()|{STRING}|[^()"]++',
    re.ASCII,
)


def symbol_parts(text: str) -> tuple[str, list[str]] | None:
    """A placed symbol without its fields, and the fields, each as `"name" "value"` in quotes.

    None when its fields are written in a way that is not seen here: then the symbol is to be read whole.
    """
    fields, others = [], []
    start = text.index("symbol") + len("symbol")
    for field, other in _IN_SYMBOL.findall(text[start:-1]):
        if field:
            fields.append(field)
        elif other:
            others.append(other)
    rest = "(symbol " + "".join(others) + ")"
    return None if "property" in rest else (rest, fields)
