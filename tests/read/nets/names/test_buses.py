"""Bus texts and how buses match.  Source of the members: seen in KiCad 9.0.8, wires in two sheets joined or not."""

from __future__ import annotations

import pytest

from tabside.read.nets.names.buses import BusRules, Connection, Origin, group_of, parse_vector

HERE, THERE = Origin(0, "/"), Origin(1, "/sub/")
NINE, TEN = BusRules(), BusRules(kicad=10)


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
    rules = BusRules({"USB": ("DP", "DM")})
    assert [m.full for m in Connection(HERE, "{USB ID}", rules).members] == ["/DP", "/DM", "/ID"]
    assert [m.full for m in Connection(HERE, "X{USB}", rules).members] == ["/X.DP", "/X.DM"]
    assert not Connection(HERE, "USB", rules).is_bus


def test_vectors_match_by_place_and_groups_by_name():
    vector = Connection(THERE, "D[4..6]", NINE)
    vector.take(Connection(HERE, "A[0..1]", NINE))
    assert [m.full for m in vector.members] == ["/A0", "/A1", "/sub/D6"]
    group = Connection(THERE, "X{DM DP ID}", NINE)
    group.take(Connection(HERE, "Y{DP DM}", NINE))
    assert [m.full for m in group.members] == ["/Y.DM", "/Y.DP", "/sub/X.ID"]


def test_a_member_is_found_by_what_it_was_drawn_as_after_it_got_another_name():
    vector, drawn = Connection(THERE, "D[0..1]", NINE), Connection(THERE, "D[0..1]", NINE).members[1]
    vector.take(Connection(HERE, "A[6..7]", NINE))
    assert vector.member_like(drawn).full == "/A7"


def test_a_suffix_reaches_the_members():
    vector = Connection(HERE, "D[0..1]", NINE)
    vector.set_suffix("_1")
    assert [m.full for m in vector.members] == ["/D0_1", "/D1_1"]


# KiCad 10.  Source: seen in KiCad 10.0.7, wires in two sheets joined or not.


@pytest.mark.parametrize(
    ("text", "members"),
    [
        ("~{D}[0..1]", ["~{D}0", "~{D}1"]),
        ("~{D[0..1]}", ["~{D0}", "~{D1}"]),
        ("A_{x}[0..1]P", ["A_{x}0P", "A_{x}1P"]),
        ("A[0..1]_{N}", None),
    ],
)
def test_marks_stay_in_the_members_of_a_vector_in_kicad_10(text, members):
    found = parse_vector(text, marks_stay=True)
    assert (found and found[1]) == members


@pytest.mark.parametrize(
    ("text", "prefix", "members"),
    [
        ("S{~{R} T}", "S", ["~{R}", "T"]),
        ("P{~{A B} C}", "P", ["~{A", "B}", "C"]),
        ("X{~{A_{b}} C}", "X", ["~{A_{b}}", "C"]),
        ("X{~{D[0..1]} E}", "X", ["~{D[0..1]}", "E"]),
        ("~{I}{A B}", "~{I}", ["A", "B"]),
        ("I_{C}{A B}", "I_{C}", ["A", "B"]),
        ("A_{b}^{c}{D E}", "A_{b}^{c}", ["D", "E"]),
        ("X_{y}Z{A B}", "X_{y}Z", ["A", "B"]),
        ("{A B}x", "", ["A", "B"]),
    ],
)
def test_marks_stay_in_the_members_of_a_group_and_may_stand_before_it_in_kicad_10(text, prefix, members):
    assert group_of(text, marks_stay=True) == (prefix, members)


@pytest.mark.parametrize("text", ["A", "~{RST}", "A_{b c}{D E}", "A_{b{D E}", "X}Z{A B}", "_{A B}", "{A B", "P Q{A}"])
def test_other_texts_are_no_groups_in_kicad_10(text):
    assert group_of(text, marks_stay=True) is None


def test_in_kicad_10_a_member_of_another_name_is_the_one_at_its_own_place():
    group = Connection(HERE, "S{D[0..1] X}", TEN)
    other = Connection(HERE, "U{E[0..2] Y}", TEN)
    vector, last = other.members
    found = [group.member_like(member).full for member in (*vector.members, last)]
    assert found == ["/S.D0", "/S.D1", "/S.X", "/S.D0"]
    assert Connection(HERE, "S{D[0..1] X}", NINE).member_like(last) is None


def test_in_kicad_10_a_vector_takes_a_groups_members_by_name_then_by_place():
    vector = Connection(THERE, "V[0..2]", TEN)
    vector.take(Connection(HERE, "U{V1 X}", TEN))
    assert [m.full for m in vector.members] == ["/U.V1", "/U.V1", "/sub/V2"]
