"""The order of work on paper: every step, row and plug of the comparison stands on it, and everybody can read it."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest

from crafts.craft_kit import plug
from crafts.small_craft import small_craft
from dice.random_edits import draft, edited
from tabside.compare import compare_crafts
from tabside.compare.order.order_of_work import order_of_work
from tabside.compare.pages import write_comparison
from tabside.craft_reading import read_craft
from tabside.read.craft.file import settings_from_text

BOAT = Path(__file__).parents[3] / "fixtures/survey_boat"


@pytest.fixture(scope="module")
def boats():
    return compare_crafts(*(read_craft(BOAT / rev / "survey_boat.kicad_sch") for rev in ("rev_a", "rev_b")))


def test_all_formats_name_every_step_and_every_row_to_measure(boats, tmp_path):
    write_comparison(boats, str(tmp_path), None)
    page = (tmp_path / "order-of-work.html").read_text(encoding="utf-8")
    text = (tmp_path / "order-of-work.md").read_text(encoding="utf-8")
    rows = json.loads((tmp_path / "order-of-work.json").read_text(encoding="utf-8"))["rows"]
    steps = [step for work in boats.work for step in work.steps]
    assert sum(row["what"] == "cable" and row["step"] not in ("", None) for row in rows) == len(steps)
    for work in boats.work:
        if work.steps:
            assert f'id="s-{work.fate.name}"' in page
    assert text.count("\\[ \\]") >= len(steps) + len(boats.measure) - 1
    assert page.count("<svg class=") >= 2  # the old and the new build
    assert 'href="order-of-work.html"' in (tmp_path / "comparison.html").read_text(encoding="utf-8")
    for change in boats.changes:
        if change.subject == "setting" and not change.bench.startswith("Nothing"):
            assert change.name in page and change.name in text


def test_the_same_build_has_nothing_to_do(boats, tmp_path):
    write_comparison(compare_crafts(boats.new.craft, boats.new.craft), str(tmp_path), "html,markdown")
    for name in ("order-of-work.html", "order-of-work.md"):
        assert "There is nothing to do at the bench." in (tmp_path / name).read_text(encoding="utf-8")


@pytest.mark.parametrize("what", ["ways", "ports exchanged", "board goes", "fuse", "splice split"])
def test_what_becomes_free_is_told_in_words_that_the_craft_file_takes(what):
    for seed in (403, 417, 428):
        before = draft(seed)
        after = edited(before, what, seed)
        if after is not None:
            order = order_of_work(compare_crafts(before.craft(), after.craft()))
            if order.stock:
                settings_from_text(order.stock.encode(), "craft.toml")


@pytest.mark.browser
@pytest.mark.slow
@pytest.mark.parametrize(
    ("width", "more"),
    [(1280, {}), (390, {}), (390, {"color_scheme": "dark"}), (718, {"media": "print"})],
    ids=["desk", "phone", "phone in the dark", "paper"],
)
def test_no_page_of_a_comparison_breaks_a_rule_of_axe_core(browser, boats, tmp_path, width, more):
    """718 CSS pixels: A4 upright less margins of 10 mm."""
    axe = pytest.importorskip("axe_playwright_python.sync_playwright").Axe()
    write_comparison(boats, str(tmp_path), "html")
    shown = browser.new_page(bypass_csp=True, viewport={"width": width, "height": 900})
    shown.emulate_media(**more)
    for path in sorted(tmp_path.glob("*.html")):
        shown.goto(path.as_uri())
        found = axe.run(shown).response["violations"]
        assert [(each["id"], each["nodes"][0]["html"]) for each in found] == [], path.name
        assert shown.evaluate("document.documentElement.scrollWidth") <= width, path.name


def test_the_page_runs_and_fetches_nothing(boats, tmp_path):
    write_comparison(boats, str(tmp_path), "html")
    page = (tmp_path / "order-of-work.html").read_text(encoding="utf-8")
    assert "<script" not in page and not re.search(r'(?:src|href)="(?!#)', page)


def test_a_drawing_that_is_not_cleared_says_so_once_in_the_banner(boats, tmp_path):
    back = compare_crafts(boats.new.craft, boats.old.craft)
    write_comparison(back, str(tmp_path), "html,markdown")
    page = (tmp_path / "order-of-work.html").read_text(encoding="utf-8")
    (banner,) = re.findall(r'<p class="stop" role="alert">(.*?)</p>', page)
    text = (tmp_path / "order-of-work.md").read_text(encoding="utf-8").partition("\n- ")[0]
    assert banner.count("NOT CLEARED") == 1 == text.count("NOT CLEARED") and "Fix it before" in banner


def with_xt60(there):
    signals = ", ".join({"BAT": "VBAT"}.get(name, name) for name in there)
    return small_craft(
        plug("J1", ["BAT", "GND"], board="power", signals="VBAT, GND", gives="1:12-16V 30A", family="XT60"),
        plug("J2", there, board="drive", signals=signals, takes="9-26V 10A", family="XT60"),
        leads={"*": {"length_mm": 100.0, "gauge_awg": 14}},
    )


def test_wires_in_solder_cups_want_an_iron_and_no_tweezers(tmp_path):
    """A soldered cup has no lance, clicks at nothing, and shows no row of cavities."""
    found = compare_crafts(with_xt60(["BAT", "GND"]), with_xt60(["GND", "BAT"]))
    order = order_of_work(found)
    assert not [tool for tool in order.tools if "tweezers" in tool or "fine pen" in tool]
    assert [tool for tool in order.tools if tool.startswith("soldering iron")]
    steps = [step for work in order.works for step in work.steps]
    assert sum("unsolder" in step.words for step in steps) == 2
    assert not [step.words for step in steps if "click" in step.words or "cavity" in step.words]
    write_comparison(found, str(tmp_path), "html")
    assert 'class="cav' not in (tmp_path / "order-of-work.html").read_text(encoding="utf-8")


@pytest.mark.parametrize("name", ["lamp", "GPS/compass"])
def test_the_connectors_of_a_board_that_comes_are_told_with_the_board(name):
    hub = plug("J1", "V G", board="hub", family="JST GH", signals="5V, GND", gives="5V 1A")
    come = plug("J2", "V G", board=name, family="JST GH", signals="5V, GND", takes="5V 0.1A")
    lines = order_of_work(compare_crafts(small_craft(hub), small_craft(hub, come))).boards
    assert len([line for line in lines if name in line]) == 1
