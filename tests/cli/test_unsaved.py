"""What a command says when KiCad may hold changes that are in no file."""

from __future__ import annotations

import os
import re
import shutil
from pathlib import Path

import pytest

from tabside.cli import main

BOAT = Path(__file__).parents[2] / "fixtures" / "survey_boat" / "rev_a"
NAME = "survey_boat.kicad_sch"
MINUTE_NS = 60_000_000_000


@pytest.fixture
def boat(tmp_path, monkeypatch):
    """The demo boat, saved ten minutes ago."""
    monkeypatch.delenv("TABSIDE_ON_SCREEN", raising=False)
    shutil.copytree(BOAT, tmp_path / "boat")
    root = tmp_path / "boat" / NAME
    written(root, -10)
    return root


def written(file, minutes):
    now = os.stat(Path(__file__)).st_mtime_ns
    os.utime(file, ns=(now + minutes * MINUTE_NS,) * 2)


def beside(root, name, content, minutes):
    file = root.parent / name
    file.parent.mkdir(exist_ok=True)
    file.write_bytes(content)
    written(file, minutes)


def warned(capsys):
    return [line for line in capsys.readouterr().err.splitlines() if "KiCad" in line]


def test_a_drawing_that_kicad_opened_after_it_was_saved_is_told_in_one_line(boat, capsys):
    beside(boat, f"~{NAME}.lck", b"{}", -5)
    main(["check", str(boat)])
    (line,) = warned(capsys)
    assert line.startswith("tabside: warning: ") and "not saved it since" in line


def test_a_drawing_that_was_saved_while_kicad_has_it_open_is_checked_without_a_word(boat, capsys):
    beside(boat, f"~{NAME}.lck", b"{}", -15)
    main(["check", str(boat)])
    assert warned(capsys) == []


# Source of the names: KiCad 9.0.8 wrote the first; the second is from KiCad 10's messages and was not seen.
@pytest.mark.parametrize("name", [f"_autosave-{NAME}", f".history/{NAME}"])
def test_what_kicad_keeps_of_changes_that_are_not_saved_is_told_in_one_line(boat, capsys, name):
    beside(boat, name, b"(kicad_sch)", -5)
    main(["check", str(boat)])
    (line,) = warned(capsys)
    assert "changes of this drawing that are not saved" in line


@pytest.mark.parametrize(("same", "minutes"), [(True, -5), (False, -15)])
def test_a_copy_that_says_the_same_or_is_older_is_no_change(boat, capsys, same, minutes):
    beside(boat, f"_autosave-{NAME}", boat.read_bytes() if same else b"(kicad_sch)", minutes)
    main(["check", str(boat)])
    assert warned(capsys) == []


def test_a_copy_that_cannot_be_read_does_not_stop_the_check(boat, capsys):
    boat.with_name(f"_autosave-{NAME}").mkdir()
    assert main(["check", str(boat)]) == 1
    assert warned(capsys) == []


def page(boat, tmp_path, monkeypatch, seen):
    monkeypatch.setenv("TABSIDE_ON_SCREEN", seen)
    main(["export", str(boat), "--to", str(tmp_path / "out"), "--only", "findings"])
    return (tmp_path / "out" / "findings.html").read_text("utf-8")


def test_a_button_s_page_says_what_the_editor_s_title_tells(boat, tmp_path, monkeypatch):
    beside(boat, f"~{NAME}.lck", b"{}", -5)
    first = {
        seen: re.split(r"<main>", page(boat, tmp_path, monkeypatch, seen))[1].split("<h1>")[0]
        for seen in ("saved", "unknown", "changed")
    }
    assert "<b>" not in first["saved"].replace("<b>This page is old.</b>", "")
    assert "This drawing is open in KiCad." in first["unknown"]
    assert "changes are not saved" in first["changed"]


def test_a_button_s_page_tells_when_the_drawing_was_saved_and_one_that_a_person_asks_for_has_no_clock(
    boat, tmp_path, monkeypatch
):
    dated = page(boat, tmp_path, monkeypatch, "saved")
    assert re.search(r"<title>.*, saved \d{4}-\d\d-\d\d \d\d:\d\d:\d\d</title>", dated)
    assert (tmp_path / "out" / "findings-state.svg").exists()
    monkeypatch.delenv("TABSIDE_ON_SCREEN")
    main(["export", str(boat), "--to", str(tmp_path / "out"), "--only", "findings"])
    plain = (tmp_path / "out" / "findings.html").read_text("utf-8")
    assert "saved 20" not in plain and "data-state" not in plain
    assert not (tmp_path / "out" / "findings-state.svg").exists()


def test_a_page_s_state_changes_with_the_drawing_and_with_what_the_editor_shows(boat, tmp_path, monkeypatch):
    states = set()
    for seen, minutes in (("saved", -10), ("changed", -10), ("saved", -9)):
        written(boat, minutes)
        states.add(re.search(r'data-state="(\d+x\d+)"', page(boat, tmp_path, monkeypatch, seen))[1])
    assert len(states) == 3


def test_a_comparison_tells_what_is_not_saved_first(boat, tmp_path, monkeypatch):
    monkeypatch.setenv("TABSIDE_ON_SCREEN", "changed")
    main(["compare", str(boat), str(boat), "--to", str(tmp_path / "out")])
    page = (tmp_path / "out" / "comparison.html").read_text("utf-8")
    assert page.index("were not saved") < page.index("<h1>")
