"""A bench that follows a cable's steps literally: the old cable becomes the new one, its wires as drawn.

The bench knows housings with cavities and joints, and wires with two ends; brute force, no source outside.
"""

from __future__ import annotations

import random

import pytest
from msgspec.structs import replace

from random_crafts import faults_of, sound_plan
from tabside.compare import compare_crafts
from tabside.make.sheets.cable_plan import Action


def carried_out(found, work):
    """Wires of the cable after the steps: the contacts of both ends, and what the wire is; None where it is new."""
    fate = work.fate
    places = dict(fate.places)
    wires = {ends: found.old.facts(ends) for ends in (*(a for a, _ in fate.wires), *fate.gone)}
    sits, ends_of = {}, {n: set() for n in range(len(wires))}
    facts = dict(enumerate(wires.values()))
    for n, ends in enumerate(wires):
        for reference, number in ends:
            at = (places.get(reference, f"old {reference}"), number)
            sits.setdefault(at, []).append(n)
            ends_of[n].add(at)
    named = {}  # name on the tag -> wire
    for step in work.steps:
        if step.cavity is None:
            continue
        reference = step.end.split("/")[-1]
        at = (reference, step.cavity)
        if at not in sits and (f"old {reference}", step.cavity) in sits and step.action in (
            Action.TAKE_OUT, Action.LEAVE_OUT
        ):  # fmt: skip
            at = (f"old {reference}", step.cavity)
        if step.action in (Action.TAKE_OUT, Action.LEAVE_OUT):
            wire = next(n for n in sits[at] if named.get(step.lead, n) == n)
            sits[at].remove(wire)
            ends_of[wire].remove(at)
            named[step.lead] = wire
        elif step.action in (Action.PUT_IN, Action.SOLDER):
            if step.lead not in named:  # one that is new
                named[step.lead] = max(ends_of, default=-1) + 1
                ends_of[named[step.lead]], facts[named[step.lead]] = set(), None
            wire = named[step.lead]
            if at not in ends_of[wire]:
                sits.setdefault(at, []).append(wire)
                ends_of[wire].add(at)
    return {frozenset(ends): facts[n] for n, ends in ends_of.items() if ends}


@pytest.mark.parametrize("seed", range(400, 412))
def test_the_steps_of_a_cable_that_is_used_again_give_the_drawn_one(seed):
    plan = sound_plan(seed)
    for fault in faults_of(plan, seed):
        for first, second in ((plan, fault.plan), (fault.plan, plan)):
            found = compare_crafts(first.craft(), second.craft())
            for work in found.work:
                fate = work.fate
                if not fate.new or not fate.wires or fate.what == "keep":
                    continue
                drawn = {e for e, lead in found.new.leads.items() if lead.mark in fate.new.leads}
                assert set(carried_out(found, work)) == drawn, (fault.detail, fate.words)
                assert work.measure
                touched = {mark for row in work.measure for mark in row.leads}
                assert touched <= {lead.mark for lead in found.new.craft.leads}
            assert replace(found, work=()).same == found.same


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


@pytest.mark.parametrize("seed", range(420, 430))
def test_no_wire_is_used_again_that_is_of_another_gauge_or_colour_or_too_short(seed):
    plan = sound_plan(seed)
    for n, fault in enumerate(faults_of(plan, seed)):
        found = compare_crafts(stated(plan.craft(), seed), stated(fault.plan.craft(), seed + n + 1))
        for work in found.work:
            if not work.fate.new:
                continue
            for before, after in work.fate.wires:
                was, now = found.old.facts(before), found.new.facts(after)
                assert None in (was.gauge_awg, now.gauge_awg) or was.gauge_awg == now.gauge_awg
                assert None in (was.colour, now.colour) or was.colour == now.colour
                assert None in (was.length_mm, now.length_mm) or was.length_mm >= now.length_mm
            listed = {*found.leads.added, *(after for _, after in found.leads.altered)}
            assert set(work.fate.made) <= listed  # the list of leads and the cable say the same
