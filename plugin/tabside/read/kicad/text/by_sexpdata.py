"""S-expressions by sexpdata alone: for text that holds more than KiCad writes, and to say what is wrong in it."""

from __future__ import annotations

import re

import sexpdata

from tabside.read.kicad.text.sexpr import Atom, BadBrackets, Node

# up to what ends a word for sexpdata; a backslash is a letter to kicad
_word = re.compile(r'[^()\[\]" \t\n\r\v\f]+').match


class _Parser(sexpdata.Parser):  # type: ignore[misc]
    """sexpdata's parser, with bare words and numbers kept as written, and no comments: kicad knows no `;`."""

    def __init__(self, text: str) -> None:
        super().__init__(text, nil=None, true=None, line_comment="\0")

    def parse_atom(self, i: int) -> tuple[int, Atom]:
        word = _word(self.string, i)
        assert word is not None  # the first character was looked at before
        return word.end(), Atom(word[0])


def by_sexpdata(text: str) -> Node:
    """The one list in `text`, as `parsing.parse` gives it.  Raises: BadBrackets."""
    try:
        found = _Parser(text).parse()
    except (
        sexpdata.ExpectClosingBracket,
        sexpdata.ExpectNothing,
        sexpdata.ExpectSExp,
        AttributeError,  # an unterminated string
        IndexError,  # a backslash at the end
        RecursionError,
    ) as e:
        raise BadBrackets(str(e)) from e
    if len(found) != 1 or not isinstance(found[0], list):
        raise BadBrackets("not one list")
    tree: Node = found[0]
    return tree
