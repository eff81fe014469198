"""The manual held against axe-core, as a desk, a phone and paper show it."""

import pytest

from tabside_exporters.manual.manual_page import manual_page

pytestmark = [pytest.mark.browser, pytest.mark.slow]


@pytest.mark.parametrize(
    ("width", "more"),
    [
        (1280, {}),
        (1280, {"color_scheme": "dark"}),
        (390, {}),
        (390, {"color_scheme": "dark"}),
        (718, {"media": "print"}),
    ],
    ids=["desk", "desk in the dark", "phone", "phone in the dark", "paper"],
)
def test_the_manual_breaks_no_rule_of_axe_core_and_fits(browser, tmp_path, width, more):
    axe = pytest.importorskip("axe_playwright_python.sync_playwright").Axe()
    page = tmp_path / "manual.html"
    page.write_bytes(manual_page())
    # axe-core is put into the page as a script, which the page itself forbids.
    shown = browser.new_page(bypass_csp=True, viewport={"width": width, "height": 900})
    asked = []
    shown.on("request", lambda request: asked.append(request.url))
    shown.emulate_media(**more)
    shown.goto(page.as_uri())
    found = axe.run(shown).response["violations"]
    assert [(each["id"], [node["html"] for node in each["nodes"][:5]]) for each in found] == []
    assert shown.evaluate("document.documentElement.scrollWidth") <= width
    assert all(address.startswith(("file:", "data:")) for address in asked)  # nothing from a network
    pictures = shown.locator("main img").evaluate_all("all => all.map(each => each.complete && each.naturalWidth)")
    assert pictures and all(pictures)
