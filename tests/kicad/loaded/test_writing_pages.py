"""Pages that the buttons write: whole, and never where a link of somebody's project leads.  Logic."""

from __future__ import annotations

import importlib
from importlib.resources import files

import pytest


@pytest.fixture
def write_whole(monkeypatch):
    with monkeypatch.context() as patch:
        patch.syspath_prepend(str(files("tabside.kicad") / "loaded"))
        yield importlib.import_module("tabside_window").write_whole


def test_a_page_is_made_with_its_folder_and_replaced(write_whole, tmp_path):
    page = tmp_path / "boat-tabside" / "check.html"
    for text in ("one", "ünd zwei"):
        write_whole(page, text)
        assert page.read_text(encoding="utf-8") == text
    assert [each.name for each in page.parent.iterdir()] == ["check.html"]


def test_a_link_in_the_page_s_place_is_replaced_and_what_it_leads_to_is_left(write_whole, tmp_path):
    (tmp_path / "mine").write_text("keep")
    folder = tmp_path / "boat-tabside"
    folder.mkdir()
    for name in ("check.html", ".check.html.part"):
        (folder / name).symlink_to(tmp_path / "mine")
    write_whole(folder / "check.html", "page")
    assert (tmp_path / "mine").read_text() == "keep" and (folder / "check.html").read_text() == "page"


def test_nothing_is_written_into_a_folder_that_is_a_link(write_whole, tmp_path):
    (tmp_path / "home").mkdir()
    (tmp_path / "boat-tabside").symlink_to("home")
    with pytest.raises(OSError, match="is a link"):
        write_whole(tmp_path / "boat-tabside" / "check.html", "page")
    assert not list((tmp_path / "home").iterdir())
