"""Whether a part is another one by what the drawing says it is: its Value, its part number, what it is made for.

A Value that is only put in other words is the same: "red lamp", "Lamp, red".  One that says more than the other leaves
it open, as a part number does that only one drawing has: that is told, and looked at.
"""

from __future__ import annotations

import re
from enum import Enum
from functools import cache

from tabside.analysis.current.part_ratings import read_rating
from tabside.model.craft import Kind, Termination
from tabside.wiring.terminations.fields import field_key

_SYMBOLS = ("conn_", "connector", "~")  # names of KiCad's symbols in Connector and Connector_Generic
# How drawings call the number by which a maker sells a part; a shop's own number says nothing.  Common practice.
_NUMBER = re.compile(
    r"(?:mpn|pn|(?:mfr|mfg|manufacturer|maker)?part(?:number|no)?|(?:mfr|mfg|manufacturer)(?:number|pn))\Z"
)


class Told(Enum):
    """What two drawings say of one part."""

    SAME = "same"
    OPEN = "open"  # one says it, or says more of it
    ANOTHER = "another"


def part_number(termination: Termination) -> str:
    """As the drawing has it; "" for none."""
    for name, text in termination.fields.items():
        if _is_number(name) and text.strip() not in ("", "~"):
            return text.strip()
    return ""


@cache
def _is_number(field: str) -> bool:
    """By the field's name: the same few names stand in every part."""
    return _NUMBER.match(re.sub(r"[^a-z]", "", field_key(field))) is not None


def told_by_number(before: Termination, after: Termination) -> Told:
    """By part numbers alone."""
    numbers = [re.sub(r"[\s_-]", "", part_number(part)).casefold() for part in (before, after)]
    if numbers[0] == numbers[1]:
        return Told.SAME
    return Told.ANOTHER if all(numbers) else Told.OPEN


def told_by_value(before: Termination, after: Termination) -> Told:
    """By Values alone; the name of a symbol says nothing."""
    words = [_words(_said(part)) for part in (before, after)]
    if sorted(words[0]) == sorted(words[1]) and _figures(words[0]) == _figures(words[1]):
        return Told.SAME
    more = set(words[0]) < set(words[1]) or set(words[1]) < set(words[0])
    return Told.OPEN if more else Told.ANOTHER


def is_another(before: Termination, after: Termination) -> bool:
    """Of parts with their own wires, and of fuses, switches and the like between wires."""
    if told_by_number(before, after) is Told.ANOTHER:
        return True
    if before.kind is after.kind is Kind.INLINE:
        return _is_made_for_other(before, after)
    return told_by_value(before, after) is Told.ANOTHER


def _is_made_for_other(before: Termination, after: Termination) -> bool:
    """By amperes and volts, else by a type: a word with figures in it; "switch" and "toggle" may be one."""
    ratings = [read_rating(part.fields, part.value) for part in (before, after)]
    pairs = ((ratings[0].amps, ratings[1].amps), (ratings[0].volts, ratings[1].volts))
    known = [pair for pair in pairs if None not in pair]
    if known:
        return any(one != other for one, other in known)
    typed = all(re.search(r"\d", _said(part)) for part in (before, after))
    return typed and told_by_value(before, after) is Told.ANOTHER


def _said(part: Termination) -> str:
    return "" if part.value.casefold().startswith(_SYMBOLS) else part.value


def _words(text: str) -> list[str]:
    """Without what stands between them: "12.5A/58 V" is "12.5a", "58v"."""
    joined = re.sub(r"(?<=\d)\s+(?=(?:[mkµu]?[AVWF]|ohm|mm|mAh|Ah)\b)", "", text)
    return [word.strip(".") for word in re.split(r"[^\w.+]+", joined.casefold()) if word.strip(".")]


def _figures(words: list[str]) -> list[str]:
    """Bare numbers, whose order counts."""
    return [word for word in words if word.isdecimal()]
