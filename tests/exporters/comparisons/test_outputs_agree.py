"""Terminal, pages, tables and JSON tell the same: what JSON says is held against the text of every other output.

Brute force, no source outside: every change, step, row, part, number, label, caution and finding of the answer is
looked for, word by word, in the text that each output shows.
"""

from __future__ import annotations

import csv
import html
import io
import json
import random
import re
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

import openpyxl
import pytest
from msgspec.structs import replace

from crafts.craft_kit import captive, craft, pads, plug
from crafts.odd_crafts import odd_craft, odd_edit, odd_symbols
from crafts.pack_crafts import changed, craft_of, some_packs
from dice.random_edits import EDITS, draft, edited
from tabside.cli.compare_command import _print
from tabside.compare import compare_crafts
from tabside.compare.comparison import Comparison
from tabside.compare.comparison_json import comparison_json
from tabside.compare.pages import write_comparison
from tabside.craft_reading import read_craft
from tabside.model.craft import Craft
from tabside.prove import measurement

BOAT = Path(__file__).parents[3] / "fixtures/survey_boat"
OF_WORK = ("order-of-work.html", "order-of-work.md", "order-of-work.csv", "order-of-work.xlsx", "order-of-work.json")
OF_CHANGES = ("comparison.html", "comparison.md")
TABLES_OF_CHANGES = ("comparison.csv", "comparison.xlsx", "comparison.json")


def plain(text: str) -> str:
    """Letters, digits and signs, one blank between words; without the marks of a format."""
    return " ".join(re.sub(r"[\\*`'’|]", "", text.replace("\u2011", "-")).split())


def text_of_html(page: str) -> str:
    body = re.sub(r"<(style|svg|script)\b.*?</\1>", " ", page, flags=re.DOTALL)
    return html.unescape(re.sub(r"<[^>]*>", " ", re.sub(r"<wbr>|</?code>", "", body)))


def texts(comparison: Comparison, folder: Any, capsys: Any) -> dict[str, str]:
    """What a person reads, by output."""
    write_comparison(comparison, str(folder), None)
    found = {}
    for path in sorted(folder.iterdir()):
        if path.name == "tabside-manifest.json":
            continue
        if path.suffix == ".xlsx":
            book = openpyxl.load_workbook(path)
            cells = (cell.value for sheet in book for row in sheet.iter_rows() for cell in row)
            text = "\n".join(str(value) for value in cells if value is not None)
        elif path.suffix == ".csv":
            text = "\n".join(cell for row in csv.reader(io.StringIO(path.read_text("utf-8-sig"))) for cell in row)
        elif path.suffix == ".json":
            text = "\n".join(strings(json.loads(path.read_text("utf-8"))))
        else:
            text = path.read_text("utf-8")
            text = text_of_html(text) if path.suffix == ".html" else html.unescape(text)
        found[path.name] = plain(text)
    capsys.readouterr()
    _print(comparison)
    found["terminal"] = plain(capsys.readouterr().out)
    return found


def strings(said: object) -> Iterator[str]:
    if isinstance(said, dict):
        for value in said.values():
            yield from strings(value)
    elif isinstance(said, list):
        for value in said:
            yield from strings(value)
    elif said is not None:
        yield str(said)


def of_work(answer: Mapping[str, Any]) -> Iterator[str]:
    """What hands do, measure, get and put away."""
    stops = any(cable["stopped"] for cable in answer["cables"])
    yield from (*answer["cautions"], *answer["first"], *answer["last"])
    yield from (each["words"] for each in answer["plug_in"])
    for cable in answer["cables"]:
        if cable["do"] != "keep" or cable["steps"] or cable["stopped"]:
            yield from of_cable(cable, stops=stops)
    yield from map(row_words, (*answer["meter"], *answer["measure_last"]))
    for part in answer["parts"]:
        if part["more"] > 0:
            yield part["item"].removesuffix(", mm")
            yield part["note"] or ""
        else:
            yield part["item"]
    for was, now in answer["numbers"]:
        yield from (was, now or "")
    for label in answer["labels"]:
        yield from (*label["flags"], *label["tubes"])
    yield from (*answer["tools"], answer["tape_off"] or "", answer["numbers_stay"] or "", answer["chosen"] or "")


def of_cable(cable: Mapping[str, Any], *, stops: bool) -> Iterator[str]:
    """`stops`: a sheet of all of them does, and then nothing follows the sheets."""
    told = {row for step in cable["steps"] for row in step["rows"] or ()}
    yield from (cable["stopped"] or "", *cable["needs_one_look"])
    if cable["steps"]:
        yield from (*cable["cautions"], *cable["not_yet"])
    for step in cable["steps"]:
        yield step["words"]
        yield from (each["words"] for each in (*step["unplug"], *step["plug_in"]))
    yield from (row_words(row) for row in cable["measure"] if row["id"] in told or not stops)
    assert told <= {row["id"] for row in cable["measure"]}


def row_words(row: Mapping[str, Any]) -> str:
    return row["words"]


def of_findings(answer: Mapping[str, Any]) -> Iterator[str]:
    for those in ("new", "gone", "still"):
        for finding in answer["findings"][those]:
            yield from (finding["rule"], finding["message"], finding["accepted"] or "")
    assert answer["findings"]["standing"] == len(answer["findings"]["still"])


def of_changes(answer: Mapping[str, Any]) -> Iterator[str]:
    for change in answer["changes"]:
        if change["subject"] != "finding":
            yield from (change["name"], change["bench"], change["before"] or "", change["after"] or "")


