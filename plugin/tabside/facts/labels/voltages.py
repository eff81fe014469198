"""Voltages written in labels: 5V, +3.3V, 3V3, 3P3V, 12V0, VCC_5V, 7-26V."""

from __future__ import annotations

import re
from collections.abc import Iterable
from functools import cache

from tabside.model.roles import Volts
from tabside.model.stated_limits import HIGHEST_V

# Rails that a name writes without the letter V: VCC5, VDD33 (of 3.3 V), V12.  Other numbers behind it count: VCC1, V2.
# Common practice, no source.
_NUMBER_V = {"5": 5.0, "12": 12.0, "24": 24.0, "48": 48.0, "33": 3.3, "50": 5.0, "18": 1.8, "28": 2.8}
_NUMBERED = re.compile(r"[AD]?V(?:CC|DD)?(?P<number>\d{1,2}|\d\.\d{1,2}|\dP\d{1,2})")
_LARGE = re.compile(r"(?:VIN|VM|VMOT|VS|VSUP|PWR|POWER|BEC|DC)(?P<number>12|24|48)")  # too high to be a count
_VALUE = r"(?:\d+V\d{1,2}|\d+P\d{1,2}V|\d+(?:\.\d+)?V)"
_WORD = re.compile(
    rf"(?P<before>VCC|VDD|VBUS|VUSB|USB|DC|VIN|VOUT|VSYS|PWR|BEC|V|P)?(?P<sign>[+-]?)(?P<value>{_VALUE})(?:DC|OLTS?|IN|OUT|O|BEC|SW|[ADPLS])?\+?"
)
_SIGNED = re.compile(r"(?:V?\+|\+V)(?P<value>\d+(?:\.\d+)?)")
_RANGE = re.compile(
    r"(?P<low>\d+(?:\.\d+)?)V?\s*(?:-|–|\.\.\.?|~|\bTO\b)\s*(?P<high>\d+(?:\.\d+)?)V(?:DC)?(?![A-Z0-9])"
)


@cache
def volts_of_word(word: str) -> Volts | None:
    """The voltage that one word of a label names; None when it names none.

    `+5`, `V+5` and `VCC5` name 5 V; a bare number does not.  A minus in front is a negative rail; zero is no rail.
    """
    found = _WORD.fullmatch(word)
    if found:
        value = _value(found.group("value"))
        return _volts(-value if found.group("sign") == "-" else value)
    signed = _SIGNED.fullmatch(word)
    if signed:
        return _volts(float(signed.group("value")))
    numbered = _NUMBERED.fullmatch(word) or _LARGE.fullmatch(word)
    return _by_number(numbered["number"]) if numbered else None


def counts_on(word: str, others: Iterable[str]) -> bool:
    """Whether the number behind VCC or V is a count: V5 beside V4, VCC5 beside VCC1."""
    own = _NUMBERED.fullmatch(word)
    if own is None:
        return False
    stem = word[: own.start("number")]
    counts = [other.removeprefix(stem) for other in others if other != word and other.startswith(stem)]
    return any(count.isdecimal() and count not in _NUMBER_V for count in counts)


def _by_number(number: str) -> Volts | None:
    if "." in number or "P" in number:
        return _volts(float(number.replace("P", ".")))
    volts = _NUMBER_V.get(number)
    return None if volts is None else _volts(volts)


def split_range(plain: str) -> tuple[Volts | None, str]:
    """A range of voltages in a label, and the label without it: `VIN 7-26V` is (7 to 26 V, "VIN")."""
    found = _RANGE.search(plain)
    if found is None:
        return None, plain
    low, high = float(found.group("low")), float(found.group("high"))
    if not low < high <= HIGHEST_V:
        return None, plain
    return Volts(low, high), (plain[: found.start()] + " " + plain[found.end() :]).strip(" _-()")


def _value(text: str) -> float:
    if "P" in text:  # 3P3V
        return float(text.rstrip("V").replace("P", "."))
    whole, _, rest = text.partition("V")
    return float(f"{whole}.{rest}") if rest else float(whole)


def _volts(value: float) -> Volts | None:
    return Volts(value, value) if 0.5 <= abs(value) <= HIGHEST_V else None
