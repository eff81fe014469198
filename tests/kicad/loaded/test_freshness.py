"""When the list of documents counts as old: whatever a drawing may be read from was saved after it was made."""

from __future__ import annotations

import hashlib
import html
import importlib
import json
import os
from importlib.resources import files

import pytest


@pytest.fixture
def freshness(monkeypatch):
    """The module as KiCad's scripts import it."""
    with monkeypatch.context() as patch:
        patch.syspath_prepend(str(files("tabside.kicad") / "loaded"))
        yield importlib.import_module("tabside_freshness")


@pytest.mark.parametrize(
    "saved", ["survey_boat.kicad_pro", "survey_boat.craft.toml", "deep/er/pod.kicad_sch", "../shared/pilot.board.toml"]
)
def test_whatever_the_drawing_is_read_from_makes_its_list_of_documents_old(saved, tmp_path, freshness):
    page, root = _made_page(tmp_path)
    assert freshness.is_newer(page, root)
    file = root.parent / saved
    os.utime(file, (page.stat().st_mtime + 5,) * 2)
    assert not freshness.is_newer(page, root)


def test_what_lies_beside_the_drawing_and_is_not_read_makes_nothing_old(tmp_path, freshness):
    page, root = _made_page(tmp_path)
    for name in ("notes.txt", "boat-tabside/documents/stock.toml", ".history/boat.kicad_sch"):
        file = root.parent / name
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text("")
        os.utime(file, (page.stat().st_mtime + 5,) * 2)
    assert freshness.is_newer(page, root)


def test_an_older_revision_of_a_sheet_makes_the_list_of_documents_old(tmp_path, freshness):
    page, root = _made_page(tmp_path)
    root.write_text("(kicad_sch another)")
    os.utime(root, (page.stat().st_mtime - 500,) * 2)
    assert not freshness.is_newer(page, root)


def test_a_folder_with_more_files_than_one_looks_at_makes_the_list_old(tmp_path, monkeypatch, freshness):
    page, root = _made_page(tmp_path)
    monkeypatch.setattr(freshness, "MOST_LOOKED_AT", 2)
    assert not freshness.is_newer(page, root)


def _made_page(folder):
    """A project's list of documents, an hour younger than all that the drawing is read from."""
    project = folder / "boat"
    for name, text in {
        "survey_boat.kicad_sch": "(kicad_sch)",
        "survey_boat.kicad_pro": "{}",
        "survey_boat.craft.toml": '[craft]\nboard_files = ["../shared/*.board.toml"]\n',
        "deep/er/pod.kicad_sch": "(kicad_sch)",
        "../shared/pilot.board.toml": "[board]\n",
        "survey_boat-tabside/documents/index.html": "<p>",
    }.items():
        file = project / name
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text(text)
    digest = hashlib.sha256(b"(kicad_sch)").hexdigest()
    sheets = html.escape(json.dumps([["../../survey_boat.kicad_sch", digest]]))
    page = project / "survey_boat-tabside" / "documents" / "index.html"
    (page.parent / "findings.html").write_text(f'<body data-files="{sheets}">')
    os.utime(page, (page.stat().st_mtime + 3600,) * 2)
    return page, project / "survey_boat.kicad_sch"
