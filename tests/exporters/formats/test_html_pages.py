"""HTML pages, read by Python's own parser: what they say, and that no name in a drawing becomes markup.

The look in a browser and on paper is in test_pages_in_a_browser.py.
"""

import re
from html.parser import HTMLParser

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from page_kit import ABOUT, page
from tabside.documents.rows import CellKind, Column
from tabside.words.cautions import CAUTIONS
from tabside_exporters.formats.html_pages import write_html

EVIL = "<script>alert(1)</script><img src=x onerror=alert(2)>\"'&{{ 7*7 }}"


class Reader(HTMLParser):
    """Tags, attributes, and the text of table cells."""

    def __init__(self, written):
        super().__init__()
        self.tags, self.attributes, self.rows, self.text = [], [], [], []
        self._in_cell = False
        self.feed(written.decode())

    def handle_starttag(self, tag, attrs):
        self.tags.append(tag)
        self.attributes += [(tag, *pair) for pair in attrs]
        if tag == "tr":
            self.rows.append([])
        if tag in ("td", "th"):
            self.rows[-1].append("")
            self._in_cell = True

    def handle_endtag(self, tag):
        if tag in ("td", "th"):
            self._in_cell = False

    def handle_data(self, data):
        self.text.append(data)
        if self._in_cell:
            self.rows[-1][-1] += data


def test_a_page_says_what_it_belongs_to_and_that_it_is_not_cleared():
    read = Reader(write_html(page(["GND"], bench=True)))
    text = "".join(read.text)
    for said in (
        "Try-out: Pond skater, revision B",
        "NOT CLEARED TO BUILD: 2 errors",
        "1a2b3c4d",
        "9.8.7",
        "fedcba987654",
        "checked 9 of 12 wires",
        "because: buzzer is driven between both contacts",
        *CAUTIONS,
    ):
        assert said in text
    assert ["name", "contact", "gauge AWG", "length mm"] in read.rows and ["GND", "3", "28", "85.0"] in read.rows


def test_not_cleared_repeats_with_the_head_on_every_printed_page():
    written = write_html(page(["GND"])).decode()
    head = re.search(r"<thead.*?</thead>", written, re.DOTALL)[0]
    assert "NOT CLEARED TO BUILD: 2 errors" in head and "1a2b3c4d" in head


def test_a_cleared_page_does_not_say_it():
    assert b"NOT CLEARED" not in write_html(page(["x"], about=replace(ABOUT, errors=0)))


def test_names_never_become_markup():
    plain = Reader(write_html(page(["x"], about=replace(ABOUT, craft="x"), notes=["x"])))
    read = Reader(write_html(page([EVIL], about=replace(ABOUT, craft=EVIL), notes=[EVIL])))
    assert [
        tag for tag in read.tags if tag != "wbr"
    ] == plain.tags  # places where long words may go on in the next line
    assert [EVIL, "3", "28", "85.0"] in read.rows
    assert not [name for _, name, _ in read.attributes if name.startswith("on")]


def test_nothing_is_asked_of_the_network():
    read = Reader(write_html(page([EVIL])))
    assert not {name for _, name, _ in read.attributes} & {"src", "href", "srcset", "action", "data", "poster"}
    policy = next(value for _, name, value in read.attributes if value and "default-src" in value)
    assert policy.startswith("default-src 'none'")
    style = re.search(r"<style>(.*?)</style>", write_html(page(["x"])).decode(), re.DOTALL)[1]
    assert "url(" not in style and "@import" not in style


def test_a_box_to_tick_and_groups_of_rows():
    plain = page(["C1", "C1", "C2"])
    columns = (Column("name", ""), Column("result", "", CellKind.TICK))
    rows = tuple({"name": row["name"], "result": ""} for row in plain.rows)
    grouped = replace(plain, document=replace(plain.document, columns=columns, group="name"), rows=rows)
    read = Reader(write_html(grouped))
    assert [row for row in read.rows if row[0] in ("C1", "C2")] == [["C1"], ["C2"]]
    assert read.attributes.count(("span", "class", "box")) == 3


def test_the_same_page_gives_the_same_bytes():
    assert write_html(page(["a"])) == write_html(page(["a"]))


@pytest.mark.parametrize("name", ["a\u202eb", "a\x00b"])
def test_a_character_without_a_shape_is_written_out(name):
    assert [f"a\\u{ord(name[1]):04x}b", "3", "28", "85.0"] in Reader(write_html(page([name]))).rows


@settings(max_examples=60, deadline=None)
@given(st.text(max_size=40), st.text(max_size=40))
def test_no_name_adds_a_tag(name, craft):
    tags = Reader(write_html(page(["x"], about=replace(ABOUT, craft="x"), notes=["x"]))).tags
    told = Reader(write_html(page([name], about=replace(ABOUT, craft=craft), notes=[craft]))).tags
    assert [tag for tag in told if tag != "wbr"] == tags  # places where long words may go on in the next line
