"""Saves are noticed however a program saves: written into, replaced in one step, renamed, or with its whole folder."""

import os
import threading
import time

import pytest

from tabside.read.saves import state_of, wait_for_save


def written_into(path):
    path.write_text("new and longer")


def replaced_in_one_step(path):
    other = path.with_name("craft.tmp123")
    other.write_text("new")
    os.replace(other, path)


def renamed(path):
    path.rename(path.with_name("other.kicad_sch"))


def removed(path):
    path.unlink()


def of_equal_length(path):
    path.write_text("dlo")


def with_its_folder(path):
    path.parent.rename(path.parent.with_name("away"))
    path.parent.mkdir()
    path.write_text("new")


def seen(folder, save, at_most_s=5.0):
    """How long after the save the waiting ended, and whether something had changed."""
    before = state_of([folder])
    saved = []
    timer = threading.Timer(0.3, lambda: saved.append(time.monotonic()) or save())
    timer.start()
    after = wait_for_save(frozenset([folder]), before, at_most_s)
    ended = time.monotonic()
    timer.join()
    return after != before, ended - saved[0]


@pytest.fixture
def sheet(tmp_path):
    path = tmp_path / "project" / "craft.kicad_sch"
    path.parent.mkdir()
    path.write_text("old")
    return path


@pytest.mark.parametrize(
    "save", [written_into, replaced_in_one_step, renamed, removed, of_equal_length, with_its_folder]
)
def test_every_way_of_saving_is_noticed(sheet, save):
    changed, after_s = seen(sheet.parent, lambda: save(sheet))
    assert changed and after_s < 3


@pytest.mark.parametrize("name", ["craft.craft.toml", "fc.board.toml", "craft.kicad_pro", "sub.kicad_sch"])
def test_every_kind_of_file_that_is_read_counts(sheet, name):
    assert seen(sheet.parent, lambda: sheet.with_name(name).write_text("x"))[0]


@pytest.mark.parametrize("name", ["_autosave-craft.kicad_sch", "~craft.kicad_sch.lck", "craft.kicad_prl", "notes.txt"])
def test_what_is_not_read_does_not_count(sheet, name):
    assert not seen(sheet.parent, lambda: sheet.with_name(name).write_text("x"), at_most_s=1.0)[0]


@pytest.mark.skipif(not hasattr(os, "symlink"), reason="no links here")
def test_the_target_of_a_link_counts(sheet, tmp_path):
    target = tmp_path / "elsewhere.kicad_sch"
    target.write_text("old")
    sheet.with_name("linked.kicad_sch").symlink_to(target)
    assert seen(sheet.parent, lambda: target.write_text("newer"))[0]


def test_a_link_that_leads_nowhere_and_a_folder_that_is_not_there_are_no_trouble(sheet, tmp_path):
    sheet.with_name("broken.kicad_sch").symlink_to(tmp_path / "nowhere")
    folders = frozenset([sheet.parent, tmp_path / "missing"])
    before = state_of(folders)
    assert wait_for_save(folders, before, 0.2) == before
