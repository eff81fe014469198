"""Workbooks read back by another library (openpyxl), and looked at as the archive that they are (ECMA-376).

Source for formulas: OWASP, "CSV Injection".  Source for what a cell takes, 32767 characters, and a sheet's name, 31:
the makers' published limits of spreadsheets.
"""

import io
import re
import zipfile

import openpyxl
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from page_kit import ABOUT, page
from tabside.documents.document import Totals
from tabside.words.cautions import CAUTIONS
from tabside_exporters.formats.xlsx_pages import write_xlsx


def sheets_of(written):
    book = openpyxl.load_workbook(io.BytesIO(written))
    return {sheet.title: [[cell.value for cell in row] for row in sheet.iter_rows()] for sheet in book}


def lines_of(written, sheet="Try-out"):
    return [[value for value in row if value is not None] for row in sheets_of(written)[sheet]]


def test_the_table_stands_below_what_the_page_belongs_to():
    lines = lines_of(write_xlsx(page(["GND"])))
    assert lines[:6] == [
        ["Try-out: Pond skater, revision B"],
        ["NOT CLEARED TO BUILD: 2 errors"],
        ["Drawing 1a2b3c4d, Tabside 9.8.7, tables fedcba987654"],
        ["2 errors, 1 warning; checked 9 of 12 wires"],
        ["Accepted: no-return (warning) at pilot/J4:2, because: buzzer is driven between both contacts"],
        [],
    ]
    assert lines[6:8] == [["name", "contact", "gauge_awg", "length_mm"], ["GND", "3", "28", "85.0"]]


def test_a_bench_page_carries_the_cautions_and_another_does_not():
    cautions = [[f"Caution: {caution}"] for caution in CAUTIONS]
    assert [line for line in lines_of(write_xlsx(page(["x"], bench=True))) if line in cautions] == cautions
    assert not [line for line in lines_of(write_xlsx(page(["x"]))) if line in cautions]


def test_a_cleared_page_does_not_say_not_cleared():
    written = write_xlsx(page(["x"], about=replace(ABOUT, errors=0)))
    assert "NOT CLEARED" not in str(sheets_of(written)) and b"NOT CLEARED" not in footers(written)


def footers(written):
    archive = zipfile.ZipFile(io.BytesIO(written))
    return b"".join(archive.read(name) for name in archive.namelist() if name.startswith("xl/worksheets/sheet"))


def test_each_printed_sheet_says_not_cleared_in_its_footer():
    (footer,) = re.findall(rb"<oddFooter>(.*?)</oddFooter>", footers(write_xlsx(page(["x"]))))
    assert b"NOT CLEARED TO BUILD: 2 errors" in footer and b"Pond skater" in footer


def test_totals_are_a_sheet_of_their_own_that_carries_the_same():
    plain = page(["GND"])
    columns = plain.document.columns[:2]
    document = replace(plain.document, totals=Totals(columns, lambda build: None))
    written = write_xlsx(replace(plain, document=document, totals=plain.rows))
    assert list(sheets_of(written)) == ["Try-out", "Try-out totals"]
    lines = lines_of(written, "Try-out totals")
    assert lines[1] == ["NOT CLEARED TO BUILD: 2 errors"] and ["GND", "3"] in lines


@pytest.mark.parametrize(
    "text", ["=1+1", "+5V", "-", "@x", "=cmd|' /C calc'!A0", "{=1}", "http://a.example", "007", "1e5"]
)
def test_whatever_a_name_looks_like_its_cell_is_text_as_drawn(text):
    written = write_xlsx(page([text]))
    archive = zipfile.ZipFile(io.BytesIO(written))
    xml = archive.read("xl/worksheets/sheet1.xml").decode()
    assert "<f>" not in xml and "hyperlink" not in xml
    assert [text, "3", "28", "85.0"] in lines_of(written)
    # t="s" is a shared string; a cell without it would be a number (ECMA-376, 18.3.1.4).
    assert re.findall(r"<c [^>]*?>(?=<v>)", xml) and all(
        't="s"' in cell for cell in re.findall(r"<c [^>]*?>(?=<v>)", xml)
    )
    assert not [name for name in archive.namelist() if "external" in name.lower() or "vba" in name.lower()]


def test_the_same_page_gives_the_same_bytes_and_holds_no_clock():
    written = write_xlsx(page(["a", "b"], notes=["n"], bench=True))
    assert written == write_xlsx(page(["a", "b"], notes=["n"], bench=True))
    archive = zipfile.ZipFile(io.BytesIO(written))
    assert {entry.date_time for entry in archive.infolist()} == {(1980, 1, 1, 0, 0, 0)}
    assert set(re.findall(rb"\d{4}-\d\d-\d\dT[\d:]+", archive.read("docProps/core.xml"))) == {b"1980-01-01T00:00:00"}


def test_a_text_longer_than_a_cell_takes_is_cut_and_says_so():
    (row,) = [line for line in lines_of(write_xlsx(page(["x" * 40_000]))) if line[1:] == ["3", "28", "85.0"]]
    assert len(row[0]) == 32_767 and row[0].endswith("(cut here: longer than a cell takes)")


def test_a_page_without_rows_says_so():
    assert ["No name."] in lines_of(write_xlsx(page([])))


def test_what_is_not_known_says_so():
    assert ["not known", "3", "not known", "not known"] in lines_of(write_xlsx(page([None], gauge=None, length=None)))


@settings(max_examples=40, deadline=None)
@given(st.lists(st.text(max_size=30), min_size=1, max_size=4), st.text(max_size=30))
def test_any_name_gives_a_workbook_that_another_library_reads(names, craft):
    about = replace(ABOUT, craft=craft)
    rows = sheets_of(write_xlsx(page(names, about=about, notes=[craft])))["Try-out"]
    assert sum(row[1:] == ["3", "28", "85.0"] for row in rows) == len(names)
