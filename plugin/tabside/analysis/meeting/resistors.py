"""Resistors by their values: what `4k7` means, and which of them end a line."""

from __future__ import annotations

import math
import re

_OHMS = re.compile(r"(\d+(?:[.,]\d+)?)\s*([kKMR]?)(\d*)\s*(?:ohms?|Ω|Ω)?(?:\s.*)?", re.IGNORECASE)
TERMINATOR_OHM = (100.0, 140.0)  # 120 ohm for either bus; the spread takes 100 and 127 ohm in.  Common practice.


def read_ohm(text: str) -> float | None:
    """`4k7`, `4.7k`, `120R`, `1 kohm`, `2200`; None for what is no resistance."""
    found = _OHMS.fullmatch(text.strip())
    if found is None:
        return None
    number = float(f"{found[1].replace(',', '.')}{'.' + found[3] if found[3] and '.' not in found[1] else ''}")
    return number * {"k": 1e3, "m": 1e6}.get(found[2].lower(), 1.0) if math.isfinite(number) else None


def is_terminator(value: str) -> bool:
    """Whether a resistor of this value ends a CAN or RS-485 line."""
    ohm = read_ohm(value)
    return ohm is not None and TERMINATOR_OHM[0] <= ohm <= TERMINATOR_OHM[1]
