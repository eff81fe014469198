"""`Gives`, `Takes` and `Either`: the rails that a board supplies or needs at a termination."""

from __future__ import annotations

import re
from functools import lru_cache

from tabside.facts.cells import CELLS_MAX, pack_volts, read_pack
from tabside.model.roles import Rail, Volts
from tabside.model.stated_limits import MOST_AMPERES
from tabside.wiring.terminations.fields import Fields, Problem, read_volts

_BOUND = re.compile(r"([^\s:]{1,40})\s*:\s*(.*)\Z", re.DOTALL)  # a contact's number or name: 2:5V, OUT+:5V
_CURRENT = re.compile(
    r"(?P<word>\b(?:typical|typ\.?|max\.?|maximum)\s*)?(?<![\w.])(?P<number>\d+(?:\.\d+)?)\s*(?P<unit>mA|A)\b"
    r"(?:\s*(?P<after>typical|typ\.?|max\.?|maximum)(?!\s*\d)(?!\w))?",
    re.IGNORECASE,
)
# Other ways to write the same: 1A5, 7,4V, 12VDC, "5V, 2A", 5V/2A, 5V@2A.
_SPELLINGS = (
    (re.compile(r"(?<![\w.])(\d{1,3})A(\d{1,2})\b"), r"\1.\2A"),
    (re.compile(r"(?<=\d),(?=\d{1,2}\s?V)", re.IGNORECASE), "."),
    (re.compile(r"(?<=\d)(\s?)VDC\b", re.IGNORECASE), r"\1V"),
    (re.compile(r"(?<=V)\s?[@/,]\s?(?=\d+(?:\.\d+)?\s?m?A\b)", re.IGNORECASE), " "),
)
_CELLS = re.compile(r"(\d{1,2})\s*S?\s*(?:(?:-|–|\.\.|to)\s*(\d{1,2})\s*)?S\Z", re.IGNORECASE)
# Words of a pack beside its cells or volts ("4S2P", "6S LiPo", "12V lead"); volts alone are a rail's.
_OTHER_PACK = re.compile(r"\dS\d|[A-Za-z]{2}|\d\s*[x×]", re.IGNORECASE)
_BATTERY = re.compile(r"(?:\+?V?BATT?\+?|BATTERY|PACK)\Z", re.IGNORECASE)


# Cells in a contact's own name: VBAT 2-6S, BAT+ (4S max).
_CELLS_IN_NAME = re.compile(
    r"(?<![\w.])(?P<low>\d{1,2})(?:\s*(?:-|–|\.\.|to)\s*(?P<high>\d{1,2}))?\s?S(?P<most>\s*max)?(?!\w)", re.IGNORECASE
)


class RailError(ValueError):
    """The text of a rail cannot be read; str() says what is wrong with it."""


@lru_cache(maxsize=4096)
def read_rails(text: str) -> tuple[Rail, ...]:
    """The rails of a field such as "5V 1.5A; 1:7-26V 0.6A typical 0.3A; VBAT 30A", in its order.

    Raises: RailError with what is wrong.
    """
    entries = [" ".join(entry.split()) for entry in re.split(r"[;\n]", text)]
    rails = tuple(_read_rail(entry) for entry in entries if entry)
    if not rails:
        raise RailError(f'"{text}" names no supply')
    return rails


def _read_rail(entry: str) -> Rail:
    bound = _BOUND.match(entry)
    contact, rest = (bound[1], bound[2]) if bound else (None, entry)
    for spelling, usual in _SPELLINGS:
        rest = spelling.sub(usual, rest)
    currents: dict[str, float] = {}

    def take(match: re.Match[str]) -> str:
        word = "typical" if (match["word"] or match["after"] or "").lower().startswith("typ") else "max"
        if word in currents:
            raise RailError(f'"{entry}" has two {word} currents')
        currents[word] = float(match["number"]) / (1000 if match["unit"].lower() == "ma" else 1)
        return " "

    named = _CURRENT.sub(take, rest).strip()
    if max(currents.values(), default=0.0) > MOST_AMPERES:
        raise RailError(f'"{entry}" has more than {MOST_AMPERES} A')
    volts, battery = _read_source(named, entry)
    if not named and not currents:
        raise RailError(f'"{entry}" has neither volts nor amperes')
    if currents.get("typical", 0.0) > currents.get("max", float("inf")):
        raise RailError(f'"{entry}" has a typical current above its maximum')
    return Rail(volts, battery, currents.get("max"), currents.get("typical"), contact, entry)


def _read_source(named: str, entry: str) -> tuple[Volts | None, bool]:
    """What stands before the current: volts, cells of a pack, the battery itself, or nothing."""
    if not named:
        return None, False
    if _BATTERY.match(named):
        return None, True
    cells = _CELLS.match(named)
    if cells:
        low, high = sorted((int(cells[1]), int(cells[2] or cells[1])))
        if not 1 <= low <= high <= CELLS_MAX:
            raise RailError(f'"{entry}" has a pack of other than 1 to {CELLS_MAX} cells')
        return pack_volts(low, high), True
    pack = read_pack(named) if _OTHER_PACK.search(named) else None
    if pack is not None:
        return pack, True
    volts = read_volts(named) if named[-1] in "vV" or re.search(r"\dV\d", named, re.IGNORECASE) else None
    if volts is None:
        raise RailError(f'"{entry}" cannot be read')
    return volts, False


def pack_of_name(label: str) -> Rail | None:
    """The pack that a battery contact's own name says: "VBAT 2-6S", "BAT+ (4S max)"; None when it says none."""
    found = _CELLS_IN_NAME.search(label)
    if found is None:
        return None
    low, high = sorted((int(found["low"]), int(found["high"] or found["low"])))
    if not 1 <= low <= high <= CELLS_MAX:
        return None
    return Rail(pack_volts(1 if found["most"] else low, high), battery=True, text=found[0].strip())


def is_one_pack(label: str) -> bool:
    """Whether the name says one number of cells, as a pack's does; a range is what an input takes."""
    found = _CELLS_IN_NAME.search(label)
    return found is not None and not found["high"] and not found["most"]


def stated_rails(fields: Fields, name: str) -> tuple[Rail, ...]:
    """The rails that a field names; none, and a problem, where they cannot be read."""
    text = fields.text(name)
    try:
        return read_rails(text) if text else ()
    except RailError as error:
        words = f'{name.capitalize()}: {error}; write for example "5V 1.5A; 9V 2A"'
        fields.problems.append(Problem(words, name))
        return ()
