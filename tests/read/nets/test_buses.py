"""Bus texts and how buses match.  Source of the members: seen in KiCad 9.0.8, wires in two sheets joined or not."""

from __future__ import annotations

import pytest

from tabside.read.nets.buses import Connection, Origin, group_of, parse_vector

HERE, THERE = Origin(0, "/"), Origin(1, "/sub/")


@pytest.mark.parametrize(
    ("text", "members"),
    [
        ("D[0..3]", ["D0", "D1", "D2", "D3"]),
        ("D[3..0]", ["D0", "D1", "D2", "D3"]),
        ("D[01..02]", ["D1", "D2"]),
        ("D[..2]", ["D0", "D1", "D2"]),
        ("[0..1]", ["0", "1"]),
        ("D[0..1]+", ["D0+", "D1+"]),
        ("D[0..1]P", ["D0P", "D1P"]),
        ("~{D}[0..1]", ["D0", "D1"]),
        ("~{D[0..1]}", ["D0", "D1"]),
        ("A_{B}C[0..1]", ["ABC0", "ABC1"]),
        ("~D[0..1]", ["~D0", "~D1"]),
        ("D[0..0]", None),
        ("D[0]", None),
        ("D[0..1]x", None),
        ("A D[0..1]", None),
        ("A][0..1]", None),
        ("D[0..1][2..3]", None),
        ("{D[0..1]}", None),
        ("D[0..99999999999]", None),
        ("D", None),
    ],
)
def test_a_vector_has_its_members_in_ascending_order(text, members):
    found = parse_vector(text)
    assert (found and found[1]) == members


@pytest.mark.parametrize(
    ("text", "prefix", "members"),
    [
        ("USB{DP DM}", "USB", ["DP", "DM"]),
        ("{DP DM}", "", ["DP", "DM"]),
        ("{A,B,,C}", "", ["A", "B", "C"]),
        ("{D[0..1] E}", "", ["D[0..1]", "E"]),
        ("X{~{RST} A}", "X", ["RST", "A"]),
        ("{~{A B} C}", "", ["A", "B", "C"]),
        ("{A_{b} B^{c}}", "", ["Ab", "Bc"]),
        ("{A B}x", "", ["A", "B"]),
    ],
)
def test_a_group_has_its_members_as_written(text, prefix, members):
    assert group_of(text) == (prefix, members)


@pytest.mark.parametrize("text", ["A", "{A{B C}}", "P Q{A B}", "~{X}{A B}", "~{RST}", "{A B", "D[0..1]"])
def test_other_texts_are_no_groups(text):
    assert group_of(text) is None


def test_an_alias_stands_for_its_members_with_and_without_prefix():
    aliases = {"USB": ("DP", "DM")}
    assert [m.full for m in Connection(HERE, "{USB ID}", aliases).members] == ["/DP", "/DM", "/ID"]
    assert [m.full for m in Connection(HERE, "X{USB}", aliases).members] == ["/X.DP", "/X.DM"]
    assert not Connection(HERE, "USB", aliases).is_bus


def test_vectors_match_by_place_and_groups_by_name():
    vector = Connection(THERE, "D[4..6]", {})
    vector.take(Connection(HERE, "A[0..1]", {}))
    assert [m.full for m in vector.members] == ["/A0", "/A1", "/sub/D6"]
    group = Connection(THERE, "X{DM DP ID}", {})
    group.take(Connection(HERE, "Y{DP DM}", {}))
    assert [m.full for m in group.members] == ["/Y.DM", "/Y.DP", "/sub/X.ID"]


def test_a_member_is_found_by_what_it_was_drawn_as_after_it_got_another_name():
    vector, drawn = Connection(THERE, "D[0..1]", {}), Connection(THERE, "D[0..1]", {}).members[1]
    vector.take(Connection(HERE, "A[6..7]", {}))
    assert vector.member_like(drawn).full == "/A7"


def test_a_suffix_reaches_the_members():
    vector = Connection(HERE, "D[0..1]", {})
    vector.set_suffix("_1")
    assert [m.full for m in vector.members] == ["/D0_1", "/D1_1"]
