"""Nets across sheets.  Source of the verdicts: seen in KiCad 9.0.8."""

from __future__ import annotations

from itertools import permutations

import pytest

from drawing.hand_made_sheets import POWER, HandSheet, hierarchy, nets_of
from tabside.read.wires.netlist import netlist


def nets(root: HandSheet) -> dict[str, list[str]]:
    return nets_of(netlist(hierarchy(root)))


def child_with(label: str = "", *, name: str = "child", port: str = "X", probe: str = "C1") -> HandSheet:
    """A sheet with a hierarchical label and a probe on one wire, and another label of KIND:TEXT on it."""
    child = HandSheet(name)
    child.wire((0, 0), (5, 0))
    child.label("hierarchical", port, (0, 0))
    child.place(probe, (5, 0))
    if label:
        kind, text = label.split(":")
        child.label(kind, text, (5, 0))
    return child


@pytest.mark.parametrize(
    ("above", "below", "name"),
    [
        pytest.param("", "", "/sub/X", id="the label in the child counts more than the sheet pin"),
        pytest.param("local:Z", "", "/Z", id="a label above counts more than a hierarchical one"),
        pytest.param("local:Z", "local:A", "/Z", id="of two labels the shallower"),
        pytest.param("", "local:Z", "/sub/Z", id="a local label below counts more than the sheet pin"),
        pytest.param("local:A", "global:Z", "Z", id="a global label counts most"),
    ],
)
def test_the_best_name_of_all_sheets_counts(above, below, name):
    root = HandSheet()
    root.probes(P1=(0, 0))
    if above:
        kind, text = above.split(":")
        root.label(kind, text, (0, 0))
    root.sheet(child_with(below), "sub", X=(0, 0))
    assert nets(root) == {name: ["C1.1", "P1.1"]}


def test_a_sheet_used_twice_is_two_sheets():
    root, child = HandSheet(), child_with()
    root.probes(P1=(0, 0), P2=(5, 0))
    root.sheet(child, "one", X=(0, 0))
    root.sheet(child, "two", X=(5, 0))
    assert nets(root) == {"/one/X": ["C1.1", "P1.1"], "/two/X": ["C1_1.1", "P2.1"]}


@pytest.mark.parametrize("pin", ["x", "Y"])
def test_sheet_pin_and_hierarchical_label_meet_only_by_the_very_same_text(pin):
    root = HandSheet()
    root.probes(P1=(0, 0))
    root.sheet(child_with(), "sub", **{pin: (0, 0)})
    assert nets(root) == {f"/{pin}": ["P1.1"], "/sub/X": ["C1.1"]}


def test_a_sheet_pin_does_not_join_a_label_of_its_text_unless_wired():
    root = HandSheet()
    root.probes(P1=(0, 0), P2=(9, 0))
    root.label("local", "X", (9, 0))
    root.sheet(child_with(), "sub", X=(0, 0))
    assert nets(root) == {"/sub/X": ["C1.1", "P1.1"], "/X": ["P2.1"]}


def test_local_labels_stay_on_their_sheet_and_global_ones_do_not():
    root, child = HandSheet(), HandSheet("child")
    for sheet, probes in ((root, ("P1", "P2", "P3")), (child, ("C1", "C2", "C3"))):
        for x, probe in enumerate(probes):
            sheet.place(probe, (x, 0))
        sheet.label("local", "L", (0, 0))
        sheet.label("global", "G", (1, 0))
        sheet.place("#PWR1", (2, 0), POWER, value="V")
    root.sheet(child, "sub")
    assert nets(root) == {"/L": ["P1.1"], "/sub/L": ["C1.1"], "G": ["C2.1", "P2.1"], "V": ["C3.1", "P3.1"]}


def test_nets_of_two_sheets_with_one_name_become_one():
    root = HandSheet()
    for number in (1, 2):
        child = HandSheet(f"child{number}")
        child.label("local", "X", (0, 0))
        child.place(f"C{number}", (0, 0))
        root.sheet(child, "sub")
    assert nets(root) == {"/sub/X": ["C1.1", "C2.1"]}


def test_a_slash_in_a_sheets_name_can_make_two_nets_one():
    root, flat, outer, inner = HandSheet(), HandSheet("flat"), HandSheet("outer"), HandSheet("inner")
    for sheet, probe in ((flat, "F1"), (inner, "I1")):
        sheet.label("local", "X", (0, 0))
        sheet.place(probe, (0, 0))
    root.sheet(flat, "a/b")
    root.sheet(outer, "a")
    outer.sheet(inner, "b")
    assert nets(root) == {"/a/b/X": ["F1.1", "I1.1"]}


