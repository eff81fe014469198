"""What flows over ground, where some loads are stated and others are not.  Kirchhoff's current law."""

from __future__ import annotations

import pytest

from crafts.craft_kit import craft, pads
from tabside.analysis.judgement import Judgement


def ground_amps(second_load):
    """Two loads fed side by side; the ground of the first returns over the second's."""
    symbols = [
        pads("TP1", ["V", "W", "G2"], board="source", signals="12V, 12V, GND", gives="12V 9A"),
        pads("TP2", ["V", "G1"], board="pump", signals="12V, GND", takes="12V 3A"),
        pads("TP3", ["W", "G1", "G2"], board="hub", signals="12V, GND, GND", **second_load),
    ]
    judgement = Judgement(craft(*symbols))
    flows = judgement.flows
    boards = {number: node.board for number, node in flows.grounds.nodes.items()}
    return {frozenset((boards[a], boards[b])): flow.amps.most for (a, b), flow in flows.in_grounds.items()}


def test_ground_carries_back_what_both_loads_take():
    found = ground_amps({"takes": "12V 2A"})
    assert found[frozenset(("pump", "hub"))] == pytest.approx(3)
    assert found[frozenset(("hub", "source"))] == pytest.approx(5)


def test_a_ground_that_carries_back_an_unstated_load_too_is_not_known():
    found = ground_amps({})
    assert found == {frozenset(("pump", "hub")): pytest.approx(3)}


def test_a_ground_behind_a_board_whose_current_nothing_decides_is_not_known():
    """Pump and hub are fed in a loop, and state no load; only the lamp's 1 A is decided, and only on its own ground."""
    symbols = [
        pads("TP1", ["V", "W", "G2"], board="source", signals="12V, 12V, GND", gives="12V 9A"),
        pads("TP2", ["V", "X", "L", "G1", "GL"], board="pump", signals="12V, 12V, 12V, GND, GND"),
        pads("TP3", ["W", "X", "G1", "G2"], board="hub", signals="12V, 12V, GND, GND"),
        pads("TP4", ["L", "GL"], board="lamp", signals="12V, GND", takes="12V 1A"),
    ]
    flows = Judgement(craft(*symbols)).flows
    boards = {number: node.board for number, node in flows.grounds.nodes.items()}
    found = {frozenset((boards[a], boards[b])): flow.amps.most for (a, b), flow in flows.in_grounds.items()}
    assert found == {frozenset(("lamp", "pump")): pytest.approx(1)}
