"""Every page of a folder held against axe-core (rules of WCAG 2 among them), as a desk, a phone and paper show it."""

import pytest

from crafts.bench_craft import EVERYTHING, LENGTHS, build_of
from tabside.documents.writing.export import export_documents

pytestmark = [pytest.mark.browser, pytest.mark.slow]


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    to = tmp_path_factory.mktemp("pages")
    export_documents(build_of(*EVERYTHING, leads=LENGTHS), to, formats=["html"])
    return to


def test_labels_and_their_ruler_are_printed_at_true_size(browser, folder):
    """A CSS inch is 25.4 mm and 96 pixels: CSS Values and Units, level 3."""
    shown = browser.new_page(viewport={"width": 718, "height": 1000})
    shown.emulate_media(media="print")
    shown.goto((folder / "labels.html").as_uri())
    line = shown.locator(".ruler path").evaluate("each => each.getBBox().width * each.getScreenCTM().a")
    assert line / 96 * 25.4 == pytest.approx(100, abs=0.1)
    letters = shown.locator(".sheet svg text").evaluate_all(
        "all => all.map(each => [each.getBBox().x, each.getBBox().x + each.getBBox().width,"
        " each.ownerSVGElement.viewBox.baseVal.width])"
    )
    assert letters and all(left >= 0 and right <= width for left, right, width in letters)


@pytest.mark.parametrize(
    ("width", "more"),
    [(1280, {}), (390, {}), (390, {"color_scheme": "dark"}), (718, {"media": "print"})],
    ids=["desk", "phone", "phone in the dark", "paper"],
)
def test_no_page_breaks_a_rule_of_axe_core(browser, folder, width, more):
    """718 CSS pixels: A4 upright less margins of 10 mm."""
    axe = pytest.importorskip("axe_playwright_python.sync_playwright").Axe()
    broken = {}
    # axe-core is put into the page as a script, which the page itself forbids.
    shown = browser.new_page(bypass_csp=True, viewport={"width": width, "height": 900})
    shown.emulate_media(**more)
    for path in sorted(folder.glob("*.html")):
        shown.goto(path.as_uri())
        found = axe.run(shown).response["violations"]
        if found:
            broken[path.name] = [(each["id"], each["nodes"][0]["html"]) for each in found]
        if width == 390:
            assert shown.evaluate("document.documentElement.scrollWidth") <= width, path.name
    assert broken == {}
