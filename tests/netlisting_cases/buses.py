"""Buses: vectors, groups, aliases, and how their members join.

Source of every verdict: seen in KiCad 9.0.8.
"""

from __future__ import annotations

from collections.abc import Iterable

from drawing.drawing_kit import Sheet

from .case import Cases
from .labels import below

BUSES = Cases()


def tap(s: Sheet, x: float, label: str, reference: str, *, kind: str = "local", y: float = 0) -> None:
    """A bus entry down from the bus at (x, y), a wire on its end with a label, a probe at the end of that."""
    s.bus_entry((x, y), (x + 1, y + 1))
    s.wire((x + 1, y + 1), (x + 1, y + 4))
    if label:
        s.label(kind, label, (x + 1, y + 2))
    s.probes(**{reference: (x + 1, y + 4)})


def bus(s: Sheet, name: str, members: Iterable[str], first: int, *, y: float = 0, kind: str = "local") -> None:
    """A labelled bus line with a tap for each of the members, whose probes are numbered from `first`."""
    listed = list(members)
    s.bus((0, y), (4 * len(listed) + 4, y))
    s.label(kind, name, (1, y))
    for k, member in enumerate(listed):
        tap(s, 4 * k + 2, member, f"P{first + k}", y=y)


@BUSES({"/D0": "P1 P3", "/D1": "P2 P4"})
def members_of_one_bus_line_and_of_another_of_the_same_name(s: Sheet) -> None:
    bus(s, "D[0..1]", ["D0", "D1"], 1)
    bus(s, "D[0..1]", ["D0", "D1"], 3, y=8)


@BUSES({"/D0": "P1 P4", "/D1": "P2"}, alone="P3")
def a_tap_without_a_label_is_on_no_member(s: Sheet) -> None:
    bus(s, "D[0..1]", ["D0", "D1", ""], 1)
    s.label("local", "D0", (40, 0))
    s.probes(P4=(40, 0))


@BUSES({"/D0": "P1", "/D7": "P2 P3"})
def a_label_that_is_no_member_is_an_ordinary_one(s: Sheet) -> None:
    bus(s, "D[0..3]", ["D0", "D7"], 1)
    s.label("local", "D7", (40, 0))
    s.probes(P3=(40, 0))


@BUSES({"/D0": "P1 P4", "/D1": "P2 P3"})
def order_of_the_bounds_does_not_matter_by_name(s: Sheet) -> None:
    bus(s, "D[1..0]", ["D0", "D1"], 1)
    bus(s, "D[0..1]", ["D1", "D0"], 3, y=8)


@BUSES({"/D0": "P1 P3", "/D3": "P2 P4"})
def two_vectors_on_one_line_join_by_position(s: Sheet) -> None:
    """Members always count upwards: D0 is E0 although one is written from 3 down."""
    bus(s, "D[3..0]", ["D0", "D3", "E0", "E3"], 1)
    s.label("local", "E[0..3]", (16, 0))


@BUSES({"/D0": "P1 P3", "/D1": "P2 P4"})
def vectors_with_different_bounds_join_by_position(s: Sheet) -> None:
    bus(s, "D[0..1]", ["D0", "D1", "E4", "E5"], 1)
    s.label("local", "E[4..5]", (16, 0))


@BUSES({"/D0": "P1 P4", "/D1": "P2", "/E0": "P3"})
def buses_of_unequal_names_on_two_lines_stay_apart(s: Sheet) -> None:
    bus(s, "D[0..1]", ["D0", "D1"], 1)
    bus(s, "E[0..1]", ["E0", "D0"], 3, y=8)


for _suffix in "+-PN":

    @BUSES({f"/D0{_suffix}": "P1 P3", f"/D1{_suffix}": "P2"}, name=f"vector with suffix {_suffix}")
    def _suffixed(s: Sheet, suffix: str = _suffix) -> None:
        bus(s, f"D[0..1]{suffix}", [f"D0{suffix}", f"D1{suffix}", f"E0{suffix}"], 1)
        s.label("local", f"E[0..1]{suffix}", (12, 0))


@BUSES({"/D[0..0]": "P1", "/D0": "P2"}, name="a vector of one member is no bus")
def _one_member(s: Sheet) -> None:
    s.label("local", "D[0..0]", (0, 0))
    s.label("local", "D0", (0, 4))
    s.probes(P1=(0, 0), P2=(0, 4))


@BUSES({"/D[0]": "P1 P2"})
def a_name_with_one_index_is_an_ordinary_one(s: Sheet) -> None:
    s.wire((0, 0), (4, 0))
    s.label("local", "D[0]", (4, 0), (8, 0))
    s.probes(P1=(0, 0), P2=(8, 0))


@BUSES({"/E0": "P1 P3", "/E1": "P2 P4"})
def overbar_of_the_vector_is_dropped_from_its_members(s: Sheet) -> None:
    """Of the two vectors the one without the overbar sorts first, and its members name the nets."""
    bus(s, "~{D}[0..1]", ["D0", "D1", "E0", "E1"], 1)
    s.label("local", "E[0..1]", (16, 0))


