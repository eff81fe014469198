"""A part's own leads that change places: what is looked at tells them apart, so that a swap is seen.

Common practice, no source: no meter tells a lamp's plus from its minus, and colours are the maker's.
"""

from __future__ import annotations

import pytest

from crafts.craft_kit import captive, craft, pads, plug, two_pin
from tabside.compare import compare_crafts
from tabside.make.sheets.cable_plan import Action


def lit(signals, *, family="JST GH", third="", hub=""):
    """A lamp at a hub: its contacts are in the order given, each on the net of its name."""
    order, hub = signals.split(", "), hub or f"5V, GND{third and ', DIM'}"
    return craft(
        plug("J3", hub.replace(",", ""), board="hub", family="JST GH", signals=hub, gives="5V 1A"),
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
    found = compare_crafts(lit("5V, GND", family=""), lit("5V, GND", family="", hub="GND, 5V"))
    _, looks, rows = look_of(found)
    told = [words for words in rows if "own marks" in words or "part's marks" in words]
    assert not looks and any("lamp/J12 lead 1 (5V), on 2 (5V)" in words for words in told), rows


@pytest.mark.parametrize("takes", ["5V 0.1A", "{5V}:5V 0.1A"])
def test_bare_leads_have_names_and_no_numbers(takes):
    """Listed the other way round they are the same leads on the same contacts: nobody puts plus on minus."""
    orders = ("5V", "GND"), ("GND", "5V")
    old, new = (
        craft(
            plug("J3", "5V GND", board="hub", family="JST GH", signals="5V, GND", gives="1:5V 1A"),
            captive(
                "J12",
                " ".join(order),
                board="lamp",
                value="lamp",
                signals=", ".join(order),
                takes=takes.replace("{5V}", str(order.index("5V") + 1)),
            ),
        )
        for order in orders
    )
    for found in (compare_crafts(old, new), compare_crafts(new, old)):
        assert found.same, found.changes


def test_leads_listed_in_another_order_go_where_their_names_are_drawn():
    """The plus goes on to the fuse, whichever number the drawing gives it now."""

    def made(order, *, fused):
        nets = {"5V": "FUSED" if fused else "5V", "GND": "GND"}
        fuse = [two_pin("F1", "5V", "FUSED", value="1A")] if fused else []
        return craft(
            pads("J3", "5V GND", board="hub", signals="5V, GND", gives="1:5V 1A"),
            captive("J12", [nets[name] for name in order], board="lamp", value="lamp", signals=", ".join(order)),
            *fuse,
        )

    found = compare_crafts(made(("5V", "GND"), fused=False), made(("GND", "5V"), fused=True))
    moved = {(frozenset(before), frozenset(after)) for before, after in found.leads.moved}
    assert moved == {(frozenset({("J12", "2"), ("J3", "1")}), frozenset({("J12", "2"), ("F1", "2")}))}
    assert [step.words for work in found.work for step in work.steps if "(GND)" in step.words] == []


def test_nothing_of_the_kind_is_said_where_no_own_lead_is_moved():
    assert not [
        step
        for work in compare_crafts(lit("5V, GND"), lit("5V, GND", third="DIM")).work
        for step in work.steps
        if "own marks" in step.words
    ]
