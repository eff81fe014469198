"""Stretches of drawn wire.  They are our own notion: the expected ones follow from its definition."""

from __future__ import annotations

import pytest

from drawing.hand_made_sheets import POWER, POWER_FLAG, HandSheet, hierarchy, lib_pin, library, stretches_of
from tabside.read.wires.netlist import netlist

AB = [("A.1", "B.1")]


def stretches(draw) -> list[tuple[str, ...]]:
    sheet = HandSheet()
    draw(sheet)
    return stretches_of(netlist(hierarchy(sheet)))


def chain(s: HandSheet) -> None:
    """A and B at the ends of three wires with joints at (5, 0) and (5, 5)."""
    s.wire((0, 0), (5, 0), (5, 5), (9, 5))
    s.probes(A=(0, 0), B=(9, 5))


@pytest.mark.parametrize(
    ("extra", "expected"),
    [
        pytest.param(lambda s: None, AB, id="nothing between"),
        pytest.param(lambda s: s.label("local", "X", (5, 0)), AB, id="label on a joint"),
        pytest.param(lambda s: s.label("local", "X", (3, 0)), AB, id="label on the middle of a wire"),
        pytest.param(lambda s: s.label("local", "X", (0, 0)), AB, id="label on a pin"),
        pytest.param(lambda s: s.label("global", "X", (5, 5)), AB, id="global label"),
        pytest.param(lambda s: s.label("directive", "", (5, 0), Gauge="24"), AB, id="directive on a joint"),
        pytest.param(lambda s: s.label("directive", "", (3, 0), Gauge="24"), AB, id="directive on the middle"),
        pytest.param(lambda s: s.junction((5, 0)), AB, id="junction on a joint"),
        pytest.param(lambda s: s.junction((3, 0)), AB, id="junction on the middle"),
        pytest.param(lambda s: s.junction((0, 0)), AB, id="junction on the pin's own point"),
        pytest.param(lambda s: s.wire((5, 0), (9, 0)), AB, id="third end that leads nowhere"),
        pytest.param(
            lambda s: (s.wire((5, 0), (9, 0)), s.probes(C=(9, 0))), [("A.1", "B.1", "C.1")], id="third end at a pin"
        ),
        pytest.param(lambda s: s.place("#PWR1", (5, 0), POWER, value="GND"), AB, id="power symbol between"),
        pytest.param(lambda s: s.place("#PWR1", (9, 5), POWER, value="GND"), AB, id="power symbol on a pin"),
        pytest.param(
            lambda s: (s.wire((5, 0), (5, -5)), s.place("#PWR1", (5, -5), POWER, value="GND")), AB, id="power on a wire"
        ),
        pytest.param(lambda s: s.place("#FLG1", (5, 0), POWER_FLAG), AB, id="power flag between"),
        pytest.param(lambda s: s.no_connect((3, 0)), AB, id="flag on the middle, which marks nothing"),
        pytest.param(lambda s: s.probes(C=(5, 0)), [("A.1", "C.1"), ("B.1", "C.1")], id="third pin on the way"),
        pytest.param(lambda s: s.probes(C=(3, 0)), AB, id="pin on the middle, which is not connected"),
        pytest.param(lambda s: s.wire((3, -2), (3, 2)), AB, id="crossing wire"),
        pytest.param(
            lambda s: (s.wire((3, -2), (3, 2)), s.probes(C=(3, 2)), s.label("directive", "", (3, 0))),
            [("A.1", "B.1", "C.1")],
            id="crossing joined by a directive",
        ),
        pytest.param(lambda s: s.entry((5, 0), (7, -2)), AB, id="bus entry on a joint"),
        pytest.param(lambda s: s.entry((3, 0), (5, -2)), AB, id="bus entry on the middle"),
        pytest.param(lambda s: s.wire((9, 5), (9, 9)), AB, id="loose wire at a pin"),
        pytest.param(lambda s: s.sheet(HandSheet("child"), "sub", X=(5, 5)), AB, id="sheet pin on a joint"),
        pytest.param(lambda s: s.sheet(HandSheet("child"), "sub", X=(3, 0)), AB, id="sheet pin on the middle"),
    ],
)
def test_a_chain_is_one_stretch_whatever_names_lie_on_it(extra, expected):
    def draw(s):
        chain(s)
        extra(s)

    assert stretches(draw) == expected


