"""A new drawing that is not cleared gives no work to do: every output says so at the top and with each cable.

Common practice, no source: what is built from a drawing with errors is built twice.
"""

from __future__ import annotations

import csv
import re

import pytest

from crafts.craft_kit import craft, pads, plug
from tabside.cli.compare_command import _print
from tabside.compare import compare_crafts
from tabside.compare.comparison_json import comparison_json
from tabside.compare.held import errors_at
from tabside.compare.pages import write_comparison

BUS = "5V, SDA, SCL, GND"


def sensors(compass, *, lamp=True):
    """A barometer and a compass; `compass`: its own nets, or those of the barometer, which no cavity takes."""
    return craft(
        plug("J8", "V A B G", board="pilot", signals=BUS, family="JST GH", gives="5V 1A"),
        plug("J9", compass if compass != "V A B G" else "- - - -", board="pilot", signals=BUS, family="JST GH"),
        plug("J13", "V A B G", board="baro", signals=BUS, family="JST GH", takes="5V 0.1A"),
        plug("J18", compass, board="compass", signals=BUS, family="JST GH", takes="5V 0.1A"),
        pads("J30", "L M", board="power", signals="5V, GND", gives="5V 1A"),
        *([pads("J31", "L M", board="lamp", signals="5V, GND", takes="5V 0.1A")] if lamp else []),
    )


@pytest.fixture(scope="module")
def held():
    found = compare_crafts(sensors("W C D H"), sensors("V A B G", lamp=False))
    assert not found.cleared and not found.same
    return found


def test_the_sheet_of_a_cable_that_an_error_touches_names_it_and_the_others_wait_too(held):
    by_name = {work.fate.name: work.fate for work in held.work if work.steps}
    touched = {name for name, fate in by_name.items() if errors_at(held, fate)}
    assert touched == {"C1", "C2"}  # both sensors are on the net that takes one of them
    assert {"W9 W10"} <= by_name.keys()
    answer = comparison_json(held)
    assert answer["not_yet"] and answer["cleared"] is False
    for cable in answer["cables"]:
        assert all(words.startswith("Not yet: ") for words in cable["not_yet"]) and cable["not_yet"]


def test_the_page_and_the_text_offer_nothing_to_tick(held, tmp_path):
    write_comparison(held, str(tmp_path), "html,markdown,csv")
    page = (tmp_path / "order-of-work.html").read_text(encoding="utf-8")
    text = (tmp_path / "order-of-work.md").read_text(encoding="utf-8")
    assert ".not-yet .box { display: none; }" in page and '<main class="not-yet">' in page
    (banner,) = re.findall(r'<p class="stop" role="alert">(.*?)</p>', page)
    assert "Nothing of this list is to be done yet" in banner
    assert "\\[ \\]" not in text and "Nothing of this list is to be done yet" in text.partition("\n- ")[0]
    for head in re.findall(r"^## (.*)$", text, re.MULTILINE):
        told = ("New findings", "Findings", "Acceptances", "Cables that stay", "Is it so")
        assert head.startswith(("Not yet: ", *told)), head
    assert all("Not yet" in head for head in re.findall(r'<section class="cable".*?</h2>', page, re.DOTALL))
    rows = list(csv.DictReader((tmp_path / "order-of-work.csv").open(encoding="utf-8-sig")))
    assert rows[0]["what"] == "stop"
    assert not {row["what"] for row in rows} & {"cable", "test", "number", "label", "get", "measure last", "meter"}
    changes = list(csv.DictReader((tmp_path / "comparison.csv").open(encoding="utf-8-sig")))
    assert all(row["bench"].startswith("Not yet: ") for row in changes if row["subject"] == "lead")


def test_the_terminal_says_so_before_anything_else(held, capsys):
    _print(held)
    said = capsys.readouterr().out
    assert said.index("Nothing of this list is to be done yet") < said.index("Connectors and pads")
    assert "to do:" not in said
    assert not re.search(r"^(Cable|Wires|Measure|The meter|Then|New numbers|Parts)\b.*[^s]$", said, re.MULTILINE)


def test_a_drawing_that_is_cleared_is_work():
    found = compare_crafts(sensors("W C D H"), sensors("W C D H", lamp=False))
    assert found.cleared and comparison_json(found)["not_yet"] is None
    assert not any(cable["not_yet"] for cable in comparison_json(found)["cables"])
