"""Resistors by their values: what `4k7` means, and which of them end a line."""

from __future__ import annotations

import math
import re

# Figures behind the letter are a decimal's, as in 4k7 and R100: the letter stands where the mark would, and there is no
# other.  R, K, M and G, and L for the thousandth of an ohm: IEC 60062; k beside K is what KiCad's libraries write.
# A small m is milli and a large one mega, as in the SI and in KiCad's symbols; mega is also Meg, as in its simulator.
# All of it from memory, unverified.
_OHMS = (
    r"(?:(?P<whole>\d*)(?P<mark>[RrkKMGLm])(?P<part>\d+)|(?P<number>\d+(?:[.,]\d+)?)\s*(?P<unit>[Mm][Ee][Gg]|[RrkKMGLm]?)R?)"
    r"\s*(?:[Oo][Hh][Mm][Ss]?|\u2126|\u03a9)?(?:\s.*)?"
)
_FACTORS = {"R": 1.0, "r": 1.0, "k": 1e3, "K": 1e3, "M": 1e6, "MEG": 1e6, "G": 1e9, "L": 1e-3, "m": 1e-3, "": 1.0}
PAIRS = ("can", "rs485", "pair")  # buses of two lines that a resistor ends
TERMINATOR_OHM = (100.0, 140.0)  # 120 ohm for either bus; the spread takes 100 and 127 ohm in.  Common practice.


def read_ohm(text: str) -> float | None:
    """`4k7`, `4.7k`, `120R`, `R100`, `100m`, `1 kohm`, `2200`; None for what is no resistance.

    A hundred `m` are a tenth of an ohm, and a hundred `M` a hundred million.
    """
    found = re.fullmatch(_OHMS, text.strip())
    if found is None:
        return None
    number = found["number"].replace(",", ".") if found["number"] else f"{found['whole'] or 0}.{found['part']}"
    letter = found["mark"] or found["unit"]
    ohm = float(number) * _FACTORS[letter.upper() if len(letter) > 1 else letter]
    return ohm if math.isfinite(ohm) else None


def is_terminator(value: str) -> bool:
    """Whether a resistor of this value ends a CAN or RS-485 line."""
    ohm = read_ohm(value)
    return ohm is not None and TERMINATOR_OHM[0] <= ohm <= TERMINATOR_OHM[1]
