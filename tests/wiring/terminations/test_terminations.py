"""Which symbols are terminations, and what their fields say."""

import pytest

from crafts.craft_kit import captive, craft, plug, power, splice, two_pin
from tabside.model.craft import Kind


def only(made):
    (found,) = made.terminations.values()
    return found


@pytest.mark.parametrize("reference", ["J1", "P2", "X3", "CN4", "CON5", "j6"])
def test_connector_letters_make_a_termination(reference):
    assert only(craft(plug(reference, "a b"))).reference == reference


@pytest.mark.parametrize("reference", ["U1", "R1", "C1", "Q1", "M1", "BT1", "H1", "JA1", "XY1"])
def test_other_letters_make_a_part(reference):
    made = craft(plug(reference, "a b c"))
    assert not made.terminations and [part.reference for part in made.parts] == [reference]


@pytest.mark.parametrize(
    "field",
    ["board", "kind", "family", "signals", "GIVES", "Takes", "level", "leads_max", "contact_1", "entry", "tabs"],
)
def test_any_of_our_fields_makes_a_termination(field):
    good = {
        "board": "pilot",
        "kind": "pad",
        "family": "jst_sh",
        "signals": "A B C",
        "GIVES": "1:5V",
        "Takes": "1:5V",
        "level": "3.3V",
        "leads_max": 2,
        "contact_1": "left",
        "entry": "side",
        "tabs": "away",
    }
    made = craft(plug("U1", "a b c", **{field: good[field]}))
    assert "U1" in made.terminations and not made.parts


def test_an_empty_field_is_no_field():
    assert not craft(plug("U1", "a b c", board="", signals="  ", family="~")).terminations


@pytest.mark.parametrize(
    ("footprint", "kind", "family"),
    [
        ("Connector_JST:JST_GH_SM06B-GHS-TB_1x06-1MP_P1.25mm_Horizontal", Kind.RECEPTACLE, "jst_gh"),
        ("Connector_Wire:SolderWire-0.5sqmm_1x02_P4.8mm_D0.9mm_OD2.3mm", Kind.PAD, None),
        ("TestPoint:TestPoint_Pad_D2.0mm", Kind.PAD, None),
    ],
)
def test_a_footprint_makes_a_termination_of_its_kind(footprint, kind, family):
    found = only(craft(plug("U1", "a b", footprint=footprint)))
    assert (found.kind, found.family) == (kind, family)


def test_the_footprint_says_ways_entry_and_contact_1():
    # KiCad's footprint library 9.0.8: six ways, side entry, contact 1 left.
    footprint = "Connector_JST:JST_GH_SM06B-GHS-TB_1x06-1MP_P1.25mm_Horizontal"
    found = only(craft(plug("J1", "a b", footprint=footprint)))
    assert (found.ways, found.ways_said_by, found.sized_ways, found.entry, found.contact_1) == (
        6,
        "footprint",
        6,
        "side",
        "left",
    )


def test_without_a_footprint_the_highest_contact_counts_the_ways():
    found = only(craft(plug("J1", {1: "a", 6: "b"})))
    assert (found.ways, found.ways_said_by, found.sized_ways, found.kind) == (6, "symbol", None, Kind.RECEPTACLE)


@pytest.mark.parametrize("text", ["JST SH", "jst-sh", "jst_sh", "JST_SH"])
def test_the_family_is_read_whatever_its_case_blanks_and_dashes(text):
    assert only(craft(plug("J1", "a b", family=text))).family == "jst_sh"


def test_an_unknown_family_keeps_its_text():
    found = only(
        craft(
            plug(
                "J1",
                "a b",
                family="Micro plug 7",
                footprint="Connector_JST:JST_GH_BM02B-GHS-TBT_1x02-1MP_P1.25mm_Vertical",
            )
        )
    )
    assert (found.family, found.family_text, found.sized_ways) == (None, "Micro plug 7", None)


def test_family_pad_means_pads():
    assert only(craft(plug("J1", "a b", family="pad"))).kind is Kind.PAD


def test_shield_and_mounting_pins_are_no_contacts():
    made = craft(plug("J1", {1: "a", 2: "b", "MP": "GND", "SH": "GND", "S": "GND"}), plug("J2", "a b GND"))
    assert [each.number for each in made.terminations["J1"].contacts] == ["1", "2"]
    assert {lead.net for lead in made.leads} == {"a", "b"}


def test_a_connector_with_mounting_pins_only_is_a_part():
    assert not craft(plug("J1", {"MP": "GND"})).terminations


def test_the_board_comes_from_the_symbol_then_the_innermost_sheet_then_the_reference():
    sheets = [{"Sheetname": "x"}, {"BOARD": "inner"}, {"Board": "outer"}]
    made = craft(
        plug("J1", "a b", board="pilot", sheet_fields=sheets), plug("J2", "a b", sheet_fields=sheets), plug("J3", "a b")
    )
    assert [(each.board, each.board_stated) for each in made.terminations.values()] == [
        ("pilot", True),
        ("inner", True),
        ("J3", False),
    ]


def test_power_symbols_and_flags_are_neither_terminations_nor_parts():
    made = craft(power("GND"), plug("#FLG01", ["GND"], board="x"), plug("J1", "GND"))
    assert list(made.terminations) == ["J1"] and not made.parts


