"""Pages in a real browser: a headless Chromium of the system, driven by Playwright.

Widths: 390 CSS pixels is a usual phone; paper is A4 (210 x 297 mm, ISO 216) and Letter (8.5 x 11 in, ANSI).
"""

import re

import pytest

from crafts.findings_craft import ACCEPTED, MIRRORED, NOT_CROSSED, page_of
from page_kit import page
from tabside.documents.dated import STATE_FILE, Dated, state_picture
from tabside.documents.document import Document, Page
from tabside.documents.rows import CellKind, Column
from tabside.read.kicad.lock import OnScreen
from tabside_exporters.formats.html_pages import write_html

pytestmark = [pytest.mark.browser, pytest.mark.slow]

PHONE = {"width": 390, "height": 844}
DESK = {"width": 1280, "height": 900}


@pytest.fixture
def opened(browser, tmp_path):
    """A function that opens bytes as a file and gives the browser's page; fails at the end on any complaint of it."""
    contexts, complaints = [], []

    def open_file(content, *, viewport=DESK, name="page.html", script=True, **more):
        path = tmp_path / name
        path.write_bytes(content)
        context = browser.new_context(viewport=viewport, java_script_enabled=script, **more)
        contexts.append(context)
        shown = context.new_page()
        shown.asked = []
        shown.on("request", lambda request: shown.asked.append(request.url))
        shown.on("console", lambda message: complaints.append(message.text))
        shown.on("pageerror", lambda error: complaints.append(str(error)))
        shown.goto(path.as_uri())
        return shown

    yield open_file
    for context in contexts:
        context.close()
    assert complaints == []


def expect(locator):
    """Playwright's waiting assertion; its wait for a script is no use here: the pages forbid scripts from outside."""
    from playwright.sync_api import expect as waiting

    return waiting(locator)


def visible(shown):
    return [each.get_attribute("id") for each in shown.locator("article:visible").all()]


def kinds(shown):
    return shown.locator("article:visible").evaluate_all("all => [...new Set(all.map(each => each.dataset.kind))]")


def test_the_findings_page_opens_from_a_file_and_asks_the_network_for_nothing(opened, tmp_path):
    shown = opened(page_of())
    assert "Findings: Pond skater" in shown.title()
    assert shown.asked == [(tmp_path / "page.html").as_uri()]
    assert shown.locator(".stop").inner_text() == "NOT CLEARED TO BUILD: 2 errors"
    assert shown.locator("svg.plugs").count() >= 2


def test_filters_leave_what_was_asked_for_and_say_how_much(opened):
    shown = opened(page_of())
    everything = visible(shown)
    for kind in ("warning", "note", "accepted"):
        shown.get_by_role("checkbox", name=kind).uncheck()
    assert kinds(shown) == ["error"]
    assert shown.locator("#shown").inner_text() == f"2 of {len(everything)} findings shown."
    assert shown.locator("section.link:visible").count() == 2
    shown.get_by_label("board").select_option("sonde")
    assert shown.locator("article:visible .rule").all_inner_texts() == ["uart-not-crossed"]
    shown.get_by_role("button", name="Show all").first.click()
    expect(shown.locator("article[hidden]")).to_have_count(0)
    assert visible(shown) == everything


def test_words_in_any_order_find_a_finding(opened):
    shown = opened(page_of())
    shown.get_by_label("text").fill("SONDE crossed")
    rules = shown.locator("article:visible .rule").all_inner_texts()
    assert "uart-not-crossed" in rules and "mirrored" not in rules


def test_what_fits_nothing_is_said_and_taken_back(opened):
    shown = opened(page_of())
    everything = visible(shown)
    shown.get_by_label("text").fill("zebra")
    assert visible(shown) == [] and shown.locator("#nothing").is_visible()
    assert shown.locator("nav li:visible").count() == 0
    shown.locator("#all").click()
    assert visible(shown) == everything and not shown.locator("#nothing").is_visible()


def test_without_scripts_everything_is_there_and_no_dead_control(opened):
    shown = opened(page_of(), script=False)
    assert len(visible(shown)) == page_of().count(b"<article ")
    assert not shown.locator("form").is_visible() and shown.locator("button:visible").count() == 0


def test_everything_is_reached_and_worked_by_keyboard(opened):
    shown = opened(page_of())
    reached = []
    for _ in range(400):
        shown.keyboard.press("Tab")
        what = shown.evaluate(
            "(e => e === document.body ? null : e.tagName + ' ' + (e.name || e.dataset.copy || "
            "e.getAttribute('href') || ''))(document.activeElement)"
        )
        if what is None or (reached and what == reached[0]):
            break
        assert (
            what in ("BUTTON ", "INPUT text")
            or shown.evaluate("getComputedStyle(document.activeElement).outlineStyle") != "none"
        ), f"no outline on {what}"
        reached.append(what)
    assert reached[0] == "A #findings"
    assert {"INPUT kind", "SELECT board", "INPUT text", "a #finding-1", "BUTTON J1"} <= set(reached)
    assert reached.count("INPUT kind") == 4
    shown.get_by_role("checkbox", name="error").focus()
    shown.keyboard.press("Space")
    assert "error" not in kinds(shown)