def test_names_join_no_stretches():
    def draw(s):
        s.wire((0, 0), (5, 0))
        s.wire((0, 9), (5, 9))
        s.probes(A=(0, 0), B=(5, 0), C=(0, 9), D=(5, 9))
        s.label("local", "X", (2, 0))
        s.label("local", "X", (2, 9))

    assert stretches(draw) == [("A.1", "B.1"), ("C.1", "D.1")]


def test_a_chain_to_a_power_symbol_is_no_stretch():
    def draw(s):
        s.wire((0, 0), (5, 0))
        s.probes(A=(0, 0))
        s.place("#PWR1", (5, 0), POWER, value="GND")

    assert stretches(draw) == []


def test_pins_on_each_other_are_a_stretch():
    assert stretches(lambda s: s.probes(A=(0, 0), B=(0, 0))) == AB
    assert stretches(lambda s: s.probes(A=(0, 0), B=(0, 0), C=(0, 0))) == [("A.1", "B.1", "C.1")]


def test_stacked_pins_of_one_symbol_lie_on_one_point():
    def draw(s):
        s.place("U", (0, 0), library(lib_pin("1"), lib_pin("2")))
        s.wire((0, 0), (5, 0))
        s.probes(B=(5, 0))

    assert stretches(draw) == [("B.1", "U.1", "U.2")]


def test_a_wire_to_two_pins_on_each_other_meets_both():
    def draw(s):
        s.wire((0, 0), (5, 0))
        s.probes(A=(0, 0), B=(5, 0), C=(5, 0))

    assert stretches(draw) == [("A.1", "B.1", "C.1"), ("B.1", "C.1")]


def test_overlapping_wires_are_one():
    def draw(s):
        s.wire((0, 0), (6, 0))
        s.wire((4, 0), (9, 0))
        s.probes(A=(0, 0), B=(9, 0))

    assert stretches(draw) == AB


def test_each_use_of_a_sheet_has_its_own_stretches():
    root, child = HandSheet(), HandSheet("child")
    chain(child)
    root.sheet(child, "one")
    root.sheet(child, "two")
    assert stretches_of(netlist(hierarchy(root))) == [("A.1", "B.1"), ("A_1.1", "B_1.1")]


def test_a_ring_of_wires_comes_to_an_end():
    def draw(s):
        s.wire((0, 0), (5, 0), (5, 5), (0, 5), (0, 0))
        s.probes(A=(0, 0))

    assert stretches(draw) == []


def test_a_sheet_pin_and_all_its_labels_below_are_one_point():
    root, child = HandSheet(), HandSheet("child")
    for y, reference in ((0, "A"), (5, "B")):
        child.wire((0, y), (5, y))
        child.place(reference, (0, y))
        child.label("hierarchical", "OUT", (5, y))
    root.sheet(child, "one", OUT=(20, 0))
    root.sheet(child, "two", OUT=(20, 9))
    root.wire((20, 0), (25, 0))
    root.probes(C=(25, 0))
    assert stretches_of(netlist(hierarchy(root))) == [("A.1", "B.1", "C.1"), ("A_1.1", "B_1.1")]


def test_a_label_to_the_sheet_above_that_lies_on_a_pin_leads_out_of_it():
    root, child = HandSheet(), HandSheet("child")
    child.wire((0, 0), (5, 0))
    child.probes(A=(0, 0), B=(5, 0))
    child.label("hierarchical", "OUT", (0, 0))
    root.sheet(child, "one", OUT=(20, 0))
    root.wire((20, 0), (25, 0))
    root.probes(C=(25, 0))
    assert stretches_of(netlist(hierarchy(root))) == [("A.1", "B.1"), ("A.1", "C.1")]