@pytest.mark.parametrize(
    ("order", "expected"),
    [
        (("AB", "BC", "C"), {"A": ["AB.1", "BC.1"], "C": ["C.1"]}),
        (("AB", "C", "BC"), {"A": ["AB.1", "BC.1"], "C": ["C.1"]}),
        (("C", "AB", "BC"), {"A": ["AB.1", "BC.1"], "C": ["C.1"]}),
        (("BC", "AB", "C"), {"A": ["AB.1", "BC.1"], "B": ["C.1"]}),
        (("BC", "C", "AB"), {"A": ["AB.1", "BC.1"], "B": ["C.1"]}),
        (("C", "BC", "AB"), {"A": ["AB.1", "BC.1"], "B": ["C.1"]}),
    ],
)
def test_a_chain_of_global_names_over_sheets_breaks_where_kicad_breaks_it(order, expected):
    root = HandSheet()
    for letters in order:
        child = HandSheet(letters)
        child.place(letters, (0, 0))
        for letter in letters:
            child.label("global", letter, (0, 0))
        root.sheet(child, f"sheet {letters}")
    assert nets(root) == expected
    assert order in set(permutations(("AB", "BC", "C")))


def bus_child(port: str, *members: str, name: str = "child", label: str = "") -> HandSheet:
    """A sheet with a bus that bears a hierarchical label, and probes C0, C1, ... on wires labelled as its members."""
    child = HandSheet(name)
    child.bus((0, 0), (20, 0))
    child.label("hierarchical", port, (0, 0))
    if label:
        child.label("local", label, (20, 0))
    for number, member in enumerate(members):
        child.label("local", member, (0, 5 + number))
        child.place(f"C{number}", (0, 5 + number))
    return child


def parent_of(child: HandSheet, pin: str, label: str, *members: str) -> HandSheet:
    root = HandSheet()
    root.bus((0, 0), (20, 0))
    root.pins(child, "sub", [(pin, (0, 0))])
    if label:
        root.label("local", label, (20, 0))
    for number, member in enumerate(members):
        root.label("local", member, (0, 5 + number))
        root.place(f"P{number}", (0, 5 + number))
    return root


def test_vectors_meet_by_position():
    root = parent_of(bus_child("D[4..7]", "D4", "D7"), "D[4..7]", "A[0..3]", "A0", "A3")
    assert nets(root) == {"/A0": ["C0.1", "P0.1"], "/A3": ["C1.1", "P1.1"]}


def test_groups_meet_by_the_members_name():
    root = parent_of(bus_child("X{DP DM}", "X.DP", "X.DM"), "X{DP DM}", "Y{DM DP}", "Y.DP", "Y.DM")
    assert nets(root) == {"/Y.DP": ["C0.1", "P0.1"], "/Y.DM": ["C1.1", "P1.1"]}


def test_a_bus_without_label_is_named_by_the_child():
    root = parent_of(bus_child("D[0..1]", "D0", "D1"), "D[0..1]", "", "D0", "D1")
    assert nets(root) == {"/sub/D0": ["C0.1", "P0.1"], "/sub/D1": ["C1.1", "P1.1"]}


def test_a_member_that_is_global_on_one_sheet_is_global_on_all():
    child = bus_child("D[0..1]", "D0", "D1")
    child.label("global", "EN", (0, 5))
    root = parent_of(child, "D[0..1]", "D[0..1]", "D0", "D1")
    assert nets(root) == {"EN": ["C0.1", "P0.1"], "/D1": ["C1.1", "P1.1"]}


def test_parts_of_a_bus_that_share_members_are_tied_without_a_wire_of_that_name():
    root = HandSheet()
    inner = bus_child("E[0..1]", "E0", "E1", name="inner")
    outer = HandSheet("outer")
    outer.label("hierarchical", "IO[0..3]", (0, 0))
    outer.label("local", "IO[0..3]", (0, 0))
    outer.pins(inner, "low", [("E[0..1]", (0, 9))])
    outer.label("local", "IO[2..3]", (0, 9))
    root.pins(outer, "sub", [("IO[0..3]", (0, 0))])
    root.label("local", "FP[0..3]", (0, 0))
    root.label("local", "FP2", (5, 5))
    root.probes(P2=(5, 5))
    assert nets(root)["/FP2"] == ["C0.1", "P2.1"]


def test_two_labels_on_one_bus_join_by_position():
    root = HandSheet()
    root.bus((0, 0), (20, 0))
    root.label("local", "D[3..0]", (0, 0))
    root.label("local", "E[0..3]", (20, 0))
    for x, text in enumerate(("D0", "E0", "D3", "E3")):
        root.label("local", text, (x, 9))
        root.place(f"P{x}", (x, 9))
    assert nets(root) == {"/D0": ["P0.1", "P1.1"], "/D3": ["P2.1", "P3.1"]}


def test_a_label_that_is_no_member_is_an_ordinary_label():
    root = parent_of(bus_child("D[0..1]", "D7"), "D[0..1]", "D[0..1]", "D7")
    assert nets(root) == {"/D7": ["P0.1"], "/sub/D7": ["C0.1"]}
