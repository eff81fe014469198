"""What a part is made for, as its field `Rating` or its Value says: "30A", "30A 58V", "470u 35V"."""

from __future__ import annotations

import re
from collections.abc import Mapping

from msgspec import Struct

from tabside.model.names import run_together

# T40A, FF2A: how slow a fuse is stands before its amperes (IEC 60127; from memory, unverified); 7A5 is 7.5 A.
# A number of more than nine digits is no rating.
_AMPS = re.compile(
    r"(?<![\w.])(?:TT?|FF?|M)?(\d{1,9}(?:[.,]\d+)?)\s*(m?)A(?:(\d+)|mp(?:ere)?s?)?(?![\w])",
    re.IGNORECASE,
)
# The sizes of blade and bolted fuses, which are sold by their amperes without a unit.  Common practice, no source.
_BLADE = re.compile(
    r"(?<!\w)(?:ATO|ATC|ATOF|ATM|APM|APX|MINI|MAXI|MIDI|MEGA|ANL|BLADE)[ _-]+(\d{1,9}(?:[.,]\d+)?)(?!\s*\w)",
    re.IGNORECASE,
)
_VOLTS = re.compile(
    r"(?<![\d.,])(?:(\d{1,9}(?:[.,]\d+)?)\s*(k?)(?:V(?:DC)?W?|WV(?:DC)?)|(\d{1,3})V(\d))(?![\w])", re.IGNORECASE
)  # 5V0 is 5 V
RATING = "rating"


class PartRating(Struct, frozen=True):
    """None: not said."""

    amps: float | None
    volts: float | None


def read_rating(fields: Mapping[str, str], value: str) -> PartRating:
    """Of a part; what `Rating` says comes first, and Value says the rest."""
    first, second = _read(_stated(fields)), _read(value)
    return PartRating(
        first.amps if first.amps is not None else second.amps, first.volts if first.volts is not None else second.volts
    )


def unread_rating(fields: Mapping[str, str], value: str) -> str:
    """What `Rating` says, where it says neither amperes nor volts: "30", "1.5kA"; else "".

    Words without a number ("slow") are no such case where the Value has the figures.
    """
    stated = _stated(fields).strip()
    if stated in ("", "~") or _read(stated) != PartRating(None, None):
        return ""
    return stated if re.search(r"\d", stated) or _read(value) == PartRating(None, None) else ""


def _stated(fields: Mapping[str, str]) -> str:
    return next((text for name, text in fields.items() if _plain(name) == RATING), "")


def rating_words(fields: Mapping[str, str], value: str) -> str:
    """The same in words: "5 A, 58 V"; "" where nothing is said."""
    rating = read_rating(fields, value)
    said = ((rating.amps, "A"), (rating.volts, "V"))
    return ", ".join(f"{number:g} {unit}" for number, unit in said if number is not None)


def _plain(name: str) -> str:
    return run_together(name).lower()


def _read(text: str) -> PartRating:
    amps, volts = _AMPS.search(text), _VOLTS.search(text)
    return PartRating(
        _amps(amps) if amps is not None else _blade_amps(text),
        None if volts is None else _number(volts[1] or f"{volts[3]}.{volts[4]}") * (1000.0 if volts[2] else 1.0),
    )


def _blade_amps(text: str) -> float | None:
    blade = _BLADE.search(text)
    return None if blade is None else _number(blade[1])


def _amps(found: re.Match[str]) -> float:
    number = _number(f"{found[1]}.{found[3]}" if found[3] and found[1].isdecimal() else found[1])
    return number * (0.001 if found[2] else 1.0)


def _number(text: str) -> float:
    return float(text.replace(",", "."))
