"""Colours of wire by their IEC 60757 codes."""

from __future__ import annotations

import re
from collections.abc import Iterable
from functools import cache

from msgspec import Struct

from tabside.facts import tables
from tabside.facts.sources import Source, read_source
from tabside.model.names import as_one_word


class Colour(Struct, frozen=True):
    """One colour, or several on one wire.  A text that is no colour of the table keeps itself as its code."""

    code: str  # "RD", "RDBU", "GNYE", or the text as written
    words: str  # "red", "red-blue", "green-and-yellow"
    known: bool
    hex: str | None = None  # a suggestion for a drawing on screen; for one colour only


def colour_legend(codes: Iterable[str | None]) -> tuple[str, ...]:
    """One line with the words of all IEC 60757 codes among them; none when there is no such code."""
    read = {colour.code: colour for code in codes if code and (colour := read_colour(code)) is not None}
    said = [f"{code} {colour.words}" for code, colour in sorted(read.items()) if colour.known]
    return (f"Colours: {', '.join(said)}.",) if said else ()


class CodeRow(Struct, frozen=True):
    """One row of the table."""

    code: str
    word: str
    spellings: tuple[str, ...]
    hex: str
    note: str
    source: Source


def read_colour(text: str) -> Colour | None:
    """A colour from its code or its English name, in any case; None when the text is empty.

    Two colours on one wire (`RD/BU`, `BURD`, `blue-red`) come in the table's order, except green with yellow, whose
    code is GNYE.  GR has been used for grey and for green and stays as written;
    so does `BK+RD`, which means two wires.
    Source: IEC 60757, the order rule too; other spellings are common practice, no source.
    """
    written = text.strip()
    if not written:
        return None
    codes = _codes(written)
    if codes is None:
        return Colour(written, written, known=False)
    if set(codes) == {"GN", "YE"}:
        codes = ["GNYE"]
    rows = _rows()
    ordered = sorted(dict.fromkeys(codes), key=list(rows).index)
    words = "-".join(rows[code].word for code in ordered)
    return Colour("".join(ordered), words, known=True, hex=rows[ordered[0]].hex or None if len(ordered) == 1 else None)


def colour_code(text: str) -> str | None:
    """The code of a colour, the text as written when it is unknown, None when there is none."""
    colour = read_colour(text)
    return colour.code if colour else None


def _codes(text: str) -> list[str] | None:
    """Codes of all colours in a text; None when any part of it is none."""
    whole = _spellings().get(_squeeze(text))
    if whole is not None:
        return [whole]
    parts = [part for part in re.split(r"[\s/,&_-]+|\band\b", text) if part]
    if len(parts) == 1 and len(text) % 2 == 0 and len(text) > 2:  # codes written together
        parts = [text[place : place + 2] for place in range(0, len(text), 2)]
        found = [part.upper() if part.upper() in _rows() else None for part in parts]
    else:
        found = [_spellings().get(_squeeze(part)) for part in parts]
    known = [code for code in found if code is not None]
    return known if known and len(known) == len(parts) else None


def _squeeze(text: str) -> str:
    return as_one_word(text.replace("/", " "))


@cache
def _rows() -> dict[str, CodeRow]:
    return {
        row["code"]: CodeRow(
            row["code"],
            row["colour"],
            tuple(text.strip() for text in row["alt"].split(";") if text.strip()),
            row["hex_suggestion"],
            row["notes"],
            read_source(row["source"]),
        )
        for row in tables.table_rows("colours")
    }


@cache
def _spellings() -> dict[str, str]:
    return {
        _squeeze(spelling): row.code
        for row in reversed(list(_rows().values()))
        for spelling in (row.code, row.word, *row.spellings)
    }
