"""What connects and what does not: wires, junctions, labels on wires, pins, sheet pins, flags, graphics.

Source of every verdict: seen in KiCad 9.0.8, in the schematic editor where kicad-cli differs from it.
"""

from __future__ import annotations

from drawing.drawing_kit import Sheet, connector, two_pin

from .case import Cases

WIRES = Cases()


@WIRES({"Net-(P1-Pad1)": "P1 P2 P3 P4"})
def four_wire_ends_meet_without_junction(s: Sheet) -> None:
    s.wire((0, 0), (4, 0), (8, 0))
    s.wire((4, -4), (4, 0), (4, 4))
    s.probes(P1=(0, 0), P2=(8, 0), P3=(4, -4), P4=(4, 4))


@WIRES({"Net-(P1-Pad1)": "P1 P2"}, alone="P3")
def wire_end_on_the_middle_of_a_wire(s: Sheet) -> None:
    s.wire((0, 0), (8, 0))
    s.wire((4, 0), (4, 4))
    s.probes(P1=(0, 0), P2=(8, 0), P3=(4, 4))


@WIRES({"Net-(P1-Pad1)": "P1 P2 P3"})
def wire_end_on_the_middle_of_a_wire_with_junction(s: Sheet) -> None:
    s.wire((0, 0), (8, 0))
    s.wire((4, 0), (4, 4))
    s.junction((4, 0))
    s.probes(P1=(0, 0), P2=(8, 0), P3=(4, 4))


@WIRES({"Net-(P1-Pad1)": "P1 P2", "Net-(P3-Pad1)": "P3 P4"})
def two_wires_cross(s: Sheet) -> None:
    s.wire((0, 0), (8, 0))
    s.wire((4, -4), (4, 4))
    s.probes(P1=(0, 0), P2=(8, 0), P3=(4, -4), P4=(4, 4))


@WIRES({"Net-(P1-Pad1)": "P1 P2 P3 P4"})
def two_wires_cross_with_junction(s: Sheet) -> None:
    s.wire((0, 0), (8, 0))
    s.wire((4, -4), (4, 4))
    s.junction((4, 0))
    s.probes(P1=(0, 0), P2=(8, 0), P3=(4, -4), P4=(4, 4))


@WIRES({"Net-(P1-Pad1)": "P1 P2 P3 P4"})
def two_slanting_wires_cross_with_junction(s: Sheet) -> None:
    s.wire((0, 0), (8, 4))
    s.wire((0, 4), (8, 0))
    s.junction((4, 2))
    s.probes(P1=(0, 0), P2=(8, 4), P3=(0, 4), P4=(8, 0))


@WIRES({"Net-(P1-Pad1)": "P1 P2", "Net-(P3-Pad1)": "P3 P4"})
def junction_beside_a_crossing(s: Sheet) -> None:
    s.wire((0, 0), (8, 0))
    s.wire((4, -4), (4, 4))
    s.junction((5, 0))
    s.probes(P1=(0, 0), P2=(8, 0), P3=(4, -4), P4=(4, 4))


@WIRES({"Net-(P1-Pad1)": "P1 P2"}, alone="P3")
def pin_end_on_the_middle_of_a_wire(s: Sheet) -> None:
    s.wire((0, 0), (8, 0))
    s.probes(P1=(0, 0), P2=(8, 0), P3=(4, 0))


@WIRES({"Net-(P1-Pad1)": "P1 P2 P3"})
def pin_end_on_the_middle_of_a_wire_with_junction(s: Sheet) -> None:
    s.wire((0, 0), (8, 0))
    s.junction((4, 0))
    s.probes(P1=(0, 0), P2=(8, 0), P3=(4, 0))


@WIRES({"Net-(P1-Pad1)": "P1 P2"})
def pin_end_on_pin_end(s: Sheet) -> None:
    s.probes(P1=(0, 0), P2=(0, 0))


@WIRES({"Net-(P1-Pad1)": "P1 P2 P3"})
def three_pins_and_a_wire_on_one_point(s: Sheet) -> None:
    s.wire((0, 0), (4, 0))
    s.probes(P1=(0, 0), P2=(0, 0), P3=(4, 0))


@WIRES({"Net-(P1-Pad1)": "P1 R1", "Net-(P2-Pad1)": "P2 R1.2"})
def a_part_separates_its_two_pins(s: Sheet) -> None:
    r = s.place(two_pin(), (0, 0), reference="R1")
    s.probes(P1=r.pin(1), P2=r.pin(2))


@WIRES({"Net-(P1-Pad1)": "P1 P2", "unconnected-(R1-Pad1)": "R1.1", "unconnected-(R1-Pad2)": "R1.2"})
def a_wire_drawn_through_a_part_joins_none_of_its_pins(s: Sheet) -> None:
    s.place(two_pin(), (0, 0), reference="R1")
    s.wire((0, -4), (0, 4))
    s.probes(P1=(0, -4), P2=(0, 4))


@WIRES({"/sub/X": "P1 P5"})
def sheet_pin_on_a_pin(s: Sheet) -> None:
    s.sheet(_child("X"), "sub", (0, 0), (8, 4), left=["X"])
    s.probes(P1=(0, 1))