def test_a_mark_leads_to_its_finding_even_when_the_filter_hides_it(opened):
    shown = opened(page_of())
    shown.get_by_role("checkbox", name="error").uncheck()
    shown.evaluate("location.hash = '#finding-1'")
    expect(shown.locator("#finding-1")).to_be_visible()
    assert shown.get_by_role("checkbox", name="error").is_checked()
    shown.locator("svg.plugs a").first.focus()
    shown.keyboard.press("Enter")
    shown.wait_for_url(re.compile("#finding-1$"))


def test_the_reference_to_search_for_is_copied(opened):
    shown = opened(page_of(), permissions=["clipboard-read", "clipboard-write"])
    shown.locator("button.copy[data-copy=J1]").first.click()
    expect(shown.locator("#copied")).to_have_text("Copied J1.")
    assert shown.evaluate("navigator.clipboard.readText()") == "J1"


def test_the_unsaved_warning_is_seen(opened):
    assert opened(page_of(on_screen=OnScreen.MAY_DIFFER)).locator(".unsaved:not([hidden])").is_visible()


LONG = "Net-(J1-Pin_1)_a_name_that_goes_on_and_on_without_any_blank_in_it_at_all_for_ever"


def bench_page():
    """A wide table with boxes to tick and with groups, as a document has it."""
    plain = page([LONG] * 60, bench=True, notes=[LONG * 3])
    columns = (*plain.document.columns, Column("cable", ""), Column("result", "", CellKind.TICK))
    columns += tuple(Column(f"column_{n}", "what it is") for n in range(10))
    more = {"result": ""} | {f"column_{n}": "text" for n in range(10)}
    rows = tuple({**row, "cable": "C1" if n < 30 else "C2", **more} for n, row in enumerate(plain.rows))
    document = Document("x", "Try-out", "row", columns, lambda build: rows, bench=True, group="cable")
    return Page(document, plain.about, rows, None, plain.notes)


@pytest.fixture(params=["findings", "document"])
def any_page(request):
    return page_of() if request.param == "findings" else write_html(bench_page())


def test_on_a_phone_nothing_has_to_be_pushed_sideways(opened, any_page):
    shown = opened(any_page, viewport=PHONE, device_scale_factor=2)
    assert shown.evaluate("document.documentElement.scrollWidth") <= 390
    sizes = shown.locator("p:visible, td:visible, li:visible").evaluate_all(
        "all => all.map(each => parseFloat(getComputedStyle(each).fontSize))"
    )
    assert min(sizes) >= 12  # CSS pixels


def test_the_drawings_can_be_read_on_a_phone(opened):
    shown = opened(page_of(), viewport=PHONE)
    scale = shown.locator("svg.plugs").first.evaluate(
        "each => each.getBoundingClientRect().width / each.viewBox.baseVal.width"
    )
    assert 14 * scale >= 11  # the names of signals, in CSS pixels


@pytest.mark.parametrize(("paper", "points"), [("A4", (595, 842)), ("Letter", (612, 792))])
def test_it_prints_on_a4_and_letter_without_controls(opened, any_page, paper, points):
    """Paper in points of 1/72 inch; a document of many columns lies across."""
    shown = opened(any_page)
    shown.emulate_media(media="print")
    assert shown.locator("button:visible, form:visible").count() == 0
    assert shown.locator(".stop").is_visible()
    sizes = re.findall(rb"/MediaBox\s*\[0 0 ([\d.]+) ([\d.]+)\]", shown.pdf(format=paper))
    assert sizes
    for size in sizes:
        assert sorted(map(float, size)) == pytest.approx(points, abs=1.5)  # the browser rounds to its own pixels


@pytest.mark.parametrize(
    ("width_mm", "made"),
    [
        pytest.param(190, page_of, id="findings on A4 upright"),
        pytest.param(195.9, page_of, id="findings on Letter upright"),
        pytest.param(277, lambda: write_html(bench_page()), id="document on A4 across"),
        pytest.param(259.4, lambda: write_html(bench_page()), id="document on Letter across"),
    ],
)
def test_in_print_nothing_is_wider_than_the_paper(opened, made, width_mm):
    """The paper's width less margins of 10 mm on each side, at 96 CSS pixels an inch."""
    pixels = int(width_mm / 25.4 * 96)
    shown = opened(made(), viewport={"width": pixels, "height": 1000})
    shown.emulate_media(media="print")
    assert shown.evaluate("document.documentElement.scrollWidth") <= pixels


def test_the_table_s_head_repeats_on_every_printed_page(opened):
    shown = opened(write_html(bench_page()))
    shown.emulate_media(media="print")
    assert shown.locator("thead").evaluate("each => getComputedStyle(each).display") == "table-header-group"
    assert "NOT CLEARED TO BUILD: 2 errors" in shown.locator("thead").inner_text()


