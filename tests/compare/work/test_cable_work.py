"""Wires that are used again are as the new drawing wants them, and the list of leads says what the cables say.

Brute force over random crafts and faults, no source outside.
"""

from __future__ import annotations

import random

import pytest
from msgspec.structs import replace

from random_crafts import faults_of, sound_plan
from slow_cases import slow
from tabside.compare import compare_crafts


def stated(craft, seed):
    """Each wire of some gauge, colour and length, or not known."""
    dice = random.Random(seed)
    return replace(
        craft,
        leads=tuple(
            replace(
                lead,
                gauge_awg=dice.choice([None, 22, 22, 26]),
                colour=dice.choice([None, "RD", "RD", "BK"]),
                length_mm=dice.choice([None, 100.0, 100.0, 150.0]),
            )
            for lead in craft.leads
        ),
    )


@pytest.mark.parametrize("seed", [420, 421, *slow(range(422, 430))])
def test_no_wire_is_used_again_that_is_of_another_gauge_or_colour_or_too_short(seed):
    plan = sound_plan(seed)
    for n, fault in enumerate(faults_of(plan, seed)):
        found = compare_crafts(stated(plan.craft(), seed), stated(fault.plan.craft(), seed + n + 1))
        for work in found.work:
            if not work.fate.new:
                continue
            for before, after in work.fate.wires:
                if found.new.is_own(after):
                    continue  # it comes with its part: what is stated of it is looked at
                was, now = found.old.facts(before), found.new.facts(after)
                assert None in (was.gauge_awg, now.gauge_awg) or was.gauge_awg == now.gauge_awg
                assert None in (was.colour, now.colour) or was.colour == now.colour
                assert None in (was.length_mm, now.length_mm) or was.length_mm >= now.length_mm
            listed = {*found.leads.added, *(after for _, after in found.leads.altered)}
            assert set(work.fate.made) <= listed  # the list of leads and the cable say the same
