"""Names of nets.  Source of all of them: seen in KiCad 9.0.8."""

from __future__ import annotations

import pytest

from drawing.hand_made_sheets import POWER, HandSheet, hierarchy, lib_pin, library, nets_of
from tabside.read.nets.names.net_names import unit_letters
from tabside.read.wires.netlist import netlist


def names_of(draw, **more) -> dict[str, list[str]]:
    sheet = HandSheet()
    draw(sheet)
    return nets_of(netlist(hierarchy(sheet, **more)))


@pytest.mark.parametrize(("unit", "letters"), [(1, "A"), (26, "Z"), (27, "AA"), (53, "BA")])
def test_units_are_lettered(unit, letters):
    assert unit_letters(unit) == letters


@pytest.mark.parametrize(
    ("symbol", "more", "name"),
    [
        pytest.param(library(lib_pin("1")), {}, "Net-(U1-Pad1)", id="no name"),
        pytest.param(library(lib_pin("1", name="1")), {}, "Net-(U1-Pad1)", id="name is the number"),
        pytest.param(library(lib_pin("3", name="OUT")), {}, "Net-(U1-OUT)", id="named"),
        pytest.param(library(lib_pin("3", name="OUT"), unit_count=2), {}, "Net-(U1A-OUT)", id="one of two units"),
        pytest.param(library(lib_pin("3"), unit_count=2), {}, "Net-(U1-Pad3)", id="unit without pin names"),
        pytest.param(
            library(lib_pin("3", name="OUT"), lib_pin("4", (9, 0), "OUT")), {}, "Net-(U1-OUT-Pad3)", id="name twice"
        ),
        pytest.param(
            library(lib_pin("3", name="OUT"), lib_pin("4", (9, 0), "OUT", unit=2), unit_count=2),
            {},
            "Net-(U1A-OUT)",
            id="name again in another unit",
        ),
        pytest.param(
            library(lib_pin("3", name="PA0", alternates={"TX": "output"}), lib_pin("4", (9, 0), "TX")),
            {"alternates": {"3": "TX"}},
            "Net-(U1-PA0-Pad3)",
            id="alternate shown twice",
        ),
        pytest.param(library(lib_pin("3", name="~{CS}")), {}, "Net-(U1-~{CS})", id="overbar"),
        pytest.param(library(lib_pin("3", name="A/B")), {}, "Net-(U1-A/B)", id="slash"),
        pytest.param(library(lib_pin("3", name="A B")), {}, "Net-(U1-A_B)", id="blank"),
    ],
)
def test_a_net_without_labels_is_called_after_a_pin(symbol, more, name):
    def draw(s):
        s.place("U1", (0, 0), symbol, **more)
        s.probes(Z9=(0, 0))

    assert sorted(names_of(draw)[name]) == [f"U1.{symbol.pins[0].number}", "Z9.1"]


@pytest.mark.parametrize(
    ("symbol", "flag", "name"),
    [
        (library(lib_pin("3", name="OUT")), False, "unconnected-(U1-OUT-Pad3)"),
        (library(lib_pin("3")), False, "unconnected-(U1-Pad3)"),
        (library(lib_pin("3", name="OUT", electrical="no_connect")), False, "unconnected-(U1-OUT-Pad3)"),
        (library(lib_pin("3", name="OUT"), lib_pin("4", name="IN")), True, "unconnected-(U1-IN-Pad4)"),
        (library(lib_pin("3", name="OUT"), lib_pin("4", name="IN")), False, "Net-(U1-IN)"),
    ],
)
def test_lone_and_flagged_pins_are_called_unconnected(symbol, flag, name):
    def draw(s):
        s.place("U1", (0, 0), symbol)
        if flag:
            s.no_connect((0, 0))

    assert list(names_of(draw)) == [name]


