"""Where a figure comes from, and how far it may be trusted."""

from __future__ import annotations

import re
from collections.abc import Iterable
from enum import StrEnum
from functools import cache

from msgspec import Struct


class Grade(StrEnum):
    """How a figure was learnt, the most trusted first."""

    READ = "A"  # in the maker's document, or in the standard itself
    QUOTED = "B"  # by a public page or repository that names the document
    KICAD = "K"  # measured in KiCad's footprint library
    TRADE = "C"  # on a trade or community page
    COMPUTED = "computed"
    COMMON_PRACTICE = "CP"
    MEMORY = "MEM"
    NOT_FOUND = "not found"

    @property
    def words(self) -> str:
        """As said to a user beside the figure."""
        return _WORDS[self]

    def is_told_in(self, text: str) -> bool:
        """Whether a text says by itself what the grade says."""
        return any(word in text for word in _TOLD_BY.get(self, (self.words,)))


_TOLD_BY = {
    Grade.READ: ("text read",),
    Grade.QUOTED: ("quoted", "quoting", "citing", "transcribed"),
    Grade.KICAD: ("KiCad",),
    Grade.TRADE: ("trade",),
    Grade.COMMON_PRACTICE: ("common practice",),
    Grade.MEMORY: ("from memory",),
}
_WORDS = {
    Grade.READ: "read in the document",
    Grade.QUOTED: "quoted from the document",
    Grade.KICAD: "KiCad's footprint library",
    Grade.TRADE: "trade page",
    Grade.COMPUTED: "computed",
    Grade.COMMON_PRACTICE: "common practice, no source",
    Grade.MEMORY: "from memory",
    Grade.NOT_FOUND: "not found",
}
_PLACE = {grade: place for place, grade in enumerate(Grade)}  # the most trusted first
_LETTERS = {
    "A": Grade.READ,
    "B": Grade.QUOTED,
    "C": Grade.TRADE,
    "K": Grade.KICAD,
    "CP": Grade.COMMON_PRACTICE,
    "P": Grade.COMMON_PRACTICE,
    "MEM": Grade.MEMORY,
    "M": Grade.MEMORY,
}
_LETTER = r"\[(CP|MEM|[ABCKPM])(?:[ \]])"
_GRADED = r"\[(?:CP|MEM|[ABCKPM])(?:[: ]+([^\]]*))?\][ ]?"  # "[A] data sheet", "[B: public page]"
_GRADED_WITHIN = r"\[(CP|MEM|[ABCKPM])(?:[: ]+([^\]]*))?\]"
_ABOUT = r"([^:\[\]]{1,60}): (?=\[|from memory|common practice|computed)"


class SourcePart(Struct, frozen=True):
    """One source of a cell, and the figure it speaks about ("" = all figures beside the cell)."""

    about: str
    grade: Grade
    text: str

    @property
    def words(self) -> str:
        """As a person reads it: the grade in words, where the text does not say it by itself."""
        about = f"{self.about}: " if self.about else ""
        text = self.text.removeprefix(about)
        said = re.sub(_GRADED, _opened, text) if text not in _LETTERS else ""
        if not said:
            return f"{about}{self.grade.words}"
        return f"{about}{said}" if self.grade.is_told_in(said) else f"{about}{said}, {self.grade.words}"


class Source(Struct, frozen=True):
    """A source cell: the text as it stands, and its parts."""

    text: str

    @property
    def parts(self) -> tuple[SourcePart, ...]:
        return _parts(self.text)

    @property
    def words(self) -> str:
        """All parts as a person reads them: each with its grade in words, once."""
        return "; ".join(part.words for part in self.parts)

    @property
    def grade(self) -> Grade:
        """The least trusted of all parts."""
        return _weakest(part.grade for part in self.parts)

    def grade_for(self, about: str) -> Grade:
        """The grade of one figure: the parts that name it ("OD", "rating wire"), else those that name no figure.

        The least trusted counts when several parts apply, and all parts when none does.
        """
        named = [part.grade for part in self.parts if about and part.about.lower().startswith(about.lower())]
        general = [part.grade for part in self.parts if not part.about]
        return _weakest(named or general or [part.grade for part in self.parts])

    def is_hard_for(self, about: str) -> bool:
        return is_hard(self.grade_for(about))


NOT_FOUND = Source("not found")


def is_hard(grade: Grade) -> bool:
    """Whether a figure of this grade may raise an error; all others may raise a warning at most."""
    return grade in (Grade.READ, Grade.QUOTED, Grade.KICAD)


def read_source(cell: str) -> Source:
    """A source cell of any table.  Empty means that nothing was found."""
    return Source(cell) if cell else NOT_FOUND


@cache
def _parts(cell: str) -> tuple[SourcePart, ...]:
    """Few of all cells are ever asked for theirs."""
    parts: list[SourcePart] = []
    for text in _split(cell):
        part = _part(text)
        if part is not None:
            parts.append(part)
        elif parts:  # a text without a grade goes on about the source before it
            last = parts.pop()
            parts.append(SourcePart(last.about, last.grade, f"{last.text}; {text}"))
        else:
            parts.append(SourcePart("", Grade.MEMORY, text))
    return tuple(parts)


def _part(text: str) -> SourcePart | None:
    match = re.match(_ABOUT, text)
    about = match.group(1) if match else ""
    grade = _grade(text[match.end() :] if match else text)
    return None if grade is None else SourcePart(about, grade, text)


def _opened(letter: re.Match[str]) -> str:
    """What stands in the brackets beside the letter."""
    return letter[1] or ""


def grades_in_words(text: str) -> str:
    """A remark whose sentences end in letters: "mated height 2.00 mm [B]" gets the letter's words."""
    return re.sub(_GRADED_WITHIN, _grade_words, text)


def _grade_words(letter: re.Match[str]) -> str:
    words = _LETTERS[letter[1]].words
    return f"({letter[2]}, {words})" if letter[2] else f"({words})"


def _grade(text: str) -> Grade | None:
    """Of one part; None when it names none."""
    letter = re.match(_LETTER, text)
    if text.startswith("computed"):
        return Grade.COMPUTED
    if text.startswith("not found"):
        return Grade.NOT_FOUND
    if letter:
        return _LETTERS[letter.group(1)]
    if text in ("A", "B", "C", "K"):
        return _LETTERS[text]
    if "common practice" in text:
        return Grade.COMMON_PRACTICE
    return Grade.MEMORY if "from memory" in text else None


def _split(cell: str) -> list[str]:
    """At semicolons that stand neither in brackets nor in quotation marks."""
    if ";" not in cell:
        return [cell.strip()]
    parts, depth, quoted, start = [], 0, False, 0
    for place, letter in enumerate(cell):
        depth += (letter in "([") - (letter in ")]")
        quoted ^= letter == '"'
        if letter == ";" and depth == 0 and not quoted:
            parts.append(cell[start:place].strip())
            start = place + 1
    return [*parts, cell[start:].strip()]


def _weakest(grades: Iterable[Grade]) -> Grade:
    return max(grades, key=_PLACE.__getitem__, default=Grade.NOT_FOUND)
