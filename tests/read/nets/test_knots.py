"""What touches what on one sheet.  Source of the verdicts: seen in KiCad 9.0.8, one probe on each point of interest."""

from __future__ import annotations

import pytest

from drawing.hand_made_sheets import POWER_FLAG, HandSheet, hierarchy, lib_pin, library, nets_of
from tabside.model.drawing import Drawing
from tabside.read.wires.netlist import netlist


def joined(drawing: Drawing) -> set[frozenset[str]]:
    """The sets of references that share a net, lone ones left out."""
    groups = (frozenset(pin.split(".")[0] for pin in pins) for pins in nets_of(drawing).values())
    return {group for group in groups if len(group) > 1}


def sheet_with(draw, kicad: int = 9) -> Drawing:
    sheet = HandSheet()
    draw(sheet)
    return netlist(hierarchy(sheet)._replace(kicad=kicad))


def cross(s: HandSheet) -> None:
    s.wire((0, 5), (10, 5))
    s.wire((5, 0), (5, 10))
    s.probes(A=(0, 5), B=(10, 5), C=(5, 0), D=(5, 10))


def tee(s: HandSheet) -> None:
    s.wire((0, 5), (10, 5))
    s.wire((5, 5), (5, 10))
    s.probes(A=(0, 5), B=(10, 5), C=(5, 10))


ALL_FOUR, ACROSS, DOWN = frozenset("ABCD"), frozenset("AB"), frozenset("CD")


@pytest.mark.parametrize(
    ("base", "extra", "expected"),
    [
        pytest.param(cross, None, {ACROSS, DOWN}, id="a crossing joins nothing"),
        pytest.param(cross, lambda s: s.junction((5, 5)), {ALL_FOUR}, id="a junction joins a crossing"),
        pytest.param(cross, lambda s: s.label("local", "X", (5, 5)), {ALL_FOUR}, id="a label joins a crossing"),
        pytest.param(cross, lambda s: s.label("directive", "", (5, 5)), {ALL_FOUR}, id="so does a directive"),
        pytest.param(cross, lambda s: s.no_connect((5, 5)), {ACROSS, DOWN}, id="a flag joins nothing"),
        pytest.param(cross, lambda s: s.probes(E=(5, 5)), {ACROSS, DOWN}, id="a pin on a crossing joins nothing"),
        pytest.param(tee, None, {ACROSS}, id="an end on the middle joins nothing"),
        pytest.param(tee, lambda s: s.junction((5, 5)), {frozenset("ABC")}, id="a junction joins it"),
        pytest.param(tee, lambda s: s.label("local", "X", (5, 5)), {frozenset("ABC")}, id="a label joins it"),
        pytest.param(
            tee,
            lambda s: (s.label("local", "X", (5, 5)), s.no_connect((5, 5))),
            {frozenset("ABC")},
            id="also with a flag beside it",
        ),
    ],
)
def test_crossings_and_tees(base, extra, expected):
    def draw(s):
        base(s)
        if extra:
            extra(s)

    assert joined(sheet_with(draw)) == expected


@pytest.mark.parametrize(
    ("beside", "names"),
    [
        pytest.param(None, {"/X": ["A.1"]}, id="a label alone holds to the wire"),
        pytest.param(
            lambda s: s.probes(P=(5, 5)), {"/X": ["P.1"], "unconnected-(A-Pad1)": ["A.1"]}, id="but to a pin first"
        ),
        pytest.param(
            lambda s: s.label("local", "Y", (5, 5)), {"unconnected-(A-Pad1)": ["A.1"]}, id="or to another label"
        ),
        pytest.param(lambda s: s.no_connect((5, 5)), {"unconnected-(A-Pad1)": ["A.1"]}, id="or to a flag"),
        pytest.param(
            lambda s: s.label("directive", "", (5, 5)), {"unconnected-(A-Pad1)": ["A.1"]}, id="or to a directive"
        ),
    ],
)
def test_a_label_on_the_middle_of_a_wire_holds_to_what_is_at_its_point_first(beside, names):
    def draw(s):
        s.wire((0, 5), (10, 5))
        s.probes(A=(0, 5))
        s.label("local", "X", (5, 5))
        if beside:
            beside(s)

    assert nets_of(sheet_with(draw)) == names


