"""The page to work from in a real browser: boxes, files, readings, what a failed test means.

The widths and the browser are those of `test_pages_in_a_browser`; 44 CSS pixels is the target size of WCAG 2.2, 2.5.5.
"""

import json

import pytest

from crafts.bench_craft import EVERYTHING, LENGTHS, build_of, page_of
from tabside.prove.cures import OF_ITSELF
from tabside.prove.diagnosis import Diagnoser

pytestmark = [pytest.mark.browser, pytest.mark.slow]


@pytest.fixture(scope="module")
def build():
    return build_of(*EVERYTHING, leads=LENGTHS)


@pytest.fixture
def at_bench(browser, build, tmp_path):
    """A function that opens a page in one browser, whose store lasts, and gives it; complaints fail the test."""
    context, complaints, asked = browser.new_context(), [], []

    def open_page(content=None, *, forgetful=False, of=context):
        path = tmp_path / "bench.html"
        path.write_bytes(content or page_of(build))
        shown = of.new_page()
        shown.on("pageerror", lambda error: complaints.append(str(error)))
        shown.on("console", lambda message: complaints.append(message.text))
        shown.on("request", lambda request: asked.append(request.url))
        if forgetful:
            shown.add_init_script("Storage.prototype.setItem = () => { throw new Error('full'); }")
        shown.goto(path.as_uri())
        return shown

    yield open_page
    context.close()
    assert complaints == []
    assert {url for url in asked if not url.startswith("blob:")} <= {(tmp_path / "bench.html").as_uri()}


def ticked(shown):
    return shown.locator(".item:has(input:checked)").evaluate_all("all => all.map(each => each.dataset.id)")


def box(shown, id):
    return shown.locator(f'.item[data-id="{id}"]').first


def tick(shown, *ids):
    for id in ids:
        box(shown, id).locator("input[type=checkbox]").check()


def first_ids(shown, most):
    return shown.locator(".item").evaluate_all(f"all => all.slice(0, {most}).map(each => each.dataset.id)")


def test_boxes_stay_ticked_when_the_page_is_opened_again(at_bench):
    shown = at_bench()
    assert "This browser keeps" in shown.locator("#kept").inner_text()
    some = first_ids(shown, 3)
    tick(shown, *some)
    shown.close()
    again = at_bench()
    assert ticked(again) == some
    assert again.locator("#progress").inner_text().startswith("3 of ")


def test_rows_that_have_changed_are_open_again_even_when_they_change_back(at_bench, build):
    shown = at_bench()
    everything = shown.locator(".item").evaluate_all("all => [...new Set(all.map(each => each.dataset.id))]")
    tick(shown, *everything)
    longer = page_of(build_of(*EVERYTHING, leads=LENGTHS | {"J1:2 - J3:3": {"gauge_awg": 28, "length_mm": 140.0}}))
    changed = at_bench(longer)
    still = set(ticked(changed))
    assert still and still < set(everything)
    assert "have changed since" in changed.locator("#said").inner_text()
    assert set(ticked(at_bench())) == still


def test_a_browser_that_keeps_nothing_is_told_of_in_the_first_line(at_bench):
    shown = at_bench(forgetful=True)
    tick(shown, *first_ids(shown, 1))
    assert shown.locator("main > *").first.inner_text().startswith("THIS BROWSER DOES NOT KEEP THE BOXES")


def test_boxes_go_to_another_device_by_a_file(at_bench, browser, tmp_path):
    shown = at_bench()
    some = first_ids(shown, 4)
    tick(shown, *some)
    with shown.expect_download() as caught:
        shown.locator("#save").click()
    saved = tmp_path / "boxes.json"
    caught.value.save_as(saved)
    assert set(json.loads(saved.read_text())["results"]) == set(some)
    other = browser.new_context()
    device = at_bench(of=other)
    assert ticked(device) == []
    device.locator("#load").set_input_files(saved)
    device.locator(".done").first.wait_for()
    assert ticked(device) == some
    other.close()


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("no JSON", "Not loaded: this is no file of boxes"),
        ("null", "Not loaded: this is no file of boxes"),
        ('{"format": "tabside/bench/1", "craft": "Other", "results": {}}', "Not loaded: this file is about Other"),
    ],
)
def test_a_file_of_something_else_changes_nothing(at_bench, tmp_path, text, said):
    shown = at_bench()
    some = first_ids(shown, 2)
    tick(shown, *some)
    (tmp_path / "wrong.json").write_text(text)
    shown.locator("#load").set_input_files(tmp_path / "wrong.json")
    shown.get_by_text(said).wait_for()
    assert ticked(shown) == some


