"""DEVELOPERS.md names what there is, so that nobody is sent to a module that has moved."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

TOP = Path(__file__).parents[1]
ROOMS = ("plugin", "exporters", "tests", "fixtures")
PLACES = {
    path.relative_to(TOP).as_posix()
    for room in ROOMS
    for path in (TOP / room, *(TOP / room).rglob("*"))
    if "__pycache__" not in path.parts
}
WITHOUT_SUFFIX = {place.rsplit(".", 1)[0] for place in PLACES} | PLACES
# `make/needs/allowances`, `read/craft/file.py`, `loose/`, `joined/lead_ends.kept_plugs`; nothing in capitals.
NAMED = re.compile(r"`([a-z_]+(?:/[a-z_]+)*(?:/|/[a-z_.]+))`")


def is_there(name: str) -> bool:
    """A folder or a module somewhere in the tree, or something in one."""
    tried = {name.rstrip("/"), name.rsplit(".", 1)[0]}
    return any(place == one or place.endswith(f"/{one}") for one in tried for place in WITHOUT_SUFFIX)


@pytest.mark.parametrize("name", sorted(set(NAMED.findall((TOP / "DEVELOPERS.md").read_text("utf-8")))))
def test_what_the_page_names_is_there(name):
    assert is_there(name)


def test_what_is_not_there_is_noticed():
    assert not is_there("make/sheets/no_such_module")
    assert not is_there("nowhere/")