@pytest.mark.parametrize(
    ("meeting", "together"),
    [
        pytest.param(None, False, id="ends alone do not meet"),
        pytest.param(lambda s: s.junction((5, 0)), True, id="with a junction"),
        pytest.param(lambda s: s.probes(P=(5, 0)), True, id="with a pin"),
        pytest.param(lambda s: s.label("local", "X", (5, 0)), True, id="with a label"),
    ],
)
def test_a_bus_end_meets_a_wire_end_only_where_something_else_lies(meeting, together):
    def draw(s):
        s.wire((0, 0), (5, 0))
        s.bus((5, 0), (10, 0))
        s.probes(A=(0, 0), B=(10, 0))
        if meeting:
            meeting(s)

    assert any({"A", "B"} <= group for group in joined(sheet_with(draw))) is together


def test_a_bus_entry_is_a_wire_that_touches_nothing_on_the_bus():
    def draw(s):
        s.bus((0, 0), (20, 0))
        s.entry((5, 0), (7, 2))
        s.wire((7, 2), (7, 9))
        s.entry((7, 9), (9, 11))
        s.probes(A=(0, 0), B=(7, 9), C=(9, 11), D=(5, 0))

    assert joined(sheet_with(draw)) == {frozenset("BC"), frozenset("AD")}


def test_a_bus_entry_breaks_the_wire_under_its_end():
    def draw(s):
        s.wire((0, 0), (10, 0))
        s.entry((5, 0), (7, 2))
        s.probes(A=(0, 0), B=(10, 0), C=(7, 2))

    assert joined(sheet_with(draw)) == {frozenset("ABC")}


def test_a_pin_of_type_no_connect_joins_nothing_but_keeps_a_label_from_the_wire():
    def draw(s):
        s.place("N", (0, 0), library(lib_pin("1", electrical="no_connect")))
        s.probes(A=(0, 0))
        s.wire((0, 0), (5, 0))
        s.probes(B=(5, 0))

    assert joined(sheet_with(draw)) == {frozenset("AB")}


def test_pins_on_each_other_join_also_hidden_ones_and_within_one_symbol():
    def draw(s):
        s.place("U", (0, 0), library(lib_pin("1"), lib_pin("2", hidden=True), lib_pin("3", (5, 0))))
        s.probes(A=(0, 0))

    assert nets_of(sheet_with(draw)) == {"Net-(A-Pad1)": ["A.1", "U.1", "U.2"], "unconnected-(U-Pad3)": ["U.3"]}


def test_a_pin_on_the_end_of_a_wire_that_was_merged_away_is_not_connected():
    def draw(s):
        s.wire((0, 0), (10, 0))
        s.wire((3, 0), (5, 0))
        s.probes(A=(0, 0), B=(10, 0), C=(3, 0))

    assert joined(sheet_with(draw)) == {frozenset("AB")}


def test_points_meet_when_they_round_to_the_same_100_nm():
    def draw(s):
        s.wire((0, 0), (5.00004, 0))
        s.wire((0, 5), (5.00006, 5))
        s.probes(A=(0, 0), B=(5, 0), C=(0, 5), D=(5, 5))

    assert joined(sheet_with(draw)) == {frozenset("AB")}


def test_parts_join_inside_only_what_their_library_symbol_says():
    # Seen in KiCad 10.0.7; 9.0.8 has no such words.
    pins = (lib_pin("1"), lib_pin("2", (5, 0)), lib_pin("3", (10, 0)), lib_pin("3", (15, 0)))
    ends = {"A": (0, 0), "B": (5, 0), "C": (10, 0), "D": (15, 0)}

    def draw(symbol):
        return lambda s: (s.place("U", (0, 0), symbol), s.probes(**ends))

    def friends(symbol, kicad=10):
        return {group - {"U"} for group in joined(sheet_with(draw(symbol), kicad))}

    assert friends(library(*pins)) == {frozenset("A"), frozenset("B"), frozenset("C"), frozenset("D")}
    assert friends(library(*pins, jumper_groups=(("1", "2"),))) == {frozenset("AB"), frozenset("C"), frozenset("D")}
    assert friends(library(*pins, duplicate_numbers_join=True)) == {frozenset("A"), frozenset("B"), frozenset("CD")}
    assert frozenset("A") in friends(library(*pins, jumper_groups=(("1", "2"),)), kicad=9)


def test_a_power_flag_joins_and_names_nothing():
    def draw(s):
        s.place("#FLG1", (0, 0), POWER_FLAG)
        s.place("#FLG2", (5, 0), POWER_FLAG)
        s.probes(A=(0, 0), B=(5, 0))

    # With a second, nameless pin on it a lone pin is no longer called unconnected.
    assert nets_of(sheet_with(draw)) == {"Net-(A-Pad1)": ["A.1"], "Net-(B-Pad1)": ["B.1"]}
