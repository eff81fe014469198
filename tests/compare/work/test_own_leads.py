"""A part's own leads that change places: what is looked at tells them apart, so that a swap is seen.

Common practice, no source: no meter tells a lamp's plus from its minus, and colours are the maker's.
"""

from __future__ import annotations

import pytest

from crafts.craft_kit import captive, craft, plug
from tabside.compare import compare_crafts
from tabside.make.sheets.cable_plan import Action


def lit(signals, *, family="JST GH", third=""):
    """A lamp at a hub: its contacts are in the order given, each on the net of its name."""
    order, hub = signals.split(", "), f"5V, GND{third and ', DIM'}"
    return craft(
        plug("J3", f"5V GND {third}", board="hub", family="JST GH", signals=hub, gives="1:5V 1A"),
        captive("J12", " ".join(order), board="lamp", value="lamp", family=family, signals=signals),
    )


def look_of(found):
    (work,) = found.work
    looks = [step for step in work.steps if step.action is Action.TEST and "own marks" in step.words]
    rows = [row.words for step in work.steps for row in step.rows]
    return work, looks, rows


@pytest.mark.parametrize("third", ["", "DIM"])
def test_leads_swapped_in_a_parts_own_plug_are_each_named_before_it_is_plugged_in(third):
    more = third and ", DIM"
    found = compare_crafts(lit(f"5V, GND{more}", third=third), lit(f"GND, 5V{more}", third=third))
    work, (look,), _ = look_of(found)
    for cavity, lead, name in (("1", "2", "5V"), ("2", "1", "GND")):
        mark = next(m for m, made in found.new.made_by_mark.items() if ("J3", cavity) in made.lead.ends)
        assert f"cavity {cavity} holds {mark}, lamp/J12 lead {lead} ({name}), for {name}" in look.words
    moved = {step.number for step in work.steps if step.action in (Action.TAKE_OUT, Action.PUT_IN) and step.cavity}
    plugged = next(step.number for step in work.steps if step.words.startswith("plug the cable into"))
    assert max(moved) < look.number < plugged


def test_leads_that_are_crimped_into_a_plug_have_the_row_of_the_continuity_sheet():
    found = compare_crafts(lit("5V, GND", family=""), lit("GND, 5V", family=""))
    _, looks, rows = look_of(found)
    told = [words for words in rows if "own marks" in words or "part's marks" in words]
    assert not looks and any("lamp/J12 lead 2 (5V), on 1 (5V)" in words for words in told), rows


def test_nothing_of_the_kind_is_said_where_no_own_lead_is_moved():
    assert not [
        step
        for work in compare_crafts(lit("5V, GND"), lit("5V, GND", third="DIM")).work
        for step in work.steps
        if "own marks" in step.words
    ]