@pytest.mark.parametrize(
    ("typed", "failed"), [("0.1", False), ("0,9", False), ("99", True), ("OL", True), ("x", False)]
)
def test_a_typed_reading_is_judged_at_once(at_bench, build, typed, failed):
    row = next(row for row in build.proof.rows if row.has_limit and row.limit_ohm)
    shown = at_bench()
    item = box(shown, row.id)
    item.locator("input[type=text]").fill(typed)
    assert item.locator(".judged").inner_text()
    item.locator("input[type=text]").blur()
    assert item.locator(".fail").get_attribute("aria-pressed") == str(failed).lower()
    assert not item.locator("input[type=checkbox]").is_checked()
    if failed:
        item.locator("input[type=checkbox]").click()
        assert not item.locator("input[type=checkbox]").is_checked()


def test_a_failed_test_shows_the_mistakes_that_the_command_names_and_what_it_measures_next(at_bench, build):
    """Held against `diagnose`, which works it out anew from the craft."""
    diagnoser = Diagnoser(build.proof)
    found = [row for row in build.proof.rows if any(row.id in ids for ids in build.proof.found_by.values())]
    for row in found:
        if row.id not in {each.id for cable in build.plan.cables for step in cable.steps for each in step.rows}:
            continue
        told = diagnoser.diagnose([row.id], [])
        shown = at_bench()
        shown.locator("#clear").click()
        shown.locator("#clear").click()
        item = box(shown, row.id)
        item.locator(".fail").click()
        said = item.locator(".means li").all_inner_texts()
        shares = [round(each.weight * 100) for each in told.explanations]
        assert len(said) == len(told.explanations)
        assert [int(text.rsplit("(", 1)[1].split(" of")[0]) for text in said] == [max(1, share) for share in shares]
        next_words = item.locator(".means > p").all_inner_texts()
        assert bool(next_words) == (told.measure_next is not None)
        shown.close()


def test_a_failed_part_is_told_of_itself_as_by_the_command(at_bench, build):
    """A capacitor's legs or a fuse on its own: no mistake of wires is looked for (common practice, no source)."""
    diagnoser = Diagnoser(build.proof)
    own = [row for row in build.proof.rows if diagnoser.is_of_itself(row.id)]
    assert own
    shown = at_bench()
    for row in own:
        box(shown, row.id).locator(".fail").click()
    for row in own:
        assert OF_ITSELF in box(shown, row.id).locator(".means").inner_text()


def test_what_is_fixed_is_measured_again(at_bench, build):
    row = next(row for row in build.proof.rows if row.has_limit)
    shown = at_bench()
    rows = [each.id for each in build.proof.rows]
    tick(shown, *rows)
    box(shown, row.id).locator(".fail").click()
    failed = box(shown, row.id)
    if not failed.locator(".means li").count():  # the other tests passed: nothing listed is left
        tick_off = [id for id in rows if id != row.id]
        for id in tick_off:
            box(shown, id).locator("input[type=checkbox]").uncheck()
    failed.locator(".means li button").first.click()
    assert row.id not in ticked(shown)
    assert failed.locator(".fail").get_attribute("aria-pressed") == "false"


def test_it_is_worked_by_keyboard_alone(at_bench):
    shown = at_bench()
    shown.locator("#next").focus()
    shown.keyboard.press("Enter")
    shown.keyboard.press("Space")
    assert len(ticked(shown)) == 1
    assert shown.evaluate("getComputedStyle(document.activeElement).outlineStyle") != "none"


def test_without_scripts_it_is_a_plain_sheet(browser, build, tmp_path):
    path = tmp_path / "bench.html"
    path.write_bytes(page_of(build))
    context = browser.new_context(java_script_enabled=False)
    shown = context.new_page()
    shown.goto(path.as_uri())
    assert shown.locator("button:visible").count() == 0
    assert shown.locator(".item:visible").count() == shown.locator(".item").count() > 0
    context.close()


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_on_a_phone_targets_are_large_colours_grey_and_nothing_is_pushed_sideways(browser, build, tmp_path, scheme):
    path = tmp_path / "bench.html"
    path.write_bytes(page_of(build))
    context = browser.new_context(viewport={"width": 390, "height": 844}, color_scheme=scheme)
    shown = context.new_page()
    shown.goto(path.as_uri())
    assert shown.evaluate("document.documentElement.scrollWidth") <= 390
    heights = shown.locator("button:visible, .item > label, .tools label, input[type=text]").evaluate_all(
        "all => all.map(each => each.getBoundingClientRect().height)"
    )
    assert min(heights) >= 43.9
    background = shown.evaluate("getComputedStyle(document.body).backgroundColor")
    assert background == ("rgb(17, 17, 17)" if scheme == "dark" else "rgb(255, 255, 255)")
    context.close()


def test_how_contacts_come_out_is_on_paper_though_it_was_folded(at_bench):
    shown = at_bench()
    told = shown.locator("details").first
    told.evaluate("each => { each.open = false; }")
    folded = told.bounding_box()["height"]
    shown.emulate_media(media="print")
    assert told.bounding_box()["height"] > folded + 10
