"""Finds the line and column where a schematic file is damaged.  Slow and exact; used only when reading has failed."""

from __future__ import annotations

import re
from bisect import bisect_right
from typing import Any

from tabside.read.kicad.text.sexpr import Atom, Node

DEEPEST = 200  # lists within lists; kicad's own files go to about 12
# Lists that stand directly in (kicad_sch ...) and nowhere else: deeper down, one shows where a bracket is missing.
_TOP_LEVEL = frozenset(
    (
        *("wire", "bus", "bus_entry", "junction", "no_connect", "label", "global_label", "hierarchical_label"),
        *("netclass_flag", "lib_symbols", "sheet", "sheet_instances", "symbol_instances", "title_block", "paper"),
    )
)
_TOKEN = re.compile(
    r'[ \t\r\n\f\v]++|(?P<open>\()|(?P<close>\))|(?P<string>"[^"\\\n]*+(?:\\[^\n][^"\\\n]*+)*+")'
    r'|(?P<unclosed>")|(?P<atom>[^ \t\r\n\f\v()"]++)'
)

_TRUSTED = 1
_ODD_WORD = re.compile(r"[\[\]]|^'")


class Damage(Exception):  # noqa: N818 - it becomes a TabsideError with the file's name
    """What is wrong with a text, and where: line and column from 1."""

    def __init__(self, what: str, line: int, column: int) -> None:
        super().__init__(what)
        self.what = what
        self.line = line
        self.column = column


class PlacedList(list[Any]):
    """A list of the tree that knows where it begins and where each of its elements does (offsets in the text)."""

    __slots__ = ("offset", "offsets")

    def __init__(self, offset: int) -> None:
        super().__init__()
        self.offset = offset
        self.offsets: list[int] = []


class Text:
    """A file's text with its line starts."""

    def __init__(self, text: str) -> None:
        self.text = text
        self.first_odd_word = 0  # offset of the first bare word that sexpdata takes for something else
        self._starts = [0, *(found.end() for found in re.finditer("\n", text))]

    def line_and_column(self, offset: int) -> tuple[int, int]:
        line = bisect_right(self._starts, offset)
        return (line, offset - self._starts[line - 1] + 1)

    def damage(self, what: str, offset: int) -> Damage:
        return Damage(what, *self.line_and_column(offset))

    def tree(self) -> PlacedList:
        """The one list in the text, as `sexpr.parse` gives it, with places.

        Raises: Damage when brackets or quotes do not close, or when there is anything but one list.
        """
        tree: PlacedList | None = None
        open_lists: list[PlacedList] = []
        layout = _Layout(self)
        for token in _TOKEN.finditer(self.text):
            kind, offset = token.lastgroup, token.start()
            if kind is None:
                continue
            if kind == "unclosed":
                raise self.damage("a quoted text is not closed on its line", offset)
            if not open_lists and (tree is not None or kind == "close"):
                raise layout.first_oddity or layout.misplaced or self._past_the_end(kind, offset)
            if kind == "close":
                layout.look_at_closing(open_lists.pop(), offset)
                continue
            if kind == "open":
                node = PlacedList(offset)
                self._look_at_depth(open_lists, node)
                if open_lists:
                    _append(open_lists[-1], node, offset)
                else:
                    tree = node
                open_lists.append(node)
            elif not open_lists:
                raise self.damage("a schematic begins with (kicad_sch", offset)
            else:
                value = Atom(token[0]) if kind == "atom" else _unquoted(token[0])
                _append(open_lists[-1], value, offset)
                if kind == "atom" and not self.first_odd_word and _ODD_WORD.search(token[0]):
                    self.first_odd_word = offset
                self._look_for_missing_bracket(open_lists, layout)
        if open_lists:
            raise layout.first_oddity or layout.misplaced or self._never_closed(open_lists)
        if tree is None:
            raise Damage("the file is empty", 1, 1)
        return tree

    def of_node(self, what: str, node: Node | None, index: int | None) -> Damage:
        """A damage at a list of `tree()`, or at one of its elements."""
        if not isinstance(node, PlacedList):
            return Damage(what, 1, 1)
        if index is not None and index < len(node.offsets):
            return self.damage(what, node.offsets[index])
        return self.damage(what, node.offset)

    def _look_at_depth(self, open_lists: list[PlacedList], node: PlacedList) -> None:
        if len(open_lists) >= DEEPEST:
            raise self.damage(f"lists are nested more than {DEEPEST} deep", node.offset)

    def _past_the_end(self, kind: str, offset: int) -> Damage:
        if kind == "close":
            return self.damage("a bracket is closed that was never opened", offset)
        return self.damage("the schematic ends before this; a file holds one schematic only", offset)

    def _look_for_missing_bracket(self, open_lists: list[PlacedList], layout: _Layout) -> None:
        """Note when a list of the top level has just begun inside another one."""
        node = open_lists[-1]
        if layout.misplaced is not None or len(node) != 1 or len(open_lists) < 3 or node[0] not in _TOP_LEVEL:
            return
        unclosed = open_lists[1]
        if isinstance(node[0], Atom) and (_word(unclosed) in _TOP_LEVEL or _word(unclosed) == "symbol"):
            line, _ = self.line_and_column(node.offset)
            what = f"the list ({_word(unclosed)} is not closed before ({node[0]} in line {line}"
            layout.misplaced = self.damage(what, unclosed.offset)

    def _never_closed(self, open_lists: list[PlacedList]) -> Damage:
        innermost = open_lists[-1]
        line, column = self.line_and_column(innermost.offset)
        end = len(self.text.rstrip())
        return self.damage(f"the file ends before ({_word(innermost)} of line {line}, column {column} is closed", end)


