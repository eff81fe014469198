"""Markdown for the bench.  Source: GitHub Flavored Markdown Spec 0.29, tables (4.10) and backslash escapes (6.1)."""

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from page_kit import ABOUT, page
from tabside_exporters.formats.markdown_pages import write_markdown


def lines_of(written):
    return written.decode().split("\n")


def table_rows(written):
    """The cells of the table's rows below its head, split as the specification says: at bars that are not escaped."""
    lines = [line for line in lines_of(written) if line.startswith("|")]
    return [
        [cell.strip() for cell in re.findall(r"((?:\\[!-/:-@\[-`{-~]|[^|])*)\|", line.removeprefix("|"))]
        for line in lines[2:]
    ]


def test_the_page_says_what_it_belongs_to_and_that_it_is_not_cleared():
    lines = lines_of(write_markdown(page(["GND"])))
    assert lines[:8] == [
        "# Try-out: Pond skater, revision B",
        "",
        "**NOT CLEARED TO BUILD: 2 errors**",
        "",
        "- Drawing 1a2b3c4d, Tabside 9.8.7, tables fedcba987654",
        "- 2 errors, 1 warning; checked 9 of 12 wires",
        "- Accepted: no-return (warning) at pilot/J4:2, because: buzzer is driven between both contacts",
        "",
    ]


def test_one_error_is_one_error():
    assert "**NOT CLEARED TO BUILD: 1 error**" in lines_of(write_markdown(page(["A"], about=replace(ABOUT, errors=1))))


def test_without_errors_the_page_does_not_say_that_it_is_not_cleared():
    text = write_markdown(page(["A"], about=replace(ABOUT, errors=0))).decode()
    assert "NOT CLEARED" not in text and "0 errors, 1 warning; checked 9 of 12 wires" in text


def test_the_table_is_aligned_and_numbers_stand_to_the_right():
    lines = lines_of(write_markdown(page(["GND", "VCC_SERVO"])))
    at = lines.index("| name      | contact | gauge_awg | length_mm |")
    assert lines[at + 1 : at + 4] == [
        "| :-------- | :------ | --------: | --------: |",
        "| GND       | 3       |        28 |      85.0 |",
        "| VCC_SERVO | 3       |        28 |      85.0 |",
    ]


def test_one_long_cell_does_not_make_the_whole_column_wide():
    lines = lines_of(write_markdown(page(["GND", "N" * 61])))
    assert "| GND  | 3       |        28 |      85.0 |" in lines
    assert f"| {'N' * 61} | 3       |        28 |      85.0 |" in lines


def test_a_bench_page_carries_the_cautions_and_another_page_does_not():
    bench, other = (write_markdown(page(["A"], bench=bench)).decode() for bench in (True, False))
    for caution in (
        "Battery AND USB unplugged",
        "Never re-pin the live end of a battery or balance lead",
        "Never push a probe into a small contact",
        "First power through a current limiter",
        "find contact 1 on the real board",
        "Local electrical codes and the makers' instructions outrank",
        "need a licensed person",
    ):
        assert caution in bench and caution not in other


@pytest.mark.parametrize(
    ("drawn", "cell"),
    [
        ("a|b", r"a\|b"),
        ("a\\|b", r"a\\\|b"),
        ("a\nb", "a b"),
        ("<script>", r"\<script\>"),
        ("[x](y)", r"\[x\](y)"),
        ("*A*", r"\*A\*"),
        ("UART_TX", "UART_TX"),
        ("_A_", r"\_A\_"),
        ("~{RST}", r"\~{RST}"),
        ("&lt;", r"\&lt;"),
        ("-", "'-"),
        ("+5V", "'+5V"),
        ("=1+1", "'=1+1"),
        ("  =1", "'=1"),
        ("@A", "'@A"),
        ("\tx", "' x"),
        ("A\u202eB", "A\\\\u202eB"),
        ("Ω 線", "Ω 線"),
    ],
)
def test_a_hostile_name_is_shown_as_it_was_drawn(drawn, cell):
    ((name, *_),) = table_rows(write_markdown(page([drawn])))
    assert name == cell


@given(st.lists(st.text(st.characters(exclude_categories=["Cs"]), max_size=8), min_size=1, max_size=4))
def test_no_text_breaks_the_table(names):
    rows = table_rows(write_markdown(page(names)))
    assert [len(row) for row in rows] == [4] * len(names)
    assert all(row[1:] == ["3", "28", "85.0"] for row in rows)


def test_a_page_without_rows_says_so():
    assert "No name." in lines_of(write_markdown(page([])))


def test_notes_and_the_meaning_of_the_columns_follow_the_table():
    text = write_markdown(page(["A"], notes=["Mind the | gap."])).decode()
    assert text.endswith(
        "## Notes\n\n- Mind the \\| gap.\n\n## Columns\n\n- `name`: what it is called\n- `contact`: where\n"
        "- `gauge_awg`: gauge, AWG\n- `length_mm`: length, mm\n"
    )
