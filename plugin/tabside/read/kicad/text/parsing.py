"""From text to nested lists, the same as sexpdata's parser gives."""

from __future__ import annotations

import re

from tabside.read.kicad.text.sexpr import Atom, Node

_tokens = re.compile(
    # a bracket | a quoted text | a word | whatever else there is
    r'[()]|"[^"\\]*+(?:\\.[^"\\]*+)*+"|[^()\[\]"\'\0 \t\n\r\v\f]++|[^ \t\n\r\v\f]',
    re.DOTALL,
).findall
_ESCAPED = {"n": "\n", "r": "\r", "t": "\t", "b": "\b", "f": "\f", '"': '"'}


class _Values(dict[str, str]):
    """Token -> word or text.  Nearly all of them come again and again."""

    def __missing__(self, token: str) -> str:
        if token[0] != '"':
            if token in "[]'\0":
                raise _NotPlain
            value: str = Atom(token)
        elif len(token) == 1:
            raise _NotPlain
        else:
            value = token[1:-1] if "\\" not in token else _unescaped(token[1:-1])
        self[token] = value
        return value


class _NotPlain(Exception):  # noqa: N818 - no failure: sexpdata then reads the text, or says what is wrong
    """Text that holds more than brackets, words and texts in quotes."""


def parse(text: str) -> Node:
    """The one list in `text`.

    The text may be nested only as deeply as Python's stack allows: callers look at the depth first.

    Raises: BadBrackets.
    """
    try:
        return _plain(text)
    except _NotPlain:
        from tabside.read.kicad.text.by_sexpdata import by_sexpdata  # KiCad writes nothing that needs it

        return by_sexpdata(text)


def _plain(text: str) -> Node:
    """The same as sexpdata gives, in a third of its time.  Raises: _NotPlain."""
    values = _Values()
    outer: list[Node] = []
    around: Node = []
    node = around
    add = node.append
    for token in _tokens(text):
        if token == "(":
            inner: Node = []
            add(inner)
            outer.append(node)
            node = inner
            add = node.append
        elif token == ")":
            if not outer:
                raise _NotPlain
            node = outer.pop()
            add = node.append
        else:
            add(values[token])
    if outer or len(around) != 1 or not isinstance(around[0], list):
        raise _NotPlain
    tree: Node = around[0]
    return tree


def _unescaped(text: str) -> str:
    """What stands between quotes; an escape that is not known keeps its backslash, as for sexpdata and KiCad."""
    first, *others = text.split("\\")
    found = [first]
    pieces = iter(others)
    for piece in pieces:
        if piece:
            found += (_ESCAPED.get(piece[0], "\\" + piece[0]), piece[1:])
        else:  # two backslashes: one
            found += ("\\", next(pieces, ""))
    return "".join(found)
