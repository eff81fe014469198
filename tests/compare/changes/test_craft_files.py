"""A craft file that only one side has: told once, and nothing is made of what it leaves unknown.

Common practice, no source; the boat is one of the demo projects.
"""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from crafts.craft_kit import craft
from programs.tabside_command import answered as tabside
from slow_cases import slow
from tabside.compare import compare_crafts
from tabside.compare.order.order_of_work import order_of_work
from tabside.craft_reading import read_craft
from tabside.model.craft import CraftSettings
from tabside.wiring.terminations.fields import read_volts

BOAT = Path(__file__).parents[3] / "fixtures/survey_boat/rev_b"


@pytest.fixture(scope="module")
def bare(tmp_path_factory):
    """The drawing of the boat without its craft file."""
    folder = tmp_path_factory.mktemp("bare")
    for file in BOAT.glob("*.kicad_*"):
        shutil.copy(file, folder)
    return folder / "survey_boat.kicad_sch"


@pytest.fixture(scope="module")
def crafts(bare):
    return read_craft(BOAT / "survey_boat.kicad_sch"), read_craft(bare)


@pytest.mark.parametrize("missing", ["new", "old"])
def test_it_is_one_change_and_says_what_is_not_known(crafts, missing):
    whole, without = crafts
    found = compare_crafts(whole, without) if missing == "new" else compare_crafts(without, whole)
    assert not found.same
    told = [each for each in found.changes if each.subject != "finding"]
    assert [(each.subject, each.name) for each in told] == [("fact", "craft file")], told
    assert told[0].bench.startswith(f"The {missing} drawing has no craft file. Not known of it, and called no change: ")
    for word in ("the pack (4S)", "the gauge of", "the length of"):
        assert word in told[0].bench
    order = order_of_work(found)
    assert order.craft_file == told[0].bench
    assert not any("craft file" in line or "Another pack" in line for line in order.facts)
    assert {fate.what for fate in found.cables} == {"keep"}
    assert not any("accept" in each.name for each in found.changes)


def test_every_output_has_it_at_the_top(bare, tmp_path):
    ended = tabside("compare", BOAT / "survey_boat.kicad_sch", bare, "--to", tmp_path / "out")
    assert ended.returncode == 1
    said = " ".join(ended.stdout.split())
    assert said.count("has no craft file") == 1
    assert "Another pack" not in said and "less is stated" not in said
    for name in ("order-of-work.md", "order-of-work.html", "comparison.md"):
        text = (tmp_path / "out" / name).read_text(encoding="utf-8")
        assert "The new drawing has no craft file" in text, name


@pytest.mark.parametrize("text", ["", *slow(["# to be filled in\n", '[craft]\nname = "survey boat"\n'])])
@pytest.mark.parametrize("empty", ["new", "old"])
def test_a_file_that_says_nothing_of_the_build_is_told_as_one_that_is_missing(bare, crafts, tmp_path, text, empty):
    for file in bare.parent.glob("*.kicad_*"):
        shutil.copy(file, tmp_path)
    (tmp_path / "survey_boat.craft.toml").write_text(text)
    without = read_craft(tmp_path / bare.name)
    found = compare_crafts(crafts[0], without) if empty == "new" else compare_crafts(without, crafts[0])
    (told,) = [each for each in found.changes if each.subject != "finding"]
    assert told.bench.startswith(f"The {empty} drawing's craft file says nothing of the build. Not known of it, ")
    assert "the length of" in told.bench and "fill it in and compare again" in told.bench
    assert compare_crafts(without, without).same


def test_what_moves_is_told_all_the_same(bare):
    old = read_craft(BOAT.parent / "rev_a/survey_boat.kicad_sch")
    with_file = compare_crafts(old, read_craft(BOAT / "survey_boat.kicad_sch"))
    without = compare_crafts(old, read_craft(bare))
    moved = [{each.name for each in found.changes if each.kind == "moved"} for found in (with_file, without)]
    assert moved[0] == moved[1] != set()


@pytest.mark.parametrize(
    ("before", "after", "said"),
    [("4S", None, "No longer stated"), (None, "4S", "Stated for the first time"), ("4S", "6S", "Another pack")],
)
def test_a_pack_that_one_craft_file_does_not_state_is_no_other_pack(crafts, before, after, said):
    from msgspec.structs import replace

    volts = {None: None, "4S": read_volts("12-16.8V"), "6S": read_volts("18-25.2V")}

    def with_pack(name):
        settings = CraftSettings(battery=volts[name], battery_text=name or "", gauge_awg=22)
        return replace(crafts[0], settings=settings)

    (change,) = (each for each in compare_crafts(with_pack(before), with_pack(after)).changes if each.name == "battery")
    assert change.bench.startswith(said)


def test_volts_that_are_stated_beside_the_same_cells_are_told():
    """`battery = "4S"` and, in the new craft file, `volts` as well: what stands in both says no difference."""
    packs = [CraftSettings(battery=read_volts(volts), battery_text="4S") for volts in ("12-16.8V", "13.2-16.8V")]
    (change,) = (each for each in compare_crafts(*(craft(settings=pack) for pack in packs)).changes)
    assert (change.before, change.after) == ("4S, 12 to 16.8 V", "4S, 13.2 to 16.8 V")