class _Layout:
    """Where the brackets of a damaged file first depart from kicad's layout.

    KiCad closes a list either on the line where it began, or at the beginning of a line that is indented as that one.
    """

    def __init__(self, text: Text) -> None:
        self.first_oddity: Damage | None = None
        self.misplaced: Damage | None = None  # a list of the top level inside another one
        self._text = text
        self._kept = 0  # closings so far in kicad's layout: a file laid out otherwise says nothing

    def look_at_closing(self, node: PlacedList, offset: int) -> None:
        if self.first_oddity is not None or self._text.text.find("\n", node.offset, offset) < 0:
            return
        beginning, ending = self._indent(node.offset), self._indent(offset)
        if beginning is not None and beginning == ending:
            self._kept += 1
        elif self._kept >= _TRUSTED and beginning is not None:
            line, _ = self._text.line_and_column(node.offset)
            if ending is None or len(ending) > len(beginning):
                what = f"one bracket too many: this one closes ({_word(node)} of line {line}"
                self.first_oddity = self._text.damage(what, offset)
            else:
                closing, _ = self._text.line_and_column(offset)
                what = f"the list ({_word(node)} is not closed before line {closing}"
                self.first_oddity = self._text.damage(what, node.offset)
        else:
            self._kept = -1_000_000_000

    def _indent(self, offset: int) -> str | None:
        """What stands before the bracket on its line; None when that is more than blanks."""
        before = self._text.text[self._text.text.rfind("\n", 0, offset) + 1 : offset]
        return before if not before.strip(" \t") else None


def _append(parent: PlacedList, value: object, offset: int) -> None:
    parent.append(value)
    parent.offsets.append(offset)


def _word(node: Node) -> str:
    return str(node[0])[:30] if node and isinstance(node[0], str) else ""


def _unquoted(quoted: str) -> str:
    if "\\" not in quoted:  # nearly all: the parser takes its time for each
        return quoted[1:-1]
    from tabside.read.kicad.text.parsing import parse

    return str(parse(f"({quoted})")[0])
