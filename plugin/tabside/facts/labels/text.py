"""The words of a label: markup and marks of active low taken off, split, each word known or not."""

from __future__ import annotations

import re
import unicodedata
from functools import cache

from msgspec import Struct

from tabside.facts import tables
from tabside.model.escapes import unescape
from tabside.model.names import run_together

_OVERBAR = re.compile(r"~\{([^{}]*)\}")
_RAISED = re.compile(r"[_^]\{([^{}]*)\}")  # KiCad's subscript and superscript
_LONGEST = 200  # letters; no name on a board is longer, and a paragraph is no name
_MARKED = re.compile(r"(?:!|~|/(?=[A-Za-z][^/]*$))(.+)|(.+)#")
_SMALL_N = re.compile(r"n([A-Z]{2,}\d*)")
_NUMBER_ONLY = re.compile(r"~?|(?:pin[\s_-]*)?\d+", re.IGNORECASE)
_CURRENT = re.compile(r"(?<![A-Z0-9.])\d+(?:\.\d+)?\s*M?A(?:\s*MAX)?(?![A-Z0-9])")
_CELLS = re.compile(r"(?<![A-Z0-9.])\d{1,2}(?:\s*-\s*\d{1,2})?S(?![A-Z0-9])")
# A hyphen or a point separates words, but neither "3.3V" nor "BAT-" nor "-5V".
_BREAK = re.compile(r"[\s_:;,|=]+|(?<=[A-Z0-9+])-(?=[A-Z0-9])|(?<=[A-Z])\.(?=[A-Z0-9])")
_DASHES = dict.fromkeys(map(ord, "\u2010\u2011\u2012\u2013\u2014\u2212"), "-")  # BAT− is BAT-
_VOLT_WORD = re.compile(r"(?<=\d)\s*V(?:DC|OLTS?)?\b(?!\d)")
_DECIMAL_COMMA = re.compile(r"(?<=\d),(?=\d{1,2}V)")
_INDEXED = re.compile(r"(?P<base>.*[A-Z+-])(?P<index>\d{1,2})")


class LabelText(Struct, frozen=True):
    """A label ready for reading."""

    plain: str  # upper case; "" when it only repeats a contact's number, or says nothing
    active_low: bool
    negated: str = ""  # what follows a leading "n" as in nRESET, "" when there is none


@cache
def clean_label(text: str) -> LabelText:
    """A label without KiCad's markup; `~{X}`, `!X`, `/X` and `X#` mark active low."""
    if len(text) > _LONGEST:
        return LabelText("", False)
    if text.isascii() and text.isalnum() and text.isupper() and not text.startswith("PIN"):
        return LabelText(text, False)  # most are as clean as that
    if not text.isascii():
        text = unicodedata.normalize("NFKC", text).translate(_DASHES)
    body = unescape(_RAISED.sub(r"\1", text.strip()))
    if _NUMBER_ONLY.fullmatch(body):
        return LabelText("", False)
    bare = _OVERBAR.sub(r"\1", body)
    active_low = bare != body
    if bare.startswith(("!", "~", "/")) or bare.endswith("#"):
        marked = _MARKED.fullmatch(bare)
        if marked:
            bare, active_low = (marked.group(1) or marked.group(2)).strip("~"), True
    small_n = _SMALL_N.fullmatch(bare) if bare.startswith("n") else None
    return LabelText(_tidy(bare), active_low, small_n.group(1) if small_n else "")


def words_of(plain: str) -> tuple[str, ...]:
    """The words of a cleaned label, in order."""
    if plain.isalnum():  # most are one word
        return (plain,)
    return tuple(word for word in _BREAK.split(plain) if word)


@cache
def split_index(word: str) -> tuple[str, int | None]:
    """`TX3` as ("TX", 3); a word without an index, or with more than two digits, as it stands."""
    found = _INDEXED.fullmatch(word)
    return (found.group("base"), int(found.group("index"))) if found else (word, None)


def word_means(word: str, meaning: str) -> bool:
    """Whether a word, taken without its index, is listed with this meaning: "port", "in", "control", ..."""
    return meaning in _meanings().get(word, ()) or meaning in _meanings().get(split_index(word)[0], ())


@cache
def is_unused(plain: str) -> bool:
    """Whether it says that the contact is not used: NC, N/C, N/A, ..."""
    return "unused" in _meanings().get(run_together(plain), ())


def takes_index(word: str) -> bool:
    return "no index" not in _meanings().get(word, ())


def _tidy(text: str) -> str:
    """Upper case, `5 VDC` as `5V`, `3,3V` as `3.3V`, without a current or a count of cells beside other words.

    `5V/3A` is `5V`, and `VBAT 2-6S` is `VBAT`.
    """
    if text.isalpha():  # most are
        return text.upper()
    plain = " ".join(text.upper().split())
    if "V" in plain:
        plain = _DECIMAL_COMMA.sub(".", _VOLT_WORD.sub("V", plain))
    without = _CELLS.sub("", _CURRENT.sub("", plain))
    if "(" in without:
        without = re.sub(r"\(\s*\)", "", without)
    without = without.strip(" @/_,;")
    return without or plain


@cache
def _meanings() -> dict[str, tuple[str, ...]]:
    found: dict[str, tuple[str, ...]] = {}
    for row in tables.table_rows("label_words"):
        found[row["word"]] = (*found.get(row["word"], ()), row["meaning"])
    return found
