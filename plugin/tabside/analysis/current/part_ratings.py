"""What a part is made for, as its field `Rating` or its Value says: "30A", "30A 58V", "470u 35V"."""

from __future__ import annotations

import re
from collections.abc import Mapping

from msgspec import Struct

_AMPS = re.compile(r"(?<![\w.])(\d+(?:[.,]\d+)?)\s*(m?)A(?:mp(?:ere)?s?)?(?![\w])", re.IGNORECASE)
_VOLTS = re.compile(r"(\d+(?:[.,]\d+)?)\s*(k?)V(?:DC)?(?![\w])", re.IGNORECASE)
RATING = "rating"


class PartRating(Struct, frozen=True):
    """None: not said."""

    amps: float | None
    volts: float | None


def read_rating(fields: Mapping[str, str], value: str) -> PartRating:
    """Of a part; what `Rating` says comes first, and Value says the rest."""
    stated = next((text for name, text in fields.items() if _plain(name) == RATING), "")
    first, second = _read(stated), _read(value)
    return PartRating(
        first.amps if first.amps is not None else second.amps, first.volts if first.volts is not None else second.volts
    )


def _plain(name: str) -> str:
    return re.sub(r"[\s_-]", "", name).lower()


def _read(text: str) -> PartRating:
    amps, volts = _AMPS.search(text), _VOLTS.search(text)
    return PartRating(
        None if amps is None else _number(amps[1]) * (0.001 if amps[2] else 1.0),
        None if volts is None else _number(volts[1]) * (1000.0 if volts[2] else 1.0),
    )


def _number(text: str) -> float:
    return float(text.replace(",", "."))
