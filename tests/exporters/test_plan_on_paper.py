"""The plan printed by a real browser: so many sides of A4 (ISO 216) and Letter (ANSI), and a sheet on one side.

Run with a Chromium of the system; skipped without one.
"""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from crafts.craft_kit import plug
from crafts.small_craft import small_craft
from slow_cases import slow
from tabside.craft_reading import read_craft
from tabside.documents.build import craft_build
from tabside.documents.writing.export import export_documents
from tabside.model.craft import CraftSettings
from tabside.model.stock import Costs, StockCable
from tabside.rules import check_craft

pytestmark = pytest.mark.browser

FIXTURES = Path(__file__).parents[2] / "fixtures"
SIDES = re.compile(rb"/Type\s*/Page\b(?!s)")


@pytest.fixture
def printed(browser, tmp_path):
    """A function that writes the plan of a craft and gives the page, opened."""

    def write(craft):
        build = craft_build(craft, check_craft(craft))
        export_documents(build, tmp_path, only=["plan"], formats=["html"])
        page = browser.new_page()
        page.goto((tmp_path / "plan.html").as_uri())
        return page

    return write


def sides(page, paper):
    return len(SIDES.findall(page.pdf(format=paper, prefer_css_page_size=False)))


@pytest.mark.parametrize("paper", ["A4", *slow(["Letter"])])
@pytest.mark.parametrize(
    ("drawing", "most"),
    [
        ("survey_boat/rev_b/survey_boat.kicad_sch", 14),
        ("multirotor/sheets/multirotor.kicad_sch", 11),
        ("multirotor/flat/multirotor.kicad_sch", 11),
    ],
)
def test_a_demo_craft_s_plan_is_short(printed, drawing, most, paper):
    assert sides(printed(read_craft(FIXTURES / drawing)), paper) <= most


EIGHT = ("5V, TX, RX, CTS, RTS, SDA, SCL, GND", "GND, TX, RX, CTS, RTS, SDA, SCL, 5V")
KNOWN = {"entry": "side", "tabs": "board", "contact_1": "left"}


def eight_ways(**stock):
    """Supply and ground change places; both plugs are drawn with both faces, and every end is crimped by hand."""
    here = [f"N{n}" for n in range(8)]
    there = [here[7], *here[1:7], here[0]]
    second = "jst_gh" if stock else "JST PH"
    symbols = (
        plug("J1", here, board="autopilot", family="JST GH", signals=EIGHT[0], **KNOWN),
        plug("J2", there, board="position", family=second, signals=EIGHT[1], **KNOWN),
    )
    facts = {"*": {"length_mm": 100.0, "gauge_awg": 28}}
    settings = CraftSettings(costs=Costs(buy_ready=False, move_minutes=0.1, move_risk=0.0), **stock)
    return small_craft(*symbols, settings=settings, leads=facts)


STOCK = StockCable("reversed", (("jst_gh", 8),) * 2, tuple((n, 9 - n) for n in range(1, 9)), "reversed", 100.0, 1, True)


@pytest.mark.parametrize(("paper", "height_mm"), [("A4", 297.0), ("Letter", 279.4)])
@pytest.mark.parametrize("stock", [{}, {"stock_cables": (STOCK,)}])
def test_a_cable_of_eight_ways_fits_one_side(printed, paper, height_mm, stock):
    page = printed(eight_ways(**stock))
    page.emulate_media(media="print")
    margins_mm = 11 + 13  # of the page's own style
    width_mm = {"A4": 210.0, "Letter": 215.9}[paper] - 20
    page.set_viewport_size({"width": round(width_mm / 25.4 * 96), "height": 1000})
    high = page.locator("section.cable").first.bounding_box()["height"] / 96 * 25.4
    assert high <= height_mm - margins_mm


@pytest.mark.parametrize("width", [390, 1280])
def test_a_row_of_forty_is_readable_and_the_page_no_wider_than_the_screen(printed, width):
    names = [f"N{n}" for n in range(40)]
    other = [names[1], names[0], *names[2:]]
    symbols = (
        plug("J1", names, board="pilot", family="JST SH", **KNOWN),
        plug("J2", other, board="radio", family="JST SH", **KNOWN),
    )
    stock = StockCable("forty", (("jst_sh", 40),) * 2, tuple((n, n) for n in range(1, 41)), "straight", 100.0, 1, True)
    settings = CraftSettings(stock_cables=(stock,), costs=Costs(buy_ready=False))
    facts = {"*": {"length_mm": 100.0, "gauge_awg": 28}}
    page = printed(small_craft(*symbols, settings=settings, leads=facts))
    page.set_viewport_size({"width": width, "height": 900})
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    boxes = page.locator(".row.long .cav")
    assert boxes.count() % 40 == 0 and boxes.first.bounding_box()["width"] >= 15
    overlap = page.evaluate(
        "[...document.querySelectorAll('.row.long .cav')].some(c => c.scrollWidth > c.clientWidth + 2)"
    )
    assert not overlap
