"""Resistors by their values: what `4k7` means, and which of them end a line."""

from __future__ import annotations

import math
import re

# Figures behind the letter are a decimal's, as in 4k7: the letter stands where the mark would, and there is no other.
_OHMS = re.compile(
    r"(?:(?P<whole>\d+)(?P<mark>[kMR])(?P<part>\d+)|(?P<number>\d+(?:[.,]\d+)?)\s*(?P<unit>[kMR]?))"
    r"\s*(?:ohms?|Ω|Ω)?(?:\s.*)?",
    re.IGNORECASE,
)
PAIRS = ("can", "rs485", "pair")  # buses of two lines that a resistor ends
TERMINATOR_OHM = (100.0, 140.0)  # 120 ohm for either bus; the spread takes 100 and 127 ohm in.  Common practice.


def read_ohm(text: str) -> float | None:
    """`4k7`, `4.7k`, `120R`, `1 kohm`, `2200`; None for what is no resistance."""
    found = _OHMS.fullmatch(text.strip())
    if found is None:
        return None
    text = found["number"].replace(",", ".") if found["number"] else f"{found['whole']}.{found['part']}"
    number, letter = float(text), (found["mark"] or found["unit"]).lower()
    return number * {"k": 1e3, "m": 1e6}.get(letter, 1.0) if math.isfinite(number) else None


def is_terminator(value: str) -> bool:
    """Whether a resistor of this value ends a CAN or RS-485 line."""
    ohm = read_ohm(value)
    return ohm is not None and TERMINATOR_OHM[0] <= ohm <= TERMINATOR_OHM[1]
