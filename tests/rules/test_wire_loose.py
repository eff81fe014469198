"""What looks joined and is not.

What KiCad's command line (9.0.8, 10.0.7) makes of wires on each other is asked here.  Its editor was tried by hand:
10.0.7 loads `on_each_other` and saves it as one wire.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from drawing.drawing_kit import Sheet, connector
from programs.kicad_oracle import Netlist, kicad_10_netlist, kicad_netlist
from tabside.analysis.judgement import Judgement
from tabside.craft_reading import read_craft
from tabside.model.findings import Severity
from tabside.rules.wire_loose import wire_loose

A, B = (50.8, 50.8), (101.6, 50.8)


def messages(draw, tmp_path: Path) -> list[str]:
    root = Sheet("loose")
    for reference, at in (("J1", A), ("J2", B)):
        root.place(connector(2), (at[0] + 5.08, at[1]), reference=reference, fields={"Board": reference})
    draw(root)
    found = list(wire_loose(Judgement(read_craft(root.write(tmp_path)))))
    assert all(each.severity is Severity.WARNING and each.where[0].place for each in found)
    return [each.message for each in found]


def label_once(s):
    s.wire(A, (A[0] - 5.08, A[1]))
    s.label("local", "MOT_1", (A[0] - 5.08, A[1]))
    s.label("local", "MOT1", B)
    s.wire(B, (B[0] - 5.08, B[1]))


def near(s):
    s.wire(A, (B[0] - 0.635, A[1]))


def passes_over(s):
    s.wire((A[0] - 10, A[1]), (B[0], A[1]))


def power_in_the_middle(s):
    s.wire(A, B)
    s.power("GND", (76.2, A[1]))


def on_the_middle(s):
    s.wire(A, B)
    s.wire((76.2, 40.64), (76.2, A[1]))


def on_each_other(s):
    s.wire(A, (80.0, A[1]))
    s.wire((70.0, A[1]), B)


@pytest.mark.parametrize(
    ("draw", "words"),
    [
        (label_once, '"MOT_1" ("MOT1" stands elsewhere)'),
        (near, "just beside J2:1"),
        (passes_over, "passes over J1:1"),
        (power_in_the_middle, "passes over GND"),
        (on_the_middle, "on the middle of another"),
        (on_each_other, "on each other"),
    ],
)
def test_what_is_loose_is_told_with_its_place(draw, words, tmp_path):
    assert any(words in each for each in messages(draw, tmp_path))


def test_a_similar_name_is_shown(tmp_path):
    assert any('"MOT1" stands elsewhere' in each for each in messages(label_once, tmp_path))


def quiet_name(s):
    s.wire(A, B)
    s.label("local", "LINK", (76.2, A[1]))


def quiet_crossing(s):
    s.wire(A, B)
    s.wire((76.2, 40.64), (76.2, 60.96))


def quiet_flag(s):
    s.no_connect(A)
    s.label("local", "SPARE", A)


def quiet_two_names(s):
    s.label("global", "LINK", A, B)


def quiet_power(s):
    s.power("GND", A, B)


def quiet_pieces(s):
    s.wire(A, (76.2, A[1]), B)
    s.wire(A, (76.2, A[1]))


def quiet_junction(s):
    s.wire(A, (76.2, A[1]), B)
    s.wire((76.2, A[1]), (76.2, 60.96))
    s.junction((76.2, A[1]))
    s.power("GND", (76.2, 60.96))


def quiet_next_to_a_wired_pin(s):
    s.wire(A, B)
    s.wire((A[0], A[1] + 2.54), (B[0], A[1] + 2.54))


@pytest.mark.parametrize(
    "draw",
    [
        quiet_name,
        quiet_crossing,
        quiet_flag,
        quiet_two_names,
        quiet_power,
        quiet_pieces,
        quiet_junction,
        quiet_next_to_a_wired_pin,
    ],
)
def test_what_is_joined_is_quiet(draw, tmp_path):
    assert messages(draw, tmp_path) == []


def two_on_one_point(kind):
    def draw(s):
        s.wire(A, B)
        s.directive((63.5, A[1]), fields={"Gauge": "24"})
        if kind == "flag":
            s.directive((63.5, A[1]), fields={"Colour": "red"})
        else:
            s.label(kind, "FEED", (63.5, A[1]))

    return draw


def test_two_flags_on_one_point_hold_to_no_wire_and_are_told(tmp_path):
    (message,) = messages(two_on_one_point("flag"), tmp_path)
    assert "Gauge and Colour" in message and "holds to no wire" in message
    assert read_craft(tmp_path / "loose.kicad_sch").leads[0].gauge_awg is None


def test_a_name_that_shares_its_point_with_a_flag_is_told(tmp_path):
    assert any("FEED" in each and "names nothing" in each for each in messages(two_on_one_point("global"), tmp_path))


@pytest.mark.kicad("cli")
def test_kicad_drops_a_name_that_shares_its_point_with_a_flag(tmp_path):
    messages(two_on_one_point("global"), tmp_path)
    names = [name for name, pins in kicad_netlist(tmp_path / "loose.kicad_sch", mend=False).nets if len(pins) > 1]
    assert names and not any("FEED" in name for name in names)


def test_flags_beside_each_other_and_at_an_end_are_quiet(tmp_path):
    def draw(s):
        s.wire(A, B)
        s.directive((63.5, A[1]), fields={"Gauge": "24"})
        s.directive((66.04, A[1]), fields={"Colour": "red"})
        s.directive(A, fields={"Length": "100"})
        s.label("global", "FEED", A)

    assert messages(draw, tmp_path) == []
    lead = read_craft(tmp_path / "loose.kicad_sch").leads[0]
    assert (lead.gauge_awg, lead.colour, lead.length_mm) == (24, "RD", 100.0)


def branch_from_the_end_of_one(s):
    s.wire(A, B)
    s.wire(A, (76.2, A[1]), (76.2, 76.2))
    s.power("GND", (76.2, 76.2))


def one_inside_the_other(s):
    s.wire(A, B)
    s.wire((60.96, A[1]), (71.12, A[1]))


def joined(nets: Netlist) -> bool:
    return any({("J1", "1"), ("J2", "1")} <= set(pins) for _, pins in nets.nets)


ON_EACH_OTHER = [(on_each_other, False), (one_inside_the_other, True)]  # whether the command line joins J1:1 and J2:1


@pytest.mark.parametrize("draw", [on_each_other, branch_from_the_end_of_one, one_inside_the_other])
def test_wires_on_each_other_are_one_wire_and_told(draw, tmp_path):
    assert any("on each other" in each for each in messages(draw, tmp_path))
    craft = read_craft(tmp_path / "loose.kicad_sch")
    assert craft.terminations["J1"].contacts[0].net_id == craft.terminations["J2"].contacts[0].net_id


@pytest.mark.kicad("cli")
@pytest.mark.parametrize(("draw", "joins"), ON_EACH_OTHER)
def test_what_the_command_line_makes_of_them(draw, joins, tmp_path):
    messages(draw, tmp_path)
    assert joined(kicad_netlist(tmp_path / "loose.kicad_sch", mend=False)) == joins


@pytest.mark.kicad("cli10")
@pytest.mark.parametrize(("draw", "joins"), ON_EACH_OTHER)
def test_what_kicad_10s_command_line_makes_of_them(draw, joins, tmp_path):
    messages(draw, tmp_path)
    assert joined(kicad_10_netlist(tmp_path / "loose.kicad_sch", mend=False)) == joins


@pytest.mark.parametrize(
    ("beside", "pin"),
    [((-1.27, 0), "J2:1"), ((1.27, 0), "J2:1"), ((0, -1.27), "J2:1"), ((0, 2.54 + 1.27), "J2:2")],
    ids=["left", "right", "above", "below"],
)
def test_an_end_half_a_grid_away_is_told_on_whichever_side_of_the_pin(beside, pin, tmp_path):
    end = (B[0] + beside[0], B[1] + beside[1])
    assert any(f"just beside {pin}" in each for each in messages(lambda s: s.wire(end, (end[0], 10.16)), tmp_path))


def test_an_end_farther_away_is_not_told(tmp_path):
    assert messages(lambda s: s.wire((B[0] + 1.28, B[1]), (B[0] + 1.28, 10.16)), tmp_path) == []
