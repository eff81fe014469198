"""How a button tells what no page can tell, and what it opens pages with; on every system, without a window."""

from __future__ import annotations

import importlib
import sys
from importlib.resources import files

import pytest


@pytest.fixture
def window(monkeypatch):
    monkeypatch.delenv("TABSIDE_WINDOW", raising=False)
    with monkeypatch.context() as patch:
        patch.syspath_prepend(str(files("tabside.kicad") / "loaded"))
        yield importlib.import_module("tabside_window")


@pytest.mark.parametrize(
    ("system", "first", "then"),
    [
        ("win32", "windows", "wx"),  # wx: KiCad's own Python has it there, for the board editor
        ("darwin", "macos", "wx"),
        ("linux", "zenity", "kdialog"),
    ],
)
def test_each_system_has_a_window_of_its_own_and_a_page_at_last(window, monkeypatch, system, first, then):
    monkeypatch.setattr(sys, "platform", system)
    names = [name for name, _ in window._ways()]
    assert names[:2] == [first, then] and names[-1] == "page" and "wx" in names


@pytest.mark.parametrize("ill", ["raises", "says no"])
def test_what_one_way_cannot_do_the_next_one_does(window, monkeypatch, ill):
    told = []

    def first(what, todo):
        if ill == "raises":
            raise ImportError("wx")
        return False

    ways = [("first", first), ("second", lambda *words: told.append(words) or True)]
    monkeypatch.setattr(window, "_ways", lambda: ways)
    assert window.tell("It is wrong.", "Mend it.") == "second" and told == [("It is wrong.", "Mend it.")]


def test_where_nothing_can_be_shown_it_is_printed(window, monkeypatch, capsys):
    monkeypatch.setattr(window, "_ways", list)
    assert window.tell("It is wrong.", "Mend it.") == "stderr"
    assert capsys.readouterr().err == "It is wrong. Mend it.\n"


@pytest.mark.parametrize(
    ("named", "commands"),
    [
        ("", [["xdg-open", "URL"], ["gio", "open", "URL"]]),
        ("firefox", [["firefox", "URL"]]),
        ("'/opt/my browser' --new %s:other", [["/opt/my browser", "--new", "URL"], ["other", "URL"]]),
    ],
)
def test_pages_open_with_what_a_person_named_else_with_what_the_desktop_has(window, monkeypatch, named, commands):
    """BROWSER: as Python's own module webbrowser documents it."""
    monkeypatch.setattr(sys, "platform", "linux")
    monkeypatch.setenv("BROWSER", named)
    assert window.browsers("URL") == commands


def test_on_macos_the_desktop_opens_pages(window, monkeypatch):
    monkeypatch.setattr(sys, "platform", "darwin")
    monkeypatch.delenv("BROWSER", raising=False)
    assert window.browsers("URL") == [["open", "URL"]]
