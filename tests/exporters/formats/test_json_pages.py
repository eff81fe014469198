"""JSON for programs.  Source: RFC 8259."""

import json

import pytest

from page_kit import page
from tabside_exporters.formats.json_pages import write_json


def test_the_page_says_what_it_belongs_to():
    said = json.loads(write_json(page(["A"])))
    assert {key: said[key] for key in ("format", "document", "cleared")} == {
        "format": "tabside/document/1",
        "document": "tryout",
        "cleared": False,
    }
    assert said["about"]["not_cleared"] == "NOT CLEARED TO BUILD: 2 errors"
    assert (said["about"]["craft"], said["about"]["revision"]) == ("Pond skater", "B")
    assert (said["about"]["drawing_hash"], said["about"]["tabside"]) == ("1a2b3c4d", "9.8.7")


@pytest.mark.parametrize(("drawn", "value"), [("3", 3), ("A1", "A1"), ("²", "²"), ("٣", "٣"), ("-1", "-1")])
def test_a_contact_is_an_integer_when_it_is_decimal_else_a_text(drawn, value):
    (row,) = json.loads(write_json(page(["A"], contact=drawn)))["rows"]
    assert row["contact"] == value and type(row["contact"]) is type(value)


def test_numbers_are_numbers_and_what_is_not_known_is_null():
    (row,) = json.loads(write_json(page(["=1"])))["rows"]
    assert row == {"name": "=1", "contact": 3, "gauge_awg": 28, "length_mm": 85.04}
    (row,) = json.loads(write_json(page([""], gauge=None, length=None)))["rows"]
    assert row == {"name": None, "contact": 3, "gauge_awg": None, "length_mm": None}
