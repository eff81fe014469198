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