@BUSES({"/USB.DP": "P1 P3", "/USB.DM": "P2"})
def members_of_a_group_carry_its_prefix(s: Sheet) -> None:
    bus(s, "USB{DP DM}", ["USB.DP", "USB.DM"], 1)
    s.label("local", "USB.DP", (40, 0))
    s.probes(P3=(40, 0))


@BUSES({"/DP": "P1 P3", "/DM": "P2"})
def members_of_a_group_without_prefix(s: Sheet) -> None:
    bus(s, "{DP,DM}", ["DP", "DM"], 1)
    s.label("local", "DP", (40, 0))
    s.probes(P3=(40, 0))


@BUSES({"/X.CK": "P1", "/X.D0": "P2", "/X.D1": "P3 P4"})
def a_group_that_holds_a_vector(s: Sheet) -> None:
    bus(s, "X{CK D[0..1]}", ["X.CK", "X.D0", "X.D1"], 1)
    s.label("local", "X.D1", (40, 0))
    s.probes(P4=(40, 0))


@BUSES({"/A.DP": "P1 P3", "/A.DM": "P2 P4"})
def two_groups_on_one_line_join_by_member_name(s: Sheet) -> None:
    bus(s, "A{DP DM}", ["A.DP", "A.DM", "B.DP", "B.DM"], 1)
    s.label("local", "B{DM DP}", (16, 0))


@BUSES({"/DP": "P1", "/DM": "P2 P3"})
def an_alias_stands_for_its_members(s: Sheet) -> None:
    s.bus_alias("USB", ["DP", "DM"])
    bus(s, "{USB}", ["DP", "DM"], 1)
    s.label("local", "DM", (40, 0))
    s.probes(P3=(40, 0))


@BUSES({"/X.DP": "P1", "/X.DM": "P2", "/Y.DP": "P3", "/Y.DM": "P4"})
def an_alias_inside_a_group_with_prefix(s: Sheet) -> None:
    s.bus_alias("USB", ["DP", "DM"])
    bus(s, "X{USB}", ["X.DP", "X.DM"], 1)
    bus(s, "Y{USB}", ["Y.DP", "Y.DM"], 3, y=8)


@BUSES({"/X.DP": "P1 P5", "/X.DM": "P2 P6"})
def an_alias_of_a_sub_sheet_counts_for_the_whole_drawing(s: Sheet) -> None:
    bus(s, "X{USB}", ["X.DP", "X.DM"], 1)
    child = below()
    child.bus_alias("USB", ["DP", "DM"])
    bus(child, "X{USB}", ["X.DP", "X.DM"], 5, kind="hierarchical")
    s.sheet(child, "sub", (20, -2), (8, 4), pins={"X{USB}": (20, 0)})
    s.bus((12, 0), (20, 0))


@BUSES({"/A0": "P1 P5", "/A1": "P2 P6"})
def sheet_pin_joins_a_bus_of_another_name_by_position(s: Sheet) -> None:
    bus(s, "A[0..1]", ["A0", "A1"], 1)
    child = below()
    bus(child, "D[4..5]", ["D4", "D5"], 5, kind="hierarchical")
    s.sheet(child, "sub", (20, -2), (8, 4), pins={"D[4..5]": (20, 0)})
    s.bus((12, 0), (20, 0))


@BUSES({"/A0": "P1", "/A1": "P2", "/sub/D0": "P5", "/sub/D1": "P6"})
def sheet_pin_and_hierarchical_label_of_unequal_bus_names(s: Sheet) -> None:
    bus(s, "A[0..1]", ["A0", "A1"], 1)
    child = below()
    bus(child, "D[0..1]", ["D0", "D1"], 5, kind="hierarchical")
    s.sheet(child, "sub", (20, -2), (8, 4), pins={"E[0..1]": (20, 0)})
    s.bus((12, 0), (20, 0))


@BUSES({"D0": "P1 P5", "D1": "P2 P6"})
def global_bus_labels_join_their_members_over_all_sheets(s: Sheet) -> None:
    child = below()
    for sheet, first in ((s, 1), (child, 5)):
        bus(sheet, "D[0..1]", ["D0", "D1"], first, kind="global")
    s.sheet(child, "sub", (20, 8), (8, 4))


@BUSES({"/D[0..1]": "P1 P2", "/D0": "P3"})
def a_bus_label_on_a_plain_wire_is_a_plain_name(s: Sheet) -> None:
    s.wire((0, 0), (8, 0))
    s.label("local", "D[0..1]", (4, 0))
    s.label("local", "D0", (20, 0))
    s.probes(P1=(0, 0), P2=(8, 0), P3=(20, 0))


@BUSES({"/D0": "P1 P3"}, alone="P2")
def both_ends_of_a_bus_entry_count(s: Sheet) -> None:
    """An entry drawn from the wire to the bus, and one that ends beside its wire."""
    s.bus((0, 0), (12, 0))
    s.label("local", "D[0..1]", (1, 0))
    s.bus_entry((4, 1), (3, 0))
    s.wire((4, 1), (4, 4))
    s.label("local", "D0", (4, 2), (40, 0))
    s.bus_entry((6, 0), (7, 1))
    s.wire((8, 1), (8, 4))
    s.probes(P1=(4, 4), P2=(8, 4), P3=(40, 0))
