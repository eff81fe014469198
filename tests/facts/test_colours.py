"""Colour codes of IEC 60757."""

from __future__ import annotations

import pytest

from tabside.facts.colours import colour_code, read_colour
from tabside.facts.tables import table_rows

# Typed from the code list of IEC 60757 as printed in GOST 28763-90, identical to IEC 757:1983.
IEC_60757 = {
    "BK": "black",
    "BN": "brown",
    "RD": "red",
    "OG": "orange",
    "YE": "yellow",
    "GN": "green",
    "BU": "blue",
    "VT": "violet",
    "GY": "grey",
    "WH": "white",
    "PK": "pink",
    "GD": "gold",
    "TQ": "turquoise",
    "SR": "silver",
    "GNYE": "green-and-yellow",
}


def test_the_table_is_that_of_the_standard():
    assert {row["code"]: row["colour"] for row in table_rows("colours")} == IEC_60757


@pytest.mark.parametrize(("code", "word"), IEC_60757.items())
def test_code_and_word_mean_the_same_in_any_case(code, word):
    for text in (code, code.lower(), word, word.upper(), word.capitalize(), f" {word} "):
        colour = read_colour(text)
        assert colour is not None
        assert (colour.code, colour.words, colour.known) == (code, word, True)


@pytest.mark.parametrize(
    ("text", "code"),
    [
        # IEC 60757:2021, public extracts: two colours joined in the table's order, RDBU and not BURD.
        ("RDBU", "RDBU"),
        ("BURD", "RDBU"),
        ("RD/BU", "RDBU"),
        ("blue-red", "RDBU"),
        ("WH-GN", "GNWH"),
        # Green with yellow has one code.
        ("YEGN", "GNYE"),
        ("green/yellow", "GNYE"),
        # Other spellings: common practice, no source.
        ("gray", "GY"),
        ("purple", "VT"),
        ("BRN", "BN"),
        ("light blue", "BU"),
    ],
)
def test_spellings_of_one_colour_give_one_code(text, code):
    assert colour_code(text) == code


@pytest.mark.parametrize("text", ["chartreuse", "GR", "RDXX", "BK+RD", "W12"])
def test_what_is_no_colour_stays_as_written(text):
    colour = read_colour(text)
    assert colour is not None
    assert (colour.code, colour.known) == (text, False)


def test_no_text_is_no_colour():
    assert read_colour("  ") is None
    assert colour_code("") is None
