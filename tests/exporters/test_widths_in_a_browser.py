"""The pages of the demo craft at the widths of desks: nothing is cut off or runs together, no word is broken.

Widths in CSS pixels: common screens and halves of them (common practice, no source).
"""

from pathlib import Path

import pytest

from tabside.compare import compare_crafts
from tabside.compare.pages import write_comparison
from tabside.craft_reading import read_craft
from tabside.documents.build import craft_build
from tabside.documents.writing.export import export_documents
from tabside.rules import check_craft

pytestmark = [pytest.mark.browser, pytest.mark.slow]

BOAT = Path(__file__).parents[2] / "fixtures/survey_boat"
LONGEST = 16  # letters of a word that no cell breaks

_BROKEN = """longest => {
    const found = [];
    for (const cell of document.querySelectorAll("td, th")) {
        const texts = document.createTreeWalker(cell, NodeFilter.SHOW_TEXT);
        for (let text = texts.nextNode(); text; text = texts.nextNode())
            for (const word of text.data.matchAll(/[A-Za-z]{2,}/g)) {
                const range = document.createRange();
                range.setStart(text, word.index);
                range.setEnd(text, word.index + word[0].length);
                const tops = new Set([...range.getClientRects()].map(each => Math.round(each.top)));
                if (tops.size > 1 && word[0].length <= longest) found.push(word[0]);
            }
    }
    return found;
}"""


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    to = tmp_path_factory.mktemp("boat")
    old, new = (read_craft(BOAT / revision / "survey_boat.kicad_sch") for revision in ("rev_a", "rev_b"))
    export_documents(craft_build(new, check_craft(new)), to, formats=["html"])
    write_comparison(compare_crafts(old, new), str(to / "comparison"), "html")
    return to


@pytest.mark.parametrize("width", [801, 1024, 1200, 1366, 1920])
def test_no_page_is_wider_than_the_screen_and_no_word_is_broken(browser, folder, width):
    shown = browser.new_page(viewport={"width": width, "height": 900})
    wrong = {}
    for path in sorted(folder.rglob("*.html")):
        shown.goto(path.as_uri())
        wide = shown.evaluate("document.documentElement.scrollWidth")
        broken = shown.evaluate(_BROKEN, LONGEST)
        if wide > width or broken:
            wrong[path.name] = (wide, broken[:5])
    assert wrong == {}


@pytest.mark.parametrize("width", [600, 800, 1200])
def test_no_outline_of_a_label_is_cut(browser, folder, width):
    shown = browser.new_page(viewport={"width": width, "height": 900})
    shown.goto((folder / "labels.html").as_uri())
    room = shown.locator(".sheet li").evaluate_all(
        "all => all.map(each => { const [outer, inner] = [each, each.querySelector('svg')].map(one =>"
        " one.getBoundingClientRect()); return Math.min(inner.top - outer.top, outer.bottom - inner.bottom); })"
    )
    assert room and min(room) >= 0.1 / 25.4 * 96  # half a stroke of the outline lies outside its rectangle


def test_what_is_parked_stands_apart_from_the_row(browser, folder):
    shown = browser.new_page(viewport={"width": 1280, "height": 900})
    for name in ("bench.html", "plan.html"):
        shown.goto((folder / name).as_uri())
        gaps = shown.locator(".now:has(.parked)").evaluate_all(
            "all => all.map(each => { const [row, parked] = ['.row', '.parked'].map(one =>"
            " each.querySelector(one).getBoundingClientRect()); return parked.left - row.right; })"
        )
        assert gaps and min(gaps) >= 5


def test_a_picture_stays_with_its_heading_on_paper(browser, folder):
    shown = browser.new_page(viewport={"width": 718, "height": 900})
    shown.emulate_media(media="print")
    shown.goto((folder / "comparison" / "order-of-work.html").as_uri())
    kept = shown.locator("section:has(> .picture)").evaluate_all(
        "all => all.map(one => getComputedStyle(one).breakInside)"
    )
    assert kept == ["avoid", "avoid"]


def test_the_first_plugs_stay_with_their_heading_on_paper(browser, folder):
    """A line of boxes does; in a row of flexible ones the heading is left alone at the foot of a page."""
    shown = browser.new_page(viewport={"width": 718, "height": 900})
    shown.emulate_media(media="print")
    shown.goto((folder / "comparison" / "comparison.html").as_uri())
    told = "one => getComputedStyle(one)"
    assert shown.locator("h2 + .plugset").evaluate(f"{told}.display") == "block"
    assert shown.locator("h2:has(+ .plugset)").evaluate(f"{told}.breakAfter") == "avoid"
    assert shown.locator("h2 + .plugset > .plugs").first.evaluate(f"{told}.display") == "inline-block"


@pytest.fixture(scope="module")
def copter(tmp_path_factory):
    to = tmp_path_factory.mktemp("copter")
    craft = read_craft(BOAT.parent / "multirotor/flat/multirotor.kicad_sch")
    export_documents(craft_build(craft, check_craft(craft)), to, only=["plan"], formats=["html"])
    return to / "plan.html"


def test_no_name_of_a_contact_runs_into_a_window_of_its_plug(browser, copter):
    shown = browser.new_page(viewport={"width": 1280, "height": 900})
    shown.goto(copter.as_uri())
    room = shown.locator("svg.plug:has(.window)").evaluate_all(
        "all => all.flatMap(plug => { const low = Math.max(...[...plug.querySelectorAll('.window')].map(one =>"
        " one.getBoundingClientRect().bottom)); return [...plug.querySelectorAll('.signal')].filter(one =>"
        " one.textContent).map(one => one.getBoundingClientRect().top - low); })"
    )
    assert room and min(room) >= 0


def test_a_short_test_stands_in_one_column_of_paper(browser, folder, copter):
    """Its heading says what to do with the fuse and the meter: half of it above, half beside, is misread."""
    shown = browser.new_page(viewport={"width": 718, "height": 900})
    shown.emulate_media(media="print")
    for path in (folder / "plan.html", folder / "comparison" / "order-of-work.html", copter):
        shown.goto(path.as_uri())
        parts = shown.locator(".block.test.few, .block.test h3").evaluate_all(
            "all => all.map(one => one.getClientRects().length)"
        )
        assert parts and set(parts) == {1}
