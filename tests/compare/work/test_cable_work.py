"""Wires that are used again are as the new drawing wants them, and the list of leads says what the cables say.

Brute force over random crafts and faults, no source outside.
"""

from __future__ import annotations

import random
import re

import pytest
from msgspec.structs import replace

from crafts.craft_kit import craft, pads, plug
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


@pytest.mark.parametrize("far", ["plug", "pads"])
def test_what_stops_a_sheet_names_the_wires_of_that_sheet_alone(far):
    """Three cables of which one wire each gets a gauge that no contact takes."""

    def made(gauge_awg):
        symbols = []
        for n in range(3):
            nets, signals = ["5V", "GND", f"S{n}"], {"signals": "5V, GND, RX", "board": "radio", "takes": "5V 0.1A"}
            mine = {"signals": "5V, GND, TX", "board": "pilot", "gives": "5V 1A"}
            symbols.append(plug(f"J{2 * n + 1}", nets, family="JST GH", **mine))
            there = f"J{2 * n + 2}"
            is_plug = far == "plug"
            symbols.append(plug(there, nets, family="JST GH", **signals) if is_plug else pads(there, nets, **signals))
        drawn = craft(*symbols)
        thick = {lead.mark for lead in drawn.leads if lead.ends[0][1] == "3"}
        leads = (replace(each, gauge_awg=gauge_awg if each.mark in thick else 28) for each in drawn.leads)
        return replace(drawn, leads=tuple(leads))

    found = compare_crafts(made(28), made(12))
    stopped = [work for work in found.work if work.stopped]
    assert len(stopped) == 3
    for work in stopped:
        named = set(re.findall(r"\bW\d+\b", work.stopped))
        assert named and named <= set(work.fate.new.leads)
    assert [line for line in found.todo.first if line.startswith("do not begin")] == [
        f"do not begin: {work.fate.name} cannot be done as drawn, its sheet says why" for work in stopped
    ]