@pytest.mark.parametrize(
    ("labels", "name"),
    [
        ([("global", "Z"), ("power", "A"), ("local", "A")], "Z"),
        ([("power", "Z"), ("local", "A"), ("hierarchical", "A")], "Z"),
        ([("local", "Z"), ("hierarchical", "A")], "/Z"),
        ([("hierarchical", "Z")], "/Z"),
        ([("local", "a"), ("local", "B")], "/B"),
        ([("local", "A-Pad"), ("local", "B")], "/B"),
        ([("local", "")], "/<NO NET>"),
        ([("power", "")], "~"),
    ],
)
def test_the_strongest_label_names_the_net_and_then_the_smallest(labels, name):
    def draw(s):
        s.probes(P1=(0, 0))
        for kind, text in labels:
            if kind == "power":
                s.place("#PWR1", (0, 0), POWER, value=text)
            else:
                s.label(kind, text, (0, 0))

    assert names_of(draw) == {name: ["P1.1"]}


def test_losing_labels_join_too():
    def draw(s):
        s.probes(P1=(0, 0), P2=(5, 0), P3=(9, 0))
        s.label("local", "A", (0, 0))
        s.label("local", "B", (0, 0))
        s.label("local", "A", (5, 0))
        s.label("local", "B", (9, 0))

    assert names_of(draw) == {"/A": ["P1.1", "P2.1", "P3.1"]}


def test_every_kind_of_label_of_one_text_joins_on_a_sheet():
    def draw(s):
        s.probes(P1=(0, 0), P2=(5, 0), P3=(9, 0), P4=(13, 0))
        s.label("local", "V", (0, 0))
        s.label("hierarchical", "V", (5, 0))
        s.label("global", "V", (9, 0))
        s.place("#PWR1", (13, 0), POWER, value="V")

    assert names_of(draw) == {"V": ["P1.1", "P2.1", "P3.1", "P4.1"]}


def test_equal_automatic_names_get_suffixes():
    def draw(s):
        for x in (0, 5, 9):
            s.place("D1", (x, 0))

    assert sorted(names_of(draw)) == ["unconnected-(D1-Pad1)", "unconnected-(D1-Pad1)_1", "unconnected-(D1-Pad1)_2"]


def test_an_automatic_name_steps_back_before_an_equal_global_label():
    def draw(s):
        s.probes(R1=(0, 0), R2=(0, 0), R3=(9, 0))
        s.label("global", "Net-(R1-Pad1)", (9, 0))

    assert names_of(draw) == {"Net-(R1-Pad1)": ["R3.1"], "Net-(R1-Pad1)_1": ["R1.1", "R2.1"]}


def test_a_hidden_power_pin_joins_globally_by_its_name():
    hidden = library(lib_pin("7", (5, 0), "VCC", "power_in", hidden=True), lib_pin("1"))

    def draw(s):
        s.place("U1", (0, 0), hidden)
        s.place("U2", (20, 0), hidden)
        s.place("#PWR1", (40, 0), POWER, value="VCC")
        s.probes(P1=(40, 0))

    assert names_of(draw)["VCC"] == ["P1.1", "U1.7", "U2.7"]


def test_pins_of_parts_that_are_not_annotated_name_nothing():
    def draw(s):
        s.probes(**{"P1": (0, 0), "P?": (0, 0)})
        s.place("Q?", (5, 0))
        s.place("Q?", (5, 0))
        s.place("S?", (9, 0))
        s.label("local", "X", (9, 0))
        s.place("T1", (13, 0), annotated=False)

    assert names_of(draw) == {"unconnected-(P1-Pad1)": ["P1.1", "P?.1"], "/X": ["S?.1"]}


def test_a_bus_label_on_a_plain_wire_is_only_a_name_there():
    def draw(s):
        s.probes(P1=(0, 0))
        s.wire((0, 0), (5, 0))
        s.label("local", "D[0..1]", (5, 0))

    assert names_of(draw) == {"/D[0..1]": ["P1.1"]}