@WIRES({"/sub/X": "P1 P5"})
def sheet_pin_on_a_wire_end(s: Sheet) -> None:
    s.sheet(_child("X"), "sub", (0, 0), (8, 4), left=["X"])
    s.wire((-4, 1), (0, 1))
    s.probes(P1=(-4, 1))


@WIRES({"/sub/X": "P1 P2 P5"})
def sheet_pin_on_the_middle_of_a_wire(s: Sheet) -> None:
    s.sheet(_child("X"), "sub", (0, 0), (8, 4), left=["X"])
    s.wire((0, -4), (0, 8))
    s.probes(P1=(0, -4), P2=(0, 8))


@WIRES({"/sub/X": "P5", "Net-(P1-Pad1)": "P1 P2"})
def sheet_pin_beside_a_wire(s: Sheet) -> None:
    s.sheet(_child("X"), "sub", (0, 0), (8, 4), left=["X"])
    s.wire((-4, 2), (0, 2))
    s.probes(P1=(-4, 2), P2=(0, 2))


def _child(*labels: str, first: int = 5) -> Sheet:
    """A sheet with a hierarchical label and a probe for each of these names."""
    child = Sheet("child", grid=2.54, origin_mm=(101.6, 101.6))
    for k, label in enumerate(labels):
        child.label("hierarchical", label, (0, 2 * k))
        child.probes(**{f"P{first + k}": (0, 2 * k)})
    return child


for _kind, _net in {"local": "/X", "global": "X", "hierarchical": "/X"}.items():

    @WIRES({_net: "P1 P2 P3"}, name=f"{_kind} label on the middle of a wire")
    def _label_on_the_middle(s: Sheet, kind: str = _kind) -> None:
        s.wire((0, 0), (8, 0))
        s.label(kind, "X", (3, 0), (20, 0))
        s.probes(P1=(0, 0), P2=(8, 0), P3=(20, 0))

    @WIRES({_net: "P1 P2 P3 P4"}, name=f"{_kind} label where wires cross")
    def _label_on_a_crossing(s: Sheet, kind: str = _kind) -> None:
        s.wire((0, 0), (8, 0))
        s.wire((4, -4), (4, 4))
        s.label(kind, "X", (4, 0))
        s.probes(P1=(0, 0), P2=(8, 0), P3=(4, -4), P4=(4, 4))


@WIRES({"/X": "P1 P2 P3"})
def label_on_a_tee_without_junction(s: Sheet) -> None:
    s.wire((0, 0), (8, 0))
    s.wire((4, 0), (4, 4))
    s.label("local", "X", (4, 0))
    s.probes(P1=(0, 0), P2=(8, 0), P3=(4, 4))


@WIRES({"Net-(P1-Pad1)": "P1 P2"})
def label_beside_a_wire(s: Sheet) -> None:
    s.wire((0, 0), (8, 0))
    s.label("local", "X", (4, 1))
    s.probes(P1=(0, 0), P2=(8, 0))


@WIRES({"Net-(P1-Pad1)": "P1 P2 P3 P4"})
def directive_where_wires_cross(s: Sheet) -> None:
    s.wire((0, 0), (8, 0))
    s.wire((4, -4), (4, 4))
    s.directive((4, 0), "HV", {"Gauge": "24"})
    s.probes(P1=(0, 0), P2=(8, 0), P3=(4, -4), P4=(4, 4))


@WIRES({"Net-(P1-Pad1)": "P1 P2", "Net-(P3-Pad1)": "P3 P4"})
def directives_of_the_same_class_on_two_wires(s: Sheet) -> None:
    for y, (a, b) in {0: ("P1", "P2"), 4: ("P3", "P4")}.items():
        s.wire((0, y), (8, y))
        s.directive((4, y), "HV")
        s.probes(**{a: (0, y), b: (8, y)})


@WIRES({"Net-(P1-Pad1)": "P1 P2", "/X": "P3"})
def label_where_a_pin_end_lies_on_the_middle_of_a_wire(s: Sheet) -> None:
    s.wire((0, 0), (8, 0))
    s.label("local", "X", (4, 0))
    s.probes(P1=(0, 0), P2=(8, 0), P3=(4, 0))


@WIRES({"Net-(P1-Pad1)": "P1 P2", "Net-(P3-Pad1)": "P3 P4"})
def no_connect_flag_on_a_crossing(s: Sheet) -> None:
    s.wire((0, 0), (8, 0))
    s.wire((4, -4), (4, 4))
    s.no_connect((4, 0))
    s.probes(P1=(0, 0), P2=(8, 0), P3=(4, -4), P4=(4, 4))


@WIRES({"Net-(P1-Pad1)": "P1 P2"})
def no_connect_flag_on_the_middle_of_a_wire(s: Sheet) -> None:
    s.wire((0, 0), (8, 0))
    s.no_connect((4, 0))
    s.probes(P1=(0, 0), P2=(8, 0))


