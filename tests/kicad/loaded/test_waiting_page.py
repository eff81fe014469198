"""The page that a button opens, in a real browser from a file: it turns into what was made, scripts or not."""

from __future__ import annotations

import importlib
import time
from importlib.resources import files

import pytest

from crafts.findings_craft import page_of
from tabside.documents.dated import STATE_FILE, Dated, state_picture
from tabside.read.kicad.lock import OnScreen

pytestmark = [pytest.mark.browser, pytest.mark.slow]


@pytest.fixture
def waiting(monkeypatch, tmp_path):
    """The waiting page of a drawing whose name is not easy on addresses."""
    with monkeypatch.context() as patch:
        patch.syspath_prepend(str(files("tabside.kicad") / "loaded"))
        root = tmp_path / "my <b>50%" / "boat #1 & ü.kicad_sch"
        root.parent.mkdir()
        yield importlib.import_module("tabside_waiting").WaitingPage(root, "check", f"checking {root.stem}")


@pytest.fixture
def findings(waiting):
    page = waiting.path.parent / "check" / "findings.html"
    page.parent.mkdir(parents=True)
    page.write_bytes(page_of())
    return page


@pytest.mark.parametrize("script", [True, False])
def test_it_turns_into_the_page_of_findings_at_the_place(browser, waiting, findings, script):
    waiting.at_work(0)
    context = browser.new_context(java_script_enabled=script)
    shown = context.new_page()
    shown.goto(waiting.path.as_uri())
    assert shown.title() == "Tabside is checking boat #1 & ü …"
    waiting.began -= 5
    waiting.at_work(3)
    shown.get_by_text("3 files written so far").wait_for(timeout=20_000)
    waiting.lead_to(findings, "finding-2")
    shown.wait_for_url(findings.as_uri() + "#finding-2", timeout=20_000)
    assert "Findings" in shown.title()
    context.close()


def test_it_turns_into_what_went_wrong_and_stays(browser, waiting):
    waiting.at_work(0)
    shown = browser.new_page()
    shown.goto(waiting.path.as_uri())
    waiting.say("boat.kicad_sch:3: is cut <off>", "Save it again.")
    shown.get_by_role("alert").wait_for(timeout=20_000)
    assert "is cut <off>" in shown.get_by_role("alert").inner_text()
    time.sleep(1.5)
    assert shown.title().endswith("not done")
    shown.close()


def test_no_state_of_it_breaks_a_rule_of_axe_core(browser, waiting, findings):
    axe = pytest.importorskip("axe_playwright_python.sync_playwright").Axe()
    dated = Dated("2026-11-28 12:31:05", (), (3, 4))
    (findings.parent / STATE_FILE).write_bytes(state_picture(dated.state))
    broken = {}
    shown = browser.new_page(bypass_csp=True)

    def look(name, address):
        shown.goto(address)
        found = axe.run(shown).response["violations"]
        if found:
            broken[name] = [(each["id"], each["nodes"][0]["html"]) for each in found]

    waiting.began -= 100
    waiting.at_work(2)
    # It would look again while axe-core is at work.
    waiting.path.write_text(waiting.path.read_text("utf-8").replace("location.reload", "void"), "utf-8")
    look("at work", waiting.path.as_uri())
    waiting.say("It is wrong.", "Mend it.")
    look("wrong", waiting.path.as_uri())
    for name, on_screen in (("open", OnScreen.MAY_DIFFER), ("changed", OnScreen.CHANGED)):
        findings.write_bytes(page_of(dated=dated, on_screen=on_screen))
        look(name, findings.as_uri())
    shown.close()
    assert broken == {}
