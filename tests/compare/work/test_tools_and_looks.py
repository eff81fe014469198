"""What lies on the bench for a change, what is looked at after it, and what is told of what stays.

Common practice, no source.
"""

from __future__ import annotations

import pytest
from msgspec.structs import replace

from benches.rebuild_bench import wrongs
from crafts.craft_kit import captive, craft, pads, plug, splice, two_pin
from tabside.compare import compare_crafts
from tabside.compare.comparison_json import comparison_json
from tabside.compare.order.order_of_work import order_of_work
from tabside.prove.measurement import RowKind


def lit(*lamps):
    """Lamps with wires of their own at two splices behind the pads of a board that a bench supply feeds."""
    return craft(
        plug("J1", "5V GND", board="pilot", signals="5V, GND", family="JST GH", gives="5V 2A"),
        plug("J2", "5V GND", board="power", signals="5V, GND", family="JST GH", takes="5V 0.1A"),
        pads("J4", "VO GO", board="power", signals="5V, GND", gives="5V 2A", leads_max=1),
        splice("SP1", "VO"),
        splice("SP2", "GO"),
        *(captive(f"J{n}", "VO GO", board=f"lamp {n}", signals="5V, GND", takes="5V 0.1A") for n in lamps),
    )


def fed(*, fused):
    """A motor controller at soldered pads, with a fuse holder in its plus or without."""
    return craft(
        pads("J4", "V G", board="power", signals="12V, GND", gives="12V 5A"),
        pads("J5", f"{'W' if fused else 'V'} G", board="drive", signals="12V, GND", takes="12V 3A"),
        *([two_pin("F1", "V", "W", value="5A")] if fused else []),
    )


def test_covers_that_are_cut_open_want_a_knife_and_something_to_cover_with():
    order = order_of_work(compare_crafts(lit(7, 8, 9), lit(7, 8)))
    for item in ("sharp knife", "heat-shrink tube, or insulating tape", "soldering iron", "hot-air tool"):
        assert any(each.startswith(item) for each in order.tools), (item, order.tools)


def test_the_cover_of_an_in_line_part_is_cut_off_before_its_joint_is_undone():
    found = compare_crafts(fed(fused=True), fed(fused=False))
    steps = [step for work in found.work for step in work.steps]
    off = [step for step in steps if step.action.value in ("take out", "leave out") and "F1" in step.end]
    assert off and all(step.uncovers and "cut its cover off first" in step.words for step in off)
    assert any(each.startswith("sharp knife") for each in order_of_work(found).tools)
    assert wrongs(found.old.craft, found.new.craft, comparison_json(found), found.build.proof.rows) == []


def test_a_wire_soldered_into_a_plug_wants_an_iron_and_no_needle():
    def powered(*far):
        return craft(
            pads("J4", "V G V G", board="power", signals="12V, GND, 12V, GND", gives="12V 5A"),
            *(plug(f"J{n}", "V G", board=f"drive {n}", signals="12V, GND", family="XT60", takes="12V 3A") for n in far),
        )

    tools = order_of_work(compare_crafts(powered(5, 6), powered(5))).tools
    assert any(each.startswith("soldering iron") for each in tools), tools
    assert not any("needle, to release" in each and "XT60" in each for each in tools), tools


def test_spare_plugs_for_the_probes_are_among_what_to_get():
    def of(order):
        ends = (("J1", "pilot", "V A B G"), ("J2", "gps", order), ("J3", "pilot", "X Y G"), ("J4", "radio", "Y X G"))
        return craft(
            *(
                plug(
                    ref,
                    nets,
                    board=board,
                    signals="5V, TX, RX, GND" if len(nets) > 5 else "TX, RX, GND",
                    family="JST GH",
                )
                for ref, board, nets in ends
            )
        )

    get = order_of_work(compare_crafts(of("V B A G"), of("V A B G"))).get
    assert any("spare mating connector with pigtails, JST GH 4-way" in each for each in get), get
    assert any("spare cable plug with pigtails, JST GH 3-way" in each for each in get), get  # the known ground


def test_a_part_by_itself_is_measured_once_and_before_its_wires_are_on():
    order = order_of_work(compare_crafts(fed(fused=False), fed(fused=True)))
    assert any("F1:1" in line and "beeps with the fuse in" in line for line in order.meter)
    assert not any("beeps with the fuse in" in line for line in order.last)


def test_of_a_link_of_single_wires_those_that_stay_are_named():
    kept = list(compare_crafts(fed(fused=False), fed(fused=True)).kept())
    assert kept == ["W3: power/J4 - drive/J5"]


def test_what_a_splice_joins_is_no_fact_to_check():
    found = compare_crafts(lit(7, 8), lit(7, 8, 9))
    assert not any("SP1" in each.name and "role" in each.name for each in found.changes)


def test_a_joint_on_which_no_hand_was_is_not_looked_at():
    found = compare_crafts(fed(fused=False), fed(fused=True))
    worked = {step.end.split("/")[-1] for work in found.work for step in work.steps if step.cavity}
    looks = [row for row in found.measure if row.kind is RowKind.LOOK]
    assert looks and {row.where.termination for row in looks} <= worked


@pytest.mark.parametrize(("old", "new"), [((7, 8, 9), (7, 8))])
def test_a_parts_own_wires_come_off_at_their_far_end(old, new):
    found = compare_crafts(lit(*old), lit(*new))
    (gone,) = {fate.words for fate in found.cables if fate.new is None}
    assert gone == "Take off its far end: the part keeps it."


def test_a_pre_crimped_lead_that_joins_a_cable_is_told_by_colour_and_length():
    """A wire that is bought with both contacts on is cut by no step: what it looks like and its length must be said."""

    def wired(*names):
        made = craft(
            plug("J1", f"A B {' '.join(names)}", board="hub", signals=f"A, B, {', '.join(names)}", family="JST GH"),
            plug("J2", f"A B {' '.join(names)}", board="far", signals=f"A, B, {', '.join(names)}", family="JST GH"),
        )
        colours = ("BK", "WH", "GN", "BU")
        leads = (
            replace(lead, colour=colour, length_mm=150.0 + n, gauge_awg=28)
            for n, (lead, colour) in enumerate(zip(made.leads, colours, strict=False))
        )
        return replace(made, leads=tuple(leads))

    (work,) = [each for each in compare_crafts(wired("C"), wired("C", "D")).work if each.fate.made]
    (told,) = [step.words for step in work.steps if step.words.startswith("pre-crimped leads ready")]
    assert "BU 153 mm" in told and "BK" not in told


@pytest.mark.parametrize(("before", "after"), [("5A", "10A"), ("switch", "latching switch 20A")])
def test_another_fuse_or_switch_between_wires_that_stay_wants_an_iron_and_a_meter(before, after):
    """Its wires come off and on again one by one; the new part is metered in the hand."""
    reference = "F1" if before == "5A" else "SW1"
    old, new = (
        craft(
            pads("J4", "V G", board="power", signals="12V, GND", gives="12V 5A"),
            pads("J5", "W G", board="drive", signals="12V, GND", takes="12V 3A"),
            two_pin(reference, "V", "W", value=value),
        )
        for value in (before, after)
    )
    tools = " ".join(order_of_work(compare_crafts(old, new)).tools)
    assert all(tool in tools for tool in ("soldering iron", "solder, with flux", "sharp knife", "insulating tape"))
