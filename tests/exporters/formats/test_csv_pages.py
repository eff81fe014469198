"""CSV that a spreadsheet, pandas and the csv module read alike.

Sources: RFC 4180 for quoting; for formulas the rule that a text cell beginning with = + - @, tab or return is taken for
one (OWASP, "CSV Injection").
"""

import csv
import io

import pandas as pd
import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from page_kit import ABOUT, page
from tabside_exporters.formats.csv_pages import write_csv


def rows_of(written):
    return list(csv.DictReader(io.StringIO(written.decode(), newline="")))


def test_the_first_line_is_the_header_and_the_last_column_tells_what_the_page_belongs_to():
    written = write_csv(page(["GND"]))
    assert written.decode().splitlines() == [
        "name,contact,gauge_awg,length_mm,about",
        "GND,3,28,85.0,"
        '"NOT CLEARED TO BUILD: 2 errors; Pond skater, revision B; '
        "Drawing 1a2b3c4d, Tabside 9.8.7, tables fedcba987654; "
        "2 errors, 1 warning; checked 9 of 12 wires; "
        'Accepted: no-return (warning) at pilot/J4:2, because: buzzer is driven between both contacts"',
    ]


def test_pandas_reads_it_without_being_told_anything():
    table = pd.read_csv(io.BytesIO(write_csv(page(["A", "B"]))))
    assert list(table.columns) == ["name", "contact", "gauge_awg", "length_mm", "about"]
    assert table["length_mm"].sum() == 170.0
    assert table["gauge_awg"].tolist() == [28, 28]


def test_a_page_without_rows_still_tells_what_it_belongs_to():
    (row,) = rows_of(write_csv(page([])))
    assert row["name"] == "" and row["about"].startswith("NOT CLEARED TO BUILD: 2 errors; Pond skater")


def test_what_is_not_known_says_so_and_is_never_nought():
    (row,) = rows_of(write_csv(page([None], gauge=None, length=None)))
    assert (row["name"], row["gauge_awg"], row["length_mm"]) == ("not known",) * 3


@pytest.mark.parametrize(
    ("drawn", "written"),
    [
        ("=1+1", "'=1+1"),
        ("+5V", "'+5V"),
        ("-", "'-"),
        ("@SUM(A1)", "'@SUM(A1)"),
        ("\tx", "'\tx"),
        ("\rx", "'\rx"),
        ("x;=1+1", "x;'=1+1"),
        ("x; =1+1", "x;' =1+1"),
        ("x,@SUM(A1)", "x,'@SUM(A1)"),
        ("x\t-1", "x\t'-1"),
        ("x\n=1", "x\n'=1"),
        ("a; b, c", "a; b, c"),
        ("=cmd|' /C calc'!A0", "'=cmd|' /C calc'!A0"),
        ("A-", "A-"),
        ("3V3", "3V3"),
        ("'quoted", "'quoted"),
        ("", ""),
    ],
)
def test_a_cell_that_would_be_a_formula_gets_an_apostrophe(drawn, written):
    (row,) = rows_of(write_csv(page([drawn])))
    assert row["name"] == written


def test_a_craft_whose_name_is_a_formula_is_no_formula_either():
    about = replace(ABOUT, craft="=HYPERLINK(1)", errors=0)
    (row,) = rows_of(write_csv(page(["A"], about=about)))
    assert row["about"].startswith("'=HYPERLINK(1), revision B")


@pytest.mark.parametrize("drawn", ['a "b" c', "a,b", "a\nb", "a;b", "Ω µ 線 🛥", "../../etc/passwd", "a|b", " a "])
def test_a_hostile_name_comes_back_as_it_was_drawn(drawn):
    (row,) = rows_of(write_csv(page([drawn])))
    assert row["name"] == drawn


@pytest.mark.parametrize("sign", ["\x00", "\x1b", "\x07", "\u202e", "\u2066"])
def test_a_sign_without_a_shape_of_its_own_is_written_out(sign):
    """An escape sequence or a mark that turns the direction of reading would make a cell look like another."""
    (row,) = rows_of(write_csv(page([f"A{sign}B"])))
    assert row["name"] == f"A\\u{ord(sign):04x}B"


@given(st.lists(st.text(st.characters(exclude_categories=["Cs"]), max_size=8), min_size=1, max_size=4))
def test_no_text_breaks_the_table_or_is_a_formula(names):
    written = write_csv(page(names))
    rows = rows_of(written)
    assert len(rows) == len(names)
    for row in rows:
        assert not row["name"].startswith(("=", "+", "-", "@", "\t", "\r"))
        assert row["contact"] == "3" and row["about"].startswith("NOT CLEARED")


def test_lines_end_with_a_line_feed_only():
    assert b"\r" not in write_csv(page(["A", "B"]))


@pytest.mark.parametrize(("awg", "written"), [(28, "28"), (1, "1"), (0, "1/0"), (-3, "4/0")])
def test_thick_gauges_are_written_as_the_trade_does(awg, written):
    """Source: ASTM B258 (text not seen): 4/0 is 0000, three sizes thicker than 1/0."""
    (row,) = rows_of(write_csv(page(["A"], gauge=awg)))
    assert row["gauge_awg"] == written


HOSTILE = ["x;=cmd|'/c calc'!A1", "x\t=1+1", "x\n=1+1", 'x;"=1+1', "x;+1", "=1;=1\t@1", "x,=1", ";=1", '";=1']


@pytest.mark.parametrize("separator", [",", ";", "\t"])
@pytest.mark.parametrize("drawn", HOSTILE)
def test_no_cell_is_a_formula_whatever_separator_it_is_opened_with(drawn, separator):
    """Python's own reader stands for a spreadsheet that was told another separator, with quotes and without."""
    written = write_csv(page([drawn])).decode()
    for quoting in (csv.QUOTE_MINIMAL, csv.QUOTE_NONE):
        for row in csv.reader(io.StringIO(written), delimiter=separator, quoting=quoting):
            assert not [cell for cell in row if cell.lstrip(' "').startswith(("=", "@", "+", "-"))]