def short_forms(comparison: Comparison) -> dict[str, str]:
    """How the page says it under a head that says the rest.

    A step stands under the wire's name, and a row of one wire without what its limit rests on (the continuity sheet
    has that).
    """
    found = {plain(step.words): plain(step.brief) for work in comparison.work for step in work.steps}
    rows = (row for work in comparison.work for row in work.measure if row.test is measurement.Test.WIRE)
    return found | {plain(row.words): plain(replace(row, notes=()).words) for row in rows}


def missing(said: Mapping[str, str], outputs: tuple[str, ...], wanted: Iterator[str]) -> list[tuple[str, str]]:
    listed = dict.fromkeys(plain(text) for text in wanted)
    return [(name, text) for name in outputs for text in listed if text not in said[name]]


def not_on_page(comparison: Comparison, page: str, wanted: Iterator[str]) -> list[str]:
    """The same for the page to work from."""
    short = short_forms(comparison)
    listed = dict.fromkeys(plain(text) for text in wanted)
    return [text for text in listed if text not in page and short.get(text, text) not in page]


def hold(comparison: Comparison, folder: Any, capsys: Any) -> None:
    answer = json.loads(json.dumps(comparison_json(comparison)))
    said = texts(comparison, folder, capsys)
    stops = any(cable["stopped"] for cable in answer["cables"])
    everywhere = ("terminal", *OF_WORK, *OF_CHANGES)  # the page to work from is the second
    if not comparison.same:
        assert not_on_page(comparison, said["order-of-work.html"], of_work(answer)) == []
        assert missing(said, everywhere[:1] + everywhere[2:], of_work(answer)) == []
        assert missing(said, everywhere, of_findings(answer)) == []
        rows = {row["step"] for cable in answer["cables"] for row in cable["measure"] if row["step"] and not stops}
        told = {row for name in everywhere for row in rows if f"row {row}:" not in said[name]}
        assert told == set()
    assert missing(said, ("comparison.html", *TABLES_OF_CHANGES, "comparison.md"), of_changes(answer)) == []
    for name in (*everywhere, *TABLES_OF_CHANGES):
        if not comparison.cleared and not comparison.same:
            assert "NOT CLEARED TO BUILD" in said[name] or "NOT DECIDED" in said[name], name


def link(*, gauge: int = 28, far: str = "JST GH", order: str = "5V, RX, TX, GND", length: float = 200.0) -> Craft:
    nets = {"5V": "V", "RX": "A", "TX": "B", "GND": "GND"}
    made = craft(
        plug("J1", "V A B GND", board="hub", family="JST GH", signals="5V, TX, RX, GND", gives="1:5V 1A"),
        plug("J2", " ".join(nets[each] for each in order.split(", ")), board="gps", family=far, signals=order),
        captive("BT1", "BAT GND", board="pack", signals="VBAT, GND", gives="1:12.8-16.8V 30A"),
        pads("J9", "BAT GND", board="hub", signals="VBAT, GND", takes="1:7-30V 5A"),
    )
    facts = {"J2": (gauge, length), "J9": (12, 120.0)}
    return replace(
        made,
        leads=tuple(
            replace(lead, gauge_awg=facts[ref][0], length_mm=facts[ref][1])
            for lead in made.leads
            for ref in facts
            if ref in dict(lead.ends)
        ),
    )


@pytest.mark.parametrize(
    "other",
    [
        pytest.param({"gauge": 26}, id="gauge"),
        pytest.param({"far": "JST SH"}, id="family"),
        pytest.param({"order": "GND, TX, RX, 5V"}, id="order"),
        pytest.param({"order": "GND, RX, TX, 5V", "far": "JST SH"}, id="order and family"),
        pytest.param({"length": 260.0}, id="too short"),
        pytest.param({"length": 150.0}, id="too long"),
        pytest.param({}, id="the same"),
    ],
)
def test_a_link_and_a_pack(other, tmp_path, capsys):
    hold(compare_crafts(link(), link(**other)), tmp_path, capsys)


@pytest.mark.parametrize("way", [1, -1])
def test_the_demo_boats(way, tmp_path, capsys):
    """Back to the old drawing is not cleared."""
    boats = [read_craft(BOAT / rev / "survey_boat.kicad_sch") for rev in ("rev_a", "rev_b")]
    hold(compare_crafts(*boats[::way]), tmp_path, capsys)


@pytest.mark.parametrize("what", sorted(EDITS))
def test_random_edits(what, tmp_path, capsys):
    before = draft(403)
    after = edited(before, what, 403)
    if after is not None:
        hold(compare_crafts(before.craft(), after.craft()), tmp_path, capsys)


@pytest.mark.parametrize(
    "seed", [*range(12), 84, 197, *(pytest.param(n, marks=pytest.mark.slow) for n in range(12, 197) if n != 84)]
)
def test_crafts_with_packs(seed, tmp_path, capsys):
    dice = random.Random(seed)
    build = some_packs(dice)
    hold(compare_crafts(craft_of(build), craft_of(changed(build, dice))), tmp_path, capsys)


@pytest.mark.parametrize("seed", [*range(6), 149, *(pytest.param(n, marks=pytest.mark.slow) for n in range(6, 149))])
def test_odd_crafts(seed, tmp_path, capsys):
    dice = random.Random(seed)
    symbols = odd_symbols(dice)
    hold(compare_crafts(odd_craft(symbols, 0), odd_craft(odd_edit(symbols, dice), 1)), tmp_path, capsys)
