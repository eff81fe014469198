"""A new craft is safe at its packs at every step of its sheets, over crafts by dice.

Held by a bench that follows what is joined, taped, fused and powered: `tests/kits/benches/plan_bench.py`.  Brute force;
common practice of work at packs, no source outside.
"""

from __future__ import annotations

import random

import pytest

from benches.plan_bench import perils_of_plan
from crafts.pack_crafts import craft_of, some_packs
from slow_cases import slow
from tabside.documents.build import craft_build
from tabside.rules import check_craft

ALONE = {"second": "", "lamp": "", "spliced": False, "minus spliced": False, "shunt": False, "turned": False}


def by_dice(seed, **stated):
    return craft_of({**some_packs(random.Random(f"p{seed}")), **stated})


@pytest.mark.parametrize("seed", [*range(12), *slow(range(12, 400))])
def test_a_new_craft_is_never_worked_on_in_peril(seed):
    assert perils_of_plan(by_dice(seed)) == []


@pytest.mark.parametrize("second", ["series", "parallel", "servo", "parallel plug"])
@pytest.mark.parametrize("inside", [(), ("F1",), ("SW1",), ("SW1", "F1")])
@pytest.mark.parametrize("lamp", ["", "captive", "pads"])
@pytest.mark.parametrize("ends", ["pads", "plug"])
def test_two_packs_and_a_lamp_beside_the_board(second, inside, lamp, ends):
    """Power comes at a joint with a smoke stopper, or at none: no fuse goes in for volts that a lamp would have."""
    stated = {"second": second, "in plus": inside, "lamp": lamp, "ends in": ends, "second fuse": False}
    assert perils_of_plan(by_dice(1, **{**ALONE, **stated})) == []


@pytest.mark.parametrize("seed", [3017, 3020, *range(6), *slow(range(6, 200))])
def test_a_fuse_between_packs_goes_in_for_the_volts_of_both(seed):
    """And a lamp that would have them then is soldered later."""
    assert perils_of_plan(by_dice(seed, second="series", **{"fuse between": True})) == []


@pytest.mark.parametrize("inside", [("SW1",), ("F1", "SW1"), ("SW1", "F1")])
@pytest.mark.parametrize("seed", [*range(4), *slow(range(4, 100))])
def test_hands_rely_on_a_breaker_no_more_than_on_a_switch(seed, inside):
    craft = by_dice(seed, breaker=True, **{"in plus": inside})
    assert perils_of_plan(craft) == []
    build = craft_build(craft, check_craft(craft))
    told = [step.words for cable in build.plan.cables for step in cable.steps]
    told += [row.do for row in build.first_power.rows]
    assert not any(f"fuse {where} CB1" in words for words in told for where in ("in", "into", "out of"))


def test_a_breaker_alone_leaves_first_power_to_the_last_joint():
    """Nothing comes out of it in whose place a smoke stopper could go."""
    craft = by_dice(1, **{**ALONE, "breaker": True, "in plus": ("SW1",), "ends in": "pads"})
    build = craft_build(craft, check_craft(craft))
    words = [step.words for cable in build.plan.cables for step in cable.steps]
    (last,) = (told for told in words if "first power now" in told)
    assert "switch CB1 off, then first power now, through a smoke stopper at this joint" in last
    assert any("switch CB1 on, then measure volts now" in told for told in words)


@pytest.mark.parametrize("reverse", [False, True])
def test_the_joint_between_packs_in_series_comes_before_the_one_that_powers_the_board(reverse):
    """Whatever the wires are called: each pack is metered by itself before, and both together at the last bare end."""
    craft = by_dice(1, **{**ALONE, "second": "series", "in plus": (), "ends in": "pads", "turned": reverse})
    steps = [step for cable in craft_build(craft, check_craft(craft)).plan.cables for step in cable.steps]
    powered = [n for n, step in enumerate(steps) if "first power now" in step.words]
    middle = [n for n, step in enumerate(steps) if step.action == "solder" and step.termination == "SP3"]
    assert len(powered) == 1 and len(middle) == 2 and max(middle) < powered[0]
    alone = [
        n
        for n, step in enumerate(steps)
        for row in step.rows
        if "at the ends of the pack's own leads, before either is joined" in row.words
    ]
    assert len(alone) == 2 and alone[0] < min(middle)
