"""Voltages written in labels: 5V, +3.3V, 3V3, 3P3V, 12V0, VCC_5V, 7-26V."""

from __future__ import annotations

import re

from tabside.model.roles import Volts
from tabside.model.stated_limits import HIGHEST_V

_VALUE = r"(?:\d+V\d{1,2}|\d+P\d{1,2}V|\d+(?:\.\d+)?V)"
_WORD = re.compile(
    rf"(?P<before>VCC|VDD|VBUS|VUSB|USB|DC|VIN|VOUT|VSYS|PWR|BEC|V|P)?(?P<sign>[+-]?)(?P<value>{_VALUE})(?:DC|IN|OUT|O|[ADPL])?\+?"
)
_SIGNED = re.compile(r"\+(?P<value>\d+(?:\.\d+)?)")
_RANGE = re.compile(
    r"(?P<low>\d+(?:\.\d+)?)V?\s*(?:-|–|\.\.\.?|~|\bTO\b)\s*(?P<high>\d+(?:\.\d+)?)V(?:DC)?(?![A-Z0-9])"
)


def volts_of_word(word: str) -> Volts | None:
    """The voltage that one word of a label names; None when it names none.

    `+5` names 5 V; a bare number does not.  A minus in front is a negative rail; zero is no rail.
    """
    found = _WORD.fullmatch(word)
    if found:
        value = _value(found.group("value"))
        return _volts(-value if found.group("sign") == "-" else value)
    signed = _SIGNED.fullmatch(word)
    return _volts(float(signed.group("value"))) if signed else None


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
