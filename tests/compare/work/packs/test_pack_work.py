"""Work at packs is safe at every step, over crafts and changes by dice and in both directions.

Held by a bench that follows what is joined, taped, fused and powered: `tests/kits/benches/pack_bench.py`.  Brute force;
common practice of work at packs, no source outside.
"""

from __future__ import annotations

import itertools
import random

import pytest

from benches.live_bench import dangers
from benches.pack_bench import perils
from benches.rebuild_bench import wrongs
from compare.work.packs.test_cautions import CASES, boat
from compare.work.test_live_work import on_pads
from crafts.pack_crafts import changed, craft_of, some_packs
from slow_cases import slow
from tabside.compare import compare_crafts
from tabside.compare.comparison_json import comparison_json
from tabside.model.craft import Craft


def followed(old: Craft, new: Craft) -> None:
    """Both ways: no peril, and the new build results."""
    for one, other in ((old, new), (new, old)):
        found = compare_crafts(one, other)
        sheet = () if found.same else found.build.proof.rows
        assert perils(found) == []
        assert wrongs(one, other, comparison_json(found), sheet) == []


def by_dice(seed: int) -> tuple[Craft, Craft]:
    dice = random.Random(seed)
    build = some_packs(dice)
    return craft_of(build), craft_of(changed(build, dice))


@pytest.mark.parametrize("seed", [4, *slow(range(600, 640))])
def test_a_pack_that_only_has_another_name_is_the_same_pack(seed):
    """In peril once: with another name it was not parted from the craft before the work."""
    dice = random.Random(seed)
    build = some_packs(dice)
    followed(craft_of(build), craft_of({**changed(build, dice), "pack": "battery"}))


PADS = {
    "right": {},
    "crossed": {"crossed": True},  # an error of the drawing, and of the craft that was built by it
    "other pads": {"turned": True},
    "fused": {"fuse": "F1"},
    "fused, crossed": {"fuse": "F1", "crossed": True},
    "fused, other pads": {"fuse": "F1", "turned": True},
}


@pytest.mark.parametrize(("before", "after"), list(itertools.permutations(PADS, 2)))
def test_leads_on_exchanged_pads_never_meet(before, after):
    """What a lead is decides, not the pad it sits on: plus is off before all else, both before one is on."""
    old, new = on_pads(**PADS[before]), on_pads(**PADS[after])
    found = compare_crafts(old, new)
    no_volts = ("no volts there", "power before the volts are measured")  # nobody builds a crossed one
    said = [each for each in perils(found) if "crossed" not in after or not each.startswith(no_volts)]
    answer = comparison_json(found)
    assert said == dangers(old, new, answer) == wrongs(old, new, answer, found.build.proof.rows) == []
    first = [line for line in answer["first"] if line.startswith("pack has no plug: before any other work")]
    assert len(first) == 1
    assert ("take the fuse out of F1" if "fused" in before else "LIVE: unsolder W1") in first[0]


@pytest.mark.parametrize("case", CASES)
def test_a_pack_is_joined_only_when_all_is_tested(case):
    followed(*(boat(**each) for each in CASES[case]))


@pytest.mark.parametrize(
    "seed",
    [
        *(
            4,
            12,
            13,
            16,
            17,
            18,
            23,
            38,
            57,
            59,
            69,
            84,
            106,
            131,
            138,
            140,
            165,
            215,
            261,
            290,
            306,
            328,
            351,
            472,
        ),  # each in peril in its own way
        *(pytest.param(seed, marks=pytest.mark.slow) for seed in range(200, 400)),
    ],
)
def test_packs_by_dice_are_never_worked_on_in_peril(seed):
    followed(*by_dice(seed))


IN_PERIL = (
    12,
    23,
    28,
    48,
    15,
    16,
    33,
    64,
    70,
    78,
    80,
    101,
    106,
    119,
    120,
    131,
    154,
    156,
    173,
    227,
    313,
    547,
)  # each once


@pytest.mark.parametrize("seed", [*range(8), *IN_PERIL, *slow([*range(400, 547), *range(548, 560)])])
def test_packs_by_dice_on_pads_the_other_way_round(seed):
    dice = random.Random(seed)
    build = {**some_packs(dice), "ends in": "pads", "second": dice.choice(["", "", "parallel", "servo"])}
    other = {**changed(build, dice), "ends in": "pads"} if dice.random() < 0.5 else build
    followed(craft_of(build), craft_of({**other, "turned": True}))


SEVERAL = (
    5,
    34,
    47,
    103,
    139,
    457,
    190,
    201,
    234,
    275,
    313,
    344,
    357,
    1046,
    1169,
    1280,
    306,
    2053,
    2125,
    3028,
    3063,
)  # each in peril in its own way


@pytest.mark.parametrize(
    "seed", [123, 166, 180, 197, 319, 382, *SEVERAL, *slow([*range(400, 500), *range(1400, 1500)])]
)
def test_packs_by_dice_with_several_changes_at_once(seed):
    dice = random.Random(f"x{seed}")
    build = some_packs(dice)
    other = changed(build, dice)
    if dice.random() < 0.5:
        build = {**build, "turned": dice.random() < 0.5}
        other = {**other, "turned": dice.random() < 0.5}
    if dice.random() < 0.5:
        other = changed(other, dice)
    followed(craft_of(build), craft_of(other))


@pytest.mark.parametrize("seed", [3022, *range(6), *slow(range(6, 100))])
@pytest.mark.parametrize("stated", [{"breaker": True}, {"fuse between": True, "second": "series"}])
def test_breakers_and_fuses_between_packs(seed, stated):
    dice = random.Random(seed)
    build = {**some_packs(dice), **stated}
    followed(craft_of(build), craft_of(changed(build, dice)))