@WIRES({"unconnected-(P1-Pad1)": "P1 P2"})
def no_connect_flag_on_a_wired_pin(s: Sheet) -> None:
    s.wire((0, 0), (8, 0))
    s.no_connect((0, 0))
    s.probes(P1=(0, 0), P2=(8, 0))


@WIRES({"/X": "P1 P2"})
def no_connect_flag_on_a_labelled_pin(s: Sheet) -> None:
    s.label("local", "X", (0, 0), (8, 0))
    s.no_connect((0, 0))
    s.probes(P1=(0, 0), P2=(8, 0))


@WIRES({"Net-(P1-Pad1)": "P1 P2"})
def two_collinear_wires_overlap(s: Sheet) -> None:
    s.wire((0, 0), (8, 0))
    s.wire((4, 0), (12, 0))
    s.probes(P1=(0, 0), P2=(12, 0))


@WIRES({"Net-(P1-Pad1)": "P1 P2"})
def two_slanting_wires_overlap(s: Sheet) -> None:
    s.wire((0, 0), (8, 8))
    s.wire((4, 4), (12, 12))
    s.probes(P1=(0, 0), P2=(12, 12))


@WIRES({"Net-(P1-Pad1)": "P1 P2"}, alone="P3")
def pin_on_the_end_of_a_wire_that_lies_inside_a_longer_one(s: Sheet) -> None:
    s.wire((0, 0), (12, 0))
    s.wire((4, 0), (8, 0))
    s.probes(P1=(0, 0), P2=(12, 0), P3=(4, 0))


@WIRES({"Net-(P1-Pad1)": "P1 P2"}, alone="P3")
def pin_where_the_overlap_of_two_wires_begins(s: Sheet) -> None:
    s.wire((0, 0), (8, 0))
    s.wire((4, 0), (12, 0))
    s.probes(P1=(0, 0), P2=(12, 0), P3=(4, 0))


@WIRES({"Net-(P1-Pad1)": "P1 P2 P3"})
def pin_where_two_collinear_wires_touch(s: Sheet) -> None:
    s.wire((0, 0), (4, 0), (8, 0))
    s.probes(P1=(0, 0), P2=(8, 0), P3=(4, 0))


@WIRES({"Net-(P1-Pad1)": "P1 P2"})
def the_same_wire_twice(s: Sheet) -> None:
    s.wire((0, 0), (8, 0))
    s.wire((8, 0), (0, 0))
    s.probes(P1=(0, 0), P2=(8, 0))


@WIRES({"Net-(P1-Pad1)": "P1 P2"}, alone="P3")
def wire_without_length_on_the_middle_of_a_wire(s: Sheet) -> None:
    s.wire((0, 0), (8, 0))
    s.wire((4, 0), (4, 0))
    s.probes(P1=(0, 0), P2=(8, 0), P3=(4, 0))


@WIRES({}, alone="P1 P2 P3 P4")
def graphic_line_text_and_rule_area(s: Sheet) -> None:
    s.polyline((0, 0), (8, 0))
    s.text("P1 to P2", (0, 0))
    s.rule_area((0, 4), (8, 4), (8, 8), (0, 8))
    s.probes(P1=(0, 0), P2=(8, 0), P3=(0, 4), P4=(8, 4))


@WIRES({"Net-(P1-Pad1)": "P1 P2"})
def bus_line_that_touches_pins(s: Sheet) -> None:
    s.bus((0, 0), (8, 0))
    s.probes(P1=(0, 0), P2=(8, 0))


@WIRES({"/X": "P1 P2 P3"})
def plain_label_on_a_bus_line(s: Sheet) -> None:
    s.bus((0, 0), (8, 0))
    s.label("local", "X", (4, 0), (20, 0))
    s.probes(P1=(0, 0), P2=(8, 0), P3=(20, 0))


@WIRES({}, alone="P1 P2")
def wires_that_touch_a_bus_line(s: Sheet) -> None:
    s.bus((0, 0), (8, 0))
    s.wire((0, 0), (0, 4))
    s.wire((8, 0), (8, 4))
    s.probes(P1=(0, 4), P2=(8, 4))


def _apart(s: Sheet, gap_mm: float) -> None:
    """A wire whose end misses a pin by so much."""
    s.wire((0, 0), (4, 0))
    s.probes(P1=(0, 0), P2=(4 + gap_mm / 2.54, 0))


@WIRES({"Net-(P1-Pad1)": "P1 P2"})
def ends_that_miss_each_other_by_40_nanometres(s: Sheet) -> None:
    _apart(s, 0.00004)


@WIRES({}, alone="P1 P2")
def ends_that_miss_each_other_by_60_nanometres(s: Sheet) -> None:
    _apart(s, 0.00006)


@WIRES({"Net-(J1-Pin_1)": "J1.1 J2.3", "Net-(J1-Pin_2)": "J1.2 J2.2", "Net-(J1-Pin_3)": "J1.3 J2.1"})
def two_connectors_back_to_back(s: Sheet) -> None:
    s.place(connector(3), (2, 0), reference="J1")
    s.place(connector(3), (-2, 2), 180, reference="J2")
