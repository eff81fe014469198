"""A splice joins what is soldered into it, and a fuse burns from both sides: which contact is called 1 is no matter.

Common practice, no source; a diode and a breaker for direct current do have a way round.
"""

from __future__ import annotations

import itertools

import pytest
from msgspec.structs import replace

from benches.rebuild_bench import wrongs
from crafts.craft_kit import craft, pads, plug, two_pin
from tabside.compare import compare_crafts
from tabside.compare.comparison_json import comparison_json

HUB = plug("J1", "A B", board="hub", value="OUT", family="JST GH", signals="5V, GND", gives="1:5V 1A")


def with_splice(order: str):
    """A splice of which each contact is on a net of its own: `order` says which wire is at contact 1, 2, ..."""
    nets = {"C": "J2", "D": "J3", "E": "J4"}
    ends = [
        plug(nets[net], f"{net} B", board=nets[net], family="JST GH", signals="5V, GND")
        for net in "CDE"[: len(order) - 1]
    ]
    return craft(HUB, *ends, plug("SP1", " ".join(order), kind="splice", names=["~"] * len(order)))


@pytest.mark.parametrize("order", [*map("".join, itertools.permutations("ACD"))])
def test_a_splice_has_no_order(order):
    found = compare_crafts(with_splice("ACD"), with_splice(order))
    assert found.same, found.changes


def test_a_wire_more_in_a_splice_is_one_wire_to_make_whatever_the_numbers_are():
    for before, after in (("ACD", "DECA"), ("DECA", "ACD")):
        answer = comparison_json(compare_crafts(with_splice(before), with_splice(after)))
        kept = {tuple(pair) for cable in answer["cables"] for pair in cable["wires"]}
        assert len(kept) == len({now for _, now in kept}) == 3
        undone = {step["old_lead"] for cable in answer["cables"] for step in cable["steps"] if step["old_lead"]}
        assert not undone & {was for was, _ in kept}


@pytest.mark.parametrize(
    ("reference", "turned_round", "same"),
    [("F1", "C A", True), ("SW1", "C A", True), ("R1", "C A", True), ("D1", "C A", False), ("CB1", "C A", False)],
)
def test_parts_that_have_no_way_round(reference, turned_round, same):
    far = plug("J2", "C B", board="far", family="JST GH", signals="5V, GND", takes="1:5V 0.1A")
    names = {"D1": ("A", "K")}.get(reference, ("~", "~"))
    old, new = (
        craft(HUB, far, plug(reference, nets, value="x", lib_id="Device:X", names=names))
        for nets in ("A C", turned_round)
    )
    assert compare_crafts(old, new).same is same


def test_a_board_with_one_pad_more_keeps_its_wires():
    def made(nets, signals):
        return craft(
            pads("J1", nets, board="hub", value="OUT", signals=signals),
            pads("J2", "A B", board="far", signals="5V, GND"),
        )

    for old, new in itertools.permutations((made("A B", "5V, GND"), made("A B -", "5V, GND, AUX"))):
        found = compare_crafts(old, new)
        assert [change.subject for change in found.changes] == ["termination"]
        assert not any(work.steps for work in found.work)


@pytest.mark.parametrize("value", ["toggle", "K2 3A"])
def test_ends_of_a_switch_that_are_counted_the_other_way_are_told_where_hands_are_on_it(value):
    """The steps call its ends as the new drawing does: the bench gets both, and a person a line before all else."""

    def built(nets, value, gauge):
        made = craft(
            plug("J1", ["5V", "GND"], board="hub", signals="5V, GND", gives="5V 1A", family="JST GH"),
            two_pin("SW1", *nets, value=value),
            plug("J2", ["ON", "GND"], board="gps", signals="5V, GND", takes="5V 0.1A", family="JST GH"),
        )
        return replace(made, leads=tuple(replace(lead, gauge_awg=gauge) for lead in made.leads))

    old, new = built(("5V", "ON"), "toggle", 26), built(("ON", "5V"), value, 28)
    found = compare_crafts(old, new)
    answer = comparison_json(found)
    assert answer["recounted"] == [["SW1", "1", "2"], ["SW1", "2", "1"]]
    assert any("SW1: the new drawing counts its ends the other way" in line for line in found.todo.first)
    assert wrongs(old, new, answer, found.build.proof.rows) == []