def test_no_colour_is_needed(opened, any_page):
    """All colours are greys: red, green and blue are equal."""
    shown = opened(any_page)
    colours = shown.evaluate(
        "[...document.querySelectorAll('body, body *')].flatMap(each => { const s = getComputedStyle(each);"
        " return [s.color, s.backgroundColor, s.borderLeftColor, s.fill, s.stroke]; })"
    )
    for colour in set(colours) - {"none"}:
        red, green, blue = [int(float(part)) for part in colour[colour.index("(") + 1 : -1].split(",")[:3]]
        assert red == green == blue, colour


FRESH = Dated("2026-11-28 12:31:05", (("../boat.kicad_sch", "00"),), (300, 200))
LATER = Dated("2026-11-28 12:32:40", (("../boat.kicad_sch", "01"),), (301, 200))


def write_fresh(folder, symbols, dated):
    """As `watch` and the buttons do: the page, then the picture beside it."""
    (folder / "page.html").write_bytes(page_of(*symbols, dated=dated))
    (folder / STATE_FILE).write_bytes(state_picture(dated.state))


def test_a_page_that_is_kept_fresh_takes_the_newer_one_s_place_without_losing_the_reader_s(opened, tmp_path):
    write_fresh(tmp_path, (*MIRRORED, *NOT_CROSSED), FRESH)
    shown = opened(page_of(*MIRRORED, *NOT_CROSSED, dated=FRESH), viewport={"width": 900, "height": 420})
    assert "saved 2026-11-28 12:31:05" in shown.title()
    shown.get_by_role("checkbox", name="note").uncheck()
    article = shown.locator("article:visible").last
    says = article.locator("p").first.inner_text()
    article.evaluate("each => window.scrollTo(0, window.scrollY + each.getBoundingClientRect().top - 30)")
    before = article.evaluate("each => each.getBoundingClientRect().top")
    assert shown.evaluate("window.scrollY") > 0
    shown.wait_for_timeout(1500)
    assert "12:31:05" in shown.title()  # nothing is newer yet
    write_fresh(tmp_path, (*MIRRORED, *NOT_CROSSED, *ACCEPTED), LATER)
    expect(shown.locator(".saved")).to_contain_text("12:32:40", timeout=20_000)
    assert "saved 2026-11-28 12:32:40" in shown.title()
    expect(shown.get_by_role("checkbox", name="note")).not_to_be_checked()
    same = shown.locator("article:visible").filter(has_text=says)
    shown.wait_for_timeout(500)
    assert abs(same.first.evaluate("each => each.getBoundingClientRect().top") - before) < 3
    assert set(shown.asked) - {(tmp_path / "page.html").as_uri()} == {
        url for url in shown.asked if url.startswith((tmp_path / STATE_FILE).as_uri() + "?")
    }  # nothing but the picture beside the page


def test_a_page_from_a_web_server_finds_out_that_the_drawing_was_saved_since(browser, tmp_path):
    import functools
    import hashlib
    import http.server
    import threading

    drawing, folder = tmp_path / "boat.kicad_sch", tmp_path / "check"
    folder.mkdir()
    drawing.write_text("(kicad_sch)")
    digest = hashlib.sha256(drawing.read_bytes()).hexdigest()
    write_fresh(folder, MIRRORED, Dated("2026-11-28 12:31:05", (("../boat.kicad_sch", digest),), (3, 4)))

    class Quiet(http.server.SimpleHTTPRequestHandler):
        def log_message(self, *_):
            pass

    server = http.server.ThreadingHTTPServer(("127.0.0.1", 0), functools.partial(Quiet, directory=tmp_path))
    threading.Thread(target=server.serve_forever, daemon=True).start()
    context = browser.new_context()
    try:
        shown = context.new_page()
        shown.goto(f"http://127.0.0.1:{server.server_port}/check/page.html")
        shown.wait_for_timeout(1000)
        expect(shown.locator("#old")).to_be_hidden()
        drawing.write_text("(kicad_sch (wire))")
        expect(shown.locator("#old")).to_be_visible(timeout=20_000)
    finally:
        context.close()
        server.shutdown()
        server.server_close()


@pytest.mark.parametrize("known", [False, True])
def test_while_the_files_may_not_be_what_kicad_shows_the_first_line_says_so_and_the_verdict_is_not_bold(opened, known):
    shown = opened(page_of(on_screen=OnScreen.CHANGED if known else OnScreen.MAY_DIFFER))
    first = shown.locator("main > :visible").first
    assert ("changes are not saved" if known else "open in KiCad") in first.inner_text()
    weights = shown.locator(".stop, .next").evaluate_all("all => all.map(each => getComputedStyle(each).fontWeight)")
    assert weights == ["400", "400"]
    usual = opened(page_of()).locator(".stop, .next")
    assert usual.evaluate_all("all => all.map(each => getComputedStyle(each).fontWeight)") == ["700", "700"]


def test_without_scripts_the_reference_to_search_for_can_be_selected(opened):
    shown = opened(page_of(), script=False)
    assert shown.locator("button.copy").first.is_hidden()
    assert shown.locator("code.reference").first.inner_text() == "J1"
