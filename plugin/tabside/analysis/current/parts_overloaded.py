"""Parts between a supply and ground that its volts are too much for: resistors, bare lights, diodes that conduct."""

from __future__ import annotations

import re
from collections.abc import Iterator

from msgspec import Struct

from tabside.analysis.current.part_ratings import read_rating
from tabside.analysis.current.parts_on_rails import DIODES, Across, is_light, parts_across
from tabside.analysis.joined.joints import letters_of
from tabside.analysis.judgement import Judgement
from tabside.analysis.meeting.diodes import CATHODE, pole_of
from tabside.analysis.meeting.resistors import read_ohm

UNSTATED_W = 0.5  # what a resistor of which nothing is said takes at most; common practice, no source
_GLOWS_W = 5.0  # more than any small resistor takes; common practice, no source
CONDUCTS_AT = 1.25  # times the volts that a suppressor or a Zener diode is named by; common practice, no source
_WATTS = re.compile(r"(?<![\w.,])(\d{1,4}(?:[.,]\d+)?|\d{1,2}/\d{1,2})\s*W(?:att)?s?(?![\w])", re.IGNORECASE)
_OWN_VOLTS = re.compile(r"\d\s*V(?:DC)?(?![\w])", re.IGNORECASE)  # of a light with a resistor of its own: "LED 12V"
_BARE_LIGHT = re.compile(r"(?:[^:]*:)?LED(?:_(?:Small|Filled|Small_Filled))?", re.IGNORECASE)
_BLOCKS = re.compile(r"tvs|zener|suppress", re.IGNORECASE)
_AROUND = re.compile(r"(?:(?<![A-Z\d])|(?<=C))(\d{1,2})V(\d)(?!\d)", re.IGNORECASE)  # 5V1, BZX84C5V1
_SMALL_SUPPRESSOR = re.compile(r"SM[A-Z]{1,2}J(\d{1,3}(?:\.\d)?)C?A?(?![\w])", re.IGNORECASE)  # from memory, unverified


class Overloaded(Struct, frozen=True):
    """A part across a supply, and what happens to it."""

    across: Across
    why: str
    fix: str
    sure: bool = True  # not a resistor a little above what it usually takes


def overloaded(judgement: Judgement) -> Iterator[Overloaded]:
    for across in parts_across(judgement):
        found = _resistor(across) or _light(across) or _conducting(across)
        if found is not None:
            yield found


def _resistor(across: Across) -> Overloaded | None:
    part = across.part
    ohm = read_ohm(part.value) if letters_of(part.reference) == "R" else None
    if not ohm or across.reach_v is None:
        return None
    watts = across.reach_v**2 / ohm
    said = [_watts(text) for text in (*part.fields.values(), part.value)]
    made_for = next(filter(None, said), None)
    if watts <= (made_for if made_for is not None else UNSTATED_W) * (1 + 1e-9):
        return None
    takes = f"takes {watts:.3g} W ({across.reach_v / ohm:.3g} A)"
    return Overloaded(
        across,
        f"{takes}, and nothing says that it is made for that"
        if made_for is None
        else f"{takes}, and is made for {made_for:g} W",
        "Take a larger value, or write the watts that it is made for into its Value, for example 10R 50W.",
        watts > _GLOWS_W,
    )


def _watts(text: str) -> float | None:
    found = _WATTS.search(text)
    if found is None:
        return None
    number, _, below = found[1].replace(",", ".").partition("/")
    return float(number) / float(below) if below and float(below) else float(number)


def _light(across: Across) -> Overloaded | None:
    """A bare LED straight from supply to ground, the right way round; one of volts of its own holds its resistor."""
    part = across.part
    if not _BARE_LIGHT.fullmatch(part.lib_id) or pole_of(across.on_supply[1]) == CATHODE:
        return None
    if any(_OWN_VOLTS.search(text) for text in (part.value, *part.fields.values())):
        return None
    return Overloaded(
        across,
        "has no resistor: nothing limits its current, and it burns out",
        "Put a resistor in series with it, or write the volts into its Value where it has one inside (LED 12V).",
    )


def _conducting(across: Across) -> Overloaded | None:
    """A suppressor or Zener diode that conducts below what the supply reaches: the right way round, or either way."""
    part = across.part
    if letters_of(part.reference) not in DIODES or is_light(part) or across.reach_v is None:
        return None
    both_ways = {across.on_supply[1], across.on_ground[1]} == {"A1", "A2"}  # KiCad's suppressor of both ways [K]
    if pole_of(across.on_supply[1]) != CATHODE and not both_ways:
        return None
    volts = _blocks_v(across)
    if volts is None or across.reach_v <= volts * CONDUCTS_AT:
        return None
    return Overloaded(
        across,
        f"conducts somewhat above {volts:g} V, and the supply reaches {across.reach_v:g} V: it shorts it and burns",
        f"Take one for at least {across.reach_v:g} V.",
    )


def _blocks_v(across: Across) -> float | None:
    part = across.part
    named = _SMALL_SUPPRESSOR.search(part.value) or _AROUND.search(part.value)
    if named is not None:
        return float(".".join(named.groups()))
    if not _BLOCKS.search(f"{part.lib_id} {part.value}") and letters_of(part.reference) not in ("TVS", "Z", "ZD"):
        return None
    return read_rating(part.fields, part.value).volts
