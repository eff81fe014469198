"""Runs of drawn wire between two pins.  They are our own notion: the expected ones follow from its definition."""

from __future__ import annotations

import pytest

from hand_made_sheets import POWER, POWER_FLAG, HandSheet, hierarchy, lib_pin, library, runs_of
from tabside.read.nets.netlist import netlist

AB = [("A.1", "B.1")]


def runs(draw) -> list[tuple[str, str]]:
    sheet = HandSheet()
    draw(sheet)
    return runs_of(netlist(hierarchy(sheet)))


def chain(s: HandSheet) -> None:
    """A and B at the ends of three wires with joints at (5, 0) and (5, 5)."""
    s.wire((0, 0), (5, 0), (5, 5), (9, 5))
    s.probes(A=(0, 0), B=(9, 5))


@pytest.mark.parametrize(
    ("extra", "expected"),
    [
        pytest.param(lambda s: None, AB, id="nothing between"),
        pytest.param(lambda s: s.label("local", "X", (5, 0)), [], id="label on a joint"),
        pytest.param(lambda s: s.label("local", "X", (3, 0)), [], id="label on the middle of a wire"),
        pytest.param(lambda s: s.label("global", "X", (5, 5)), [], id="global label"),
        pytest.param(lambda s: s.label("directive", "", (5, 0), Gauge="24"), AB, id="directive on a joint"),
        pytest.param(lambda s: s.label("directive", "", (3, 0), Gauge="24"), AB, id="directive on the middle"),
        pytest.param(lambda s: s.junction((5, 0)), [], id="junction on a joint"),
        pytest.param(lambda s: s.junction((3, 0)), [], id="junction on the middle"),
        pytest.param(lambda s: s.junction((0, 0)), AB, id="junction on the pin's own point"),
        pytest.param(lambda s: s.wire((5, 0), (9, 0)), [], id="third end without junction"),
        pytest.param(lambda s: s.place("#PWR1", (5, 0), POWER, value="GND"), [], id="power symbol between"),
        pytest.param(lambda s: s.place("#FLG1", (5, 0), POWER_FLAG), AB, id="power flag between"),
        pytest.param(lambda s: s.no_connect((3, 0)), AB, id="flag on the middle, which marks nothing"),
        pytest.param(lambda s: s.probes(C=(5, 0)), [("A.1", "C.1"), ("B.1", "C.1")], id="third pin on the way"),
        pytest.param(lambda s: s.probes(C=(3, 0)), AB, id="pin on the middle, which is not connected"),
        pytest.param(lambda s: s.wire((3, -2), (3, 2)), AB, id="crossing wire"),
        pytest.param(
            lambda s: (s.wire((3, -2), (3, 2)), s.label("directive", "", (3, 0))), [], id="crossing joined by directive"
        ),
        pytest.param(lambda s: s.entry((5, 0), (7, -2)), [], id="bus entry on a joint"),
        pytest.param(lambda s: s.entry((3, 0), (5, -2)), [], id="bus entry on the middle"),
        pytest.param(lambda s: s.wire((9, 5), (9, 9)), AB, id="loose wire at a pin"),
        pytest.param(lambda s: s.sheet(HandSheet("child"), "sub", X=(5, 5)), [], id="sheet pin on a joint"),
        pytest.param(lambda s: s.sheet(HandSheet("child"), "sub", X=(3, 0)), [], id="sheet pin on the middle"),
    ],
)
def test_a_chain_is_a_run_when_nothing_between_could_be_an_end(extra, expected):
    def draw(s):
        chain(s)
        extra(s)

    assert runs(draw) == expected


def test_a_chain_to_a_power_symbol_is_no_run():
    def draw(s):
        s.wire((0, 0), (5, 0))
        s.probes(A=(0, 0))
        s.place("#PWR1", (5, 0), POWER, value="GND")

    assert runs(draw) == []


def test_two_pins_on_each_other_are_a_run_and_three_are_none():
    assert runs(lambda s: s.probes(A=(0, 0), B=(0, 0))) == AB
    assert runs(lambda s: s.probes(A=(0, 0), B=(0, 0), C=(0, 0))) == []


def test_stacked_pins_of_one_symbol_are_one_end():
    def draw(s):
        s.place("U", (0, 0), library(lib_pin("1"), lib_pin("2")))
        s.wire((0, 0), (5, 0))
        s.probes(B=(5, 0))

    assert runs(draw) == [("B.1", "U.1")]


def test_a_wire_to_two_pins_on_each_other_has_no_single_end():
    def draw(s):
        s.wire((0, 0), (5, 0))
        s.probes(A=(0, 0), B=(5, 0), C=(5, 0))

    assert runs(draw) == [("B.1", "C.1")]


def test_overlapping_wires_are_one():
    def draw(s):
        s.wire((0, 0), (6, 0))
        s.wire((4, 0), (9, 0))
        s.probes(A=(0, 0), B=(9, 0))

    assert runs(draw) == AB


def test_each_use_of_a_sheet_has_its_own_runs():
    root, child = HandSheet(), HandSheet("child")
    chain(child)
    root.sheet(child, "one")
    root.sheet(child, "two")
    assert runs_of(netlist(hierarchy(root))) == [("A.1", "B.1"), ("A_1.1", "B_1.1")]


def test_a_ring_of_wires_comes_to_an_end():
    def draw(s):
        s.wire((0, 0), (5, 0), (5, 5), (0, 5), (0, 0))
        s.probes(A=(0, 0))

    assert runs(draw) == []
