"""Wires that are used again are as the new drawing wants them, and the list of leads says what the cables say.

Brute force over random crafts and faults, no source outside.
"""

from __future__ import annotations

import random
import re

import pytest
from msgspec.structs import replace

from crafts.craft_kit import craft, pads, plug, two_pin
from dice.random_edits import draft, edited
from random_crafts import faults_of, sound_plan
from slow_cases import slow
from tabside.compare import compare_crafts
from tabside.make.sheets.cable_plan import Action
from tabside.prove.measurement import At, RowKind, When, touched_leads


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


def too_early(found):
    """Rows of a sheet that go through a wire which a later sheet joins: a right build would fail them."""
    joined = {}  # wire -> the last sheet on which one of its joints is made
    for n, work in enumerate(found.work):
        for step in work.steps:
            if step.action is Action.SOLDER:
                joined[step.lead] = n
    for n, work in enumerate(found.work):
        for row in work.tested:
            if row.when is When.SPLICED or (row.kind is RowKind.LOOK and row.where.termination.startswith(("SP", "F"))):
                marks = found.new.reached(touched_leads(row)) & set(found.new.by_mark)
                at = found.new.marks_at(row.where.termination) if row.kind is RowKind.LOOK else marks
                yield from (f"{row.words}: {mark}" for mark in at if joined.get(mark, n) > n)


def hub_with(*joints, runs):
    nets = "V GND V GND V GND"
    hub = pads("J1", nets, board="hub", signals="5V, GND, 5V, GND, 5V, GND", gives="1:5V 2A")
    far = [pads(f"J{k}", "V GND", board=f"lamp {k}", signals="5V, GND", takes="5V 0.2A") for k in (2, 3, 4)]
    grounds = [("J1:2", "J2:2"), ("J1:4", "J3:2"), ("J1:6", "J4:2")]
    return craft(hub, *far, *joints, runs=[*runs, *grounds])


def joint(reference, ways):
    return plug(reference, " ".join(["V"] * ways), kind="splice", names=["~"] * ways)


def test_what_goes_through_a_new_wire_is_measured_when_that_is_made():
    """A splice of four becomes two of three, with a wire between them."""
    one = hub_with(joint("SP1", 4), runs=[("J1:1", "SP1:1"), *((f"SP1:{k}", f"J{k}:1") for k in (2, 3, 4))])
    runs = [("J1:1", "SP1:1"), ("SP1:2", "J2:1"), ("SP1:3", "SP2:1"), ("SP2:2", "J3:1"), ("SP2:3", "J4:1")]
    two = hub_with(joint("SP1", 3), joint("SP2", 3), runs=runs)
    for old, new in ((one, two), (two, one)):
        assert list(too_early(compare_crafts(old, new))) == []


@pytest.mark.parametrize("what", ["splice split", "fuse"])
def test_no_row_comes_before_what_it_goes_through_is_joined(what):
    for seed in (403, 417, 604):
        before = draft(seed)
        after = edited(before, what, seed)
        crafts = before.craft(), after.craft() if after is not None else before.craft()
        for old, new in (crafts, crafts[::-1]):
            assert list(too_early(compare_crafts(old, new))) == []


def test_a_plug_that_a_probe_goes_to_is_out_of_its_board():
    """A switch comes into a wire: its far half is made, and metered, when the cable is back in its board."""

    def made(*, switched):
        parts = [two_pin("SW1", "A", "B", value="lid")] if switched else []
        return craft(
            plug("J1", "A GND", board="pilot", signals="IN1, GND", family="JST SH"),
            plug("J3", "5V GND", board="pilot", signals="5V, GND", family="JST GH"),
            pads("J2", ["B" if switched else "A", "GND"], board="bumper", signals="OUT1, GND"),
            *parts,
        )

    for old, new in ((made(switched=False), made(switched=True)), (made(switched=True), made(switched=False))):
        found, inside = compare_crafts(old, new), {"J1"}
        for work in found.work:
            for step in work.steps:
                inside -= {"J1"} if "unplug the cable from pilot/J1" in step.words else set()
                inside -= {aside.termination for aside in step.unplug}
                for row in step.rows:
                    loose = {end.termination for end in row.ends if end.at is At.CONTACT} - set(row.plugged)
                    assert row.kind is not RowKind.BEEP or not loose & inside, row.words
                inside |= {aside.termination for aside in step.plug_in}
                inside |= {"J1"} if "plug the cable into pilot/J1" in step.words else set()
