"""What KiCad's window titles tell; the titles are those that KiCad 9.0.8 and 10.0.7 were seen to show."""

from __future__ import annotations

import importlib
from importlib.resources import files

import pytest


@pytest.fixture
def screen(monkeypatch):
    with monkeypatch.context() as patch:
        patch.syspath_prepend(str(files("tabside.kicad") / "loaded"))
        yield importlib.import_module("tabside_screen")


@pytest.fixture
def root(tmp_path):
    for name in ("survey_boat", "board_parts/pilot"):
        sheet = tmp_path / f"{name}.kicad_sch"
        sheet.parent.mkdir(exist_ok=True)
        sheet.write_text("(kicad_sch)")
    return tmp_path / "survey_boat.kicad_sch"


@pytest.mark.parametrize(
    ("titles", "state"),
    [
        (["*survey_boat — Schematic Editor"], "changed"),
        (["survey_boat — Schematic Editor"], "saved"),
        (["*survey_boat [survey_boat] — Schematic Editor"], "changed"),
        (["survey_boat [survey_boat] — Schematic Editor", "Terminal"], "saved"),
        (["*pilot [survey_boat/pilot] — Schematic Editor"], "changed"),
        (["*survey_boat — Schaltplaneditor"], "changed"),  # other languages name the editor otherwise
        (["*survey_boat — PCB Editor"], "unknown"),
        (["*survey_boat — PCB Editor", "survey_boat — Schematic Editor"], "saved"),
        (["survey_boat — Schematic Editor", "*survey_boat — Schematic Editor"], "changed"),
        (["*other_boat — Schematic Editor"], "unknown"),
        (["survey_boat"], "unknown"),
        (["", "—", "* — "], "unknown"),
        ([], "unknown"),
    ],
)
def test_a_star_before_the_title_of_the_editor_means_changes_that_are_not_saved(screen, root, titles, state):
    assert screen.screen_state(root, titles) == state


def test_without_a_desktop_nothing_is_known(screen, root, monkeypatch):
    monkeypatch.delenv("DISPLAY", raising=False)
    assert screen.screen_state(root) == "unknown"
    monkeypatch.setenv("DISPLAY", ":4711")  # nobody is there
    assert screen.screen_state(root) == "unknown"
