"""Escapes and text variables.  Source of the verdicts: seen in KiCad 9.0.8."""

from __future__ import annotations

import pytest

from drawing.hand_made_sheets import HandSheet, hierarchy, nets_of
from tabside.model.escapes import unescape
from tabside.read.kicad.labels import expand, net_text
from tabside.read.wires.netlist import netlist


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("A{slash}B", "A/B"),
        ("{lt}{gt}{colon}{dblquote}{quote}{bar}{comma}{space}{dollar}{backslash}{brace}", "<>:\"'|, $\\{"),
        ("~{RST}", "~{RST}"),
        ("~{slash}", "~{slash}"),
        ("A{foo}B", "A{foo}B"),
    ],
)
def test_escapes_read_as_a_person_reads_them(text, shown):
    assert unescape(text) == shown


@pytest.mark.parametrize(
    ("one", "other"),
    [("A{slash}B", "A/B"), ("A{lt}B", "A<B"), ("A\nB", "AB"), ("A{brace}B", "A{B"), ("A{space}B", "A B")],
)
def test_both_spellings_are_the_same_net(one, other):
    assert net_text(one) == net_text(other)


def test_blanks_and_case_keep_nets_apart():
    assert len({net_text(text) for text in ("lead", " lead", "lead ", "Lead")}) == 4


def test_variables_within_variables_and_unknown_ones():
    values = {"A": "x${B}", "B": "y", "C": "${C}"}
    assert expand("${A}-${B}-${D}", values.get) == "xy-y-${D}"
    assert expand("${C}", values.get) == "${C}"


def test_a_label_with_a_variable_joins_the_label_of_its_value():
    root = HandSheet()
    root.probes(P1=(0, 0), P2=(5, 0))
    root.label("local", "${FOO}", (0, 0))
    root.label("local", "BAR", (5, 0))
    assert nets_of(netlist(hierarchy(root, variables={"FOO": "BAR"}))) == {"/BAR": ["P1.1", "P2.1"]}


def test_a_slash_in_a_local_label_is_no_path():
    root = HandSheet()
    root.probes(P1=(0, 0), P2=(5, 0))
    root.label("local", "X", (0, 0))
    root.label("global", "/X", (5, 0))
    drawing = netlist(hierarchy(root))
    assert [net.name for net in drawing.nets] == ["/X", "/X"]
    assert [len(net.pins) for net in drawing.nets] == [1, 1]
