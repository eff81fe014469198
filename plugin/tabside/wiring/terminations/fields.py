"""The fields of symbols and sheets that say what a termination is.

A value that cannot be read is a problem in words: it becomes an oddity of the craft and is never passed over.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable, Mapping
from functools import cache

from msgspec import Struct

from tabside.model.craft import Kind
from tabside.model.roles import Volts
from tabside.model.stated_limits import HIGHEST_V
from tabside.words.contacts import begun
from tabside.words.nearest import did_you_mean

BOARD = "board"
KIND = "kind"
FAMILY = "family"
SIGNALS = "signals"
SEEN_FROM = "seen from"
CONTACT_1 = "contact 1"
ENTRY = "entry"
TABS = "tabs"
GIVES = "gives"
TAKES = "takes"
EITHER = "either"
LEVEL = "level"
LEVEL_MAX = "level max"
LEADS_MAX = "leads max"
ISOLATED = "isolated"
BOARD_FILE = "board file"
RATING = "rating"

# A symbol that carries one of these is a termination, whatever its reference.
TERMINATION_FIELDS = frozenset(
    (
        BOARD,
        KIND,
        FAMILY,
        SIGNALS,
        SEEN_FROM,
        CONTACT_1,
        ENTRY,
        TABS,
        GIVES,
        TAKES,
        EITHER,
        LEVEL,
        LEVEL_MAX,
        LEADS_MAX,
        ISOLATED,
        BOARD_FILE,
    )
)
KINDS = {kind.value: kind for kind in (Kind.RECEPTACLE, Kind.PAD, Kind.CAPTIVE, Kind.SPLICE)}
HIGHEST_BARE_LEVEL = 15.0  # of RS-232; a bare number above it may have lost its point: common practice, no source
_VARIABLE = re.compile(r"\$\{[^{}]*\}")  # one that nobody defines: reading has put in all others
_VOLTS = re.compile(r"\+?(\d+(?:\.\d+)?)\s*V?\Z", re.IGNORECASE)
_VOLTS_AROUND = re.compile(r"\+?(\d+)V(\d+)\Z", re.IGNORECASE)
_BRACKETED = re.compile(r"\([^()]*\)|\[[^\[\]]*\]")
_UNITS = frozenset(("v", "volt", "volts", "vdc", "a", "amp", "amps", "mm", "cm", "m", "awg"))
_SPAN = re.compile(r"-|–|\.\.|\bto\b", re.IGNORECASE)


@cache
def field_key(name: str) -> str:
    """Names are one field when neither case nor blanks, `-` and `_` part them."""
    return re.sub(r"[\s_-]+", "", name).lower()


# Keys of all fields that Tabside reads; those of wires stand on labels and directives.
_FIELD_OF_KEY: Mapping[str, str] = {
    field_key(name): name for name in (*TERMINATION_FIELDS, RATING, "lead marks", "cable mark")
}
_OF_OTHERS = frozenset(("reference", "value", "footprint", "datasheet", "description", "manufacturer", "mpn"))


def is_ours(name: str) -> bool:
    """Whether Tabside reads the field, of a symbol."""
    return field_key(name) in _FIELD_OF_KEY


def near_misses(
    drawn: Mapping[str, str], only: Collection[str] = (), ours: Mapping[str, str] = _FIELD_OF_KEY
) -> dict[str, str]:
    """Fields that are called nearly as one of `ours`: name as drawn -> the field that is meant.

    One letter or a plural away, with a unit behind the name ("Takes (V)") or with its words the other way round ("Max
    level").  `only`: of these fields alone (a sheet says nothing but its board).
    """
    found = {}
    for name, text in drawn.items():
        key = field_key(name)
        if text.strip() in ("", "~") or key in ours or key in _OF_OTHERS or name.startswith(("ki_", "Sim")):
            continue
        bare = _without_unit(name)
        meant = [
            field
            for other, field in ours.items()
            if (_is_near(key, other) or other in bare) and (not only or field in only)
        ]
        if meant:
            found[name] = begun(min(meant, key=lambda field: abs(len(field) - len(key))))
    return found


def _without_unit(name: str) -> tuple[str, ...]:
    """The key of a name without a unit behind it, with its words as they stand and the other way round."""
    words = re.split(r"[\s_-]+", _BRACKETED.sub(" ", name).strip().lower())
    words = words[:-1] if len(words) > 1 and words[-1] in _UNITS else words
    return ("".join(words), "".join(reversed(words)))


def _is_near(a: str, b: str) -> bool:
    """A plural, or one letter too many, missing, another, or two exchanged."""
    if _singular(a) == _singular(b):
        return True
    if len(a) > len(b):
        a, b = b, a
    if len(b) - len(a) > 1 or len(a) < 3:
        return False
    start = next((n for n, (x, y) in enumerate(zip(a, b, strict=False)) if x != y), len(a))
    if len(a) < len(b):
        return a[start:] == b[start + 1 :]
    exchanged = a[start : start + 2] == b[start : start + 2][::-1] and a[start + 2 :] == b[start + 2 :]
    return a[start + 1 :] == b[start + 1 :] or exchanged


def _singular(key: str) -> str:
    return re.sub(r"(?:ies|y)\Z", "i", key) if key.endswith(("ies", "y")) else key.removesuffix("s")


class Problem(Struct, frozen=True):
    """What is wrong with a field, in words, and the field whose value is at fault ("" when it is no single one)."""

    text: str
    field: str = ""


class Fields:
    """Fields by name, without regard to case, blanks, `-` and `_`; an empty value is no value."""

    def __init__(self, drawn: Mapping[str, str]) -> None:
        self._values: dict[str, str] = {}
        self.problems: list[Problem] = []
        for name, text in drawn.items():
            key = field_key(name)
            value = text.strip()
            if value in ("", "~"):
                continue
            if "${" in value and key in _FIELD_OF_KEY and (unknown := _VARIABLE.search(value)):
                said = f"{begun(_FIELD_OF_KEY[key])} holds {unknown[0]}, which has no value in this drawing"
                self.problems.append(Problem(said, _FIELD_OF_KEY[key]))
                continue
            if key in self._values and key in _FIELD_OF_KEY and self._values[key] != value:
                self.problems.append(Problem(f'has the field "{name}" twice, with different values; keep one'))
                continue
            self._values.setdefault(key, value)

    def text(self, name: str) -> str:
        """The value, or "" when the field is absent or empty."""
        return self._values.get(field_key(name), "")

    def has_any(self, names: Iterable[str]) -> bool:
        return any(field_key(name) in self._values for name in names)

    def one_of(self, name: str, allowed: Iterable[str], values: str = "") -> str | None:
        """The value in lower case if it is one of these; else None, and a problem unless the field is absent.

        `values`: all of them in words, with the frame in which they are meant.
        """
        text = " ".join(self.text(name).split()).lower()
        allowed = tuple(allowed)
        if not text:
            return None
        if text not in allowed:
            meant = did_you_mean(text, allowed)
            self.is_wrong(name, " ".join(filter(None, (meant, f"write {values or _or(allowed)}"))))
            return None
        return text

    def whole(self, name: str, lowest: int, highest: int) -> int | None:
        """A whole number within the bounds; else None, and a problem unless the field is absent."""
        text = self.text(name)
        if not text:
            return None
        if not (text.isascii() and text.isdecimal()) or len(text) > 6 or not lowest <= int(text) <= highest:
            self.is_wrong(name, f"write a whole number from {lowest} to {highest}")
            return None
        return int(text)

    def level(self, name: str) -> Volts | None:
        """A voltage of logic ("3.3V", "3V3", "3,3 V") or a range; else None, and a problem unless the field is absent.

        "33" is none until its unit says that 33 V are meant, and not 3.3 V.
        """
        text = re.sub(r"(?<=\d),(?=\d)", ".", self.text(name))
        found = read_volts(text) if text else None
        if found is not None and found.high > HIGHEST_BARE_LEVEL and text.isdecimal():
            self.is_wrong(name, f"write it with its unit: {text[:-1] or 0}.{text[-1]}V or {text}V")
            return None
        if text and found is None:
            self.is_wrong(name, "write volts, for example 3.3V")
        return found

    def is_wrong(self, name: str, cure: str) -> None:
        self.problems.append(Problem(f'{begun(name)} is "{self.text(name)}"; {cure}', name))


def text_of(drawn: Mapping[str, str], name: str) -> str:
    """What `Fields(drawn).text(name)` says; most symbols have no such field, and then the others are not read."""
    key = field_key(name)
    return Fields(drawn).text(name) if key in map(field_key, drawn) else ""


def read_volts(text: str) -> Volts | None:
    """ "5V", "+5 V", "3V3", "7-26V", "7..26 V"; the V may be missing.  None when it is no voltage."""
    ends = [_one_voltage(part.strip()) for part in _SPAN.split(text)]
    if len(ends) > 2 or None in ends:
        return None
    known = sorted(volts for volts in ends if volts is not None)
    return Volts(known[0], known[-1]) if known[-1] <= HIGHEST_V else None


def board_of(own: Fields, sheets: Iterable[Mapping[str, str]], reference: str) -> tuple[str, bool]:
    """The board, and whether a field says so: the symbol's own, else the innermost sheet's, else the reference."""
    stated = own.text(BOARD) or next(filter(None, (text_of(sheet, BOARD) for sheet in sheets)), "")
    return (stated, True) if stated else (reference, False)


def _one_voltage(text: str) -> float | None:
    around = _VOLTS_AROUND.match(text)
    if around:
        return float(f"{around[1]}.{around[2]}")
    plain = _VOLTS.match(text)
    return float(plain[1]) if plain else None


def _or(words: tuple[str, ...]) -> str:
    return f"{', '.join(words[:-1])} or {words[-1]}"