def test_units_of_one_reference_are_one_termination():
    made = craft(
        plug("J1", {1: "a", 2: "b"}, unit=1, unit_count=2, value="CONN"),
        plug("J1", {3: "c", 10: "d"}, unit=2, unit_count=2, value="CONN", board="pilot"),
    )
    found = only(made)
    assert [each.number for each in found.contacts] == ["1", "2", "3", "10"]
    assert found.board == "pilot" and not made.oddities


@pytest.mark.parametrize(
    ("maker", "leads_max"),
    [
        (lambda: plug("J1", "a b"), 1),
        (lambda: plug("J1", "a b", kind="pad"), 4),  # common practice, no source
        (lambda: plug("J1", "a b", kind="pad", leads_max=2), 2),
        (lambda: captive("J1", "a b"), 1),
        (lambda: captive("J1", "a b", family="jst sh"), 1),
        (lambda: splice("J1", "a"), None),
        (lambda: two_pin("F1", "a", "b"), 4),
        (lambda: two_pin("F1", "a", "b", leads_max=1), 1),
        (lambda: two_pin("SW1", "a", "b", family="jst sh"), 1),  # its leads enter a plug
    ],
)
def test_leads_that_a_contact_takes(maker, leads_max):
    assert {each.leads_max for each in only(craft(maker())).contacts} == {leads_max}


@pytest.mark.parametrize(
    ("fields", "word"),
    [
        ({"kind": "socket"}, "Kind"),
        ({"entry": "left"}, "Entry"),
        ({"tabs": "up"}, "Tabs"),
        ({"contact_1": "1"}, "Contact 1"),
        ({"seen_from": "above", "signals": "A B"}, "Seen from"),
        ({"gives": "lots"}, "Gives"),
        ({"takes": "5V 1,5A"}, "Takes"),
        ({"either": "?"}, "Either"),
        ({"level": "high"}, "Level"),
        ({"level_max": "-"}, "Level max"),
        ({"leads_max": "many", "kind": "pad"}, "Leads max"),
        ({"leads_max": "0", "kind": "pad"}, "Leads max"),
        ({"leads_max": "2"}, "cavity takes one wire"),
        ({"kind": "pad", "family": "JST SH"}, "Family"),
        ({"gives": "7:5V 1A"}, "no contact 7"),
        ({"fields": {"Board": "a", "BOARD": "b"}}, "twice"),
    ],
)
def test_a_value_that_cannot_be_used_is_told_and_never_passed_over(fields, word):
    found = [each for each in craft(plug("J1", "a b", **fields)).oddities if each.what == "field"]
    assert len(found) == 1 and word in found[0].message and found[0].reference == "J1"


@pytest.mark.parametrize(
    "fields",
    [
        {"kind": "Receptacle", "entry": "SIDE", "tabs": "Away", "contact_1": "Left"},
        {"level": "3V3", "level_max": "5.5 V", "gives": "1:5V 1A"},
        {"kind": "pad", "family": "pad", "leads_max": 8},
        {"either": "1:5V"},
        {"my_own_field": "whatever"},
    ],
)
def test_good_values_are_quiet(fields):
    assert not craft(plug("J1", "a b", **fields)).oddities


def test_a_field_that_contradicts_the_footprint_is_told():
    footprint = "Connector_JST:JST_GH_SM06B-GHS-TB_1x06-1MP_P1.25mm_Horizontal"
    (oddity,) = craft(plug("J1", "a b", footprint=footprint, contact_1="right")).oddities
    assert "Contact 1" in oddity.message
    assert not craft(plug("J1", "a b", footprint=footprint, contact_1="left", entry="side")).oddities


@pytest.mark.parametrize(
    ("text", "high", "told"),
    [
        ("3.3", 3.3, False),
        ("3,6V", 3.6, False),
        ("5", 5, False),
        ("12", 12, False),
        ("33", None, True),
        ("33V", 33, False),
    ],
)
def test_a_level_without_a_unit_that_may_have_lost_its_point_is_told(text, high, told):
    made = craft(plug("J1", "a b", signals="TX, GND", level_max=text))
    assert made.terminations["J1"].contacts[0].level_max_v == high
    assert len(made.oddities) == told


def test_a_rating_at_a_connector_is_told_and_at_a_fuse_read():
    (oddity,) = craft(plug("J1", "a b", fields={"Rating": "3A"})).oddities
    assert "Rating" in oddity.message
    fuse = craft(plug("J1", "a b"), two_pin("F1", "a", "c", fields={"Rating": "3A"}), plug("J2", "c b"))
    assert not fuse.oddities


def test_a_gauge_at_a_part_is_told():
    (oddity,) = craft(captive("J1", "a b", fields={"Gauge": "26"})).oddities
    assert "on the wire" in oddity.message


def test_a_pin_s_with_a_signals_name_is_a_contact():
    made = craft(plug("J1", {"S": "a", "+": "b", "-": "c"}, names={"S": "SIG", "+": "V+", "-": "GND"}))
    assert [contact.number for contact in made.terminations["J1"].contacts] == ["+", "-", "S"]
