"""The craft file decides what a battery can reach: one that is there and not read may burn a board."""

from __future__ import annotations

import os
import shutil
from pathlib import Path

import pytest

from tabside.craft_reading import read_craft
from tabside.errors import TabsideError
from tabside.rules import check_craft

BOAT = Path(__file__).parents[1] / "fixtures" / "survey_boat" / "rev_b" / "survey_boat.kicad_sch"


@pytest.fixture
def root(tmp_path):
    shutil.copy(BOAT, tmp_path / "boat.kicad_sch")
    return tmp_path / "boat.kicad_sch"


def test_a_craft_file_that_is_a_link_to_nothing_is_an_error(root):
    root.with_name("boat.craft.toml").symlink_to("elsewhere.craft.toml")
    with pytest.raises(TabsideError, match=r"boat\.craft\.toml: cannot be read"):
        read_craft(root)


def test_a_craft_file_that_is_a_pipe_is_an_error(root):
    os.mkfifo(root.with_name("boat.craft.toml"))
    with pytest.raises(TabsideError, match="is not an ordinary file"):
        read_craft(root)


@pytest.mark.parametrize("name", ["Boat.craft.toml", "boat.Craft.TOML", "BOAT.CRAFT.TOML"])
def test_a_craft_file_whose_name_differs_in_capitals_is_a_warning(root, name):
    root.with_name(name).write_text('[craft]\nbattery = "6S"\n')
    (found,) = [finding for finding in check_craft(read_craft(root)).findings if name in finding.message]
    assert (found.rule, found.severity.value) == ("field-unclear", "warning")
    assert "boat.craft.toml" in found.message


def test_a_like_name_beside_the_right_file_is_nothing_to_tell(root):
    root.with_name("Boat.craft.toml").write_text("")
    root.with_name("boat.craft.toml").write_text("")
    assert read_craft(root).oddities == ()


@pytest.mark.parametrize("digits", [5_000, 100_000])
def test_a_number_of_thousands_of_digits_is_one_line(root, digits):
    root.with_name("boat.craft.toml").write_text("[craft]\n\n[defaults]\ngauge_awg = " + "9" * digits)
    with pytest.raises(TabsideError, match=r"boat\.craft\.toml:4: .*digits"):
        read_craft(root)


def test_what_the_craft_file_says_of_a_board_that_is_not_fitted_waits(tmp_path):
    """Marked DNP, in a variant or for now: its lengths and places are no mistake, another name is one."""
    shutil.copytree(BOAT.parent, tmp_path, dirs_exist_ok=True)
    boat = tmp_path / BOAT.name
    text = boat.read_text(encoding="utf-8")
    at = text.index('(property "Reference" "J18"')
    start = text.rindex("(dnp no)", 0, at)
    boat.write_text(text[:start] + "(dnp yes)" + text[start + len("(dnp no)") :], encoding="utf-8")
    craft_file = boat.with_name("survey_boat.craft.toml")
    assert "sounder" in craft_file.read_text(encoding="utf-8")
    assert "J18" not in read_craft(boat).terminations
    craft_file.write_text(
        craft_file.read_text(encoding="utf-8").replace("sounder/J18", "sounder/J181"), encoding="utf-8"
    )
    with pytest.raises(TabsideError, match=r'board "sounder"'):
        read_craft(boat)
