"""What the drawing does not say.  Logic, no source needed."""

from __future__ import annotations

from crafts.craft_kit import captive, pads, plug
from crafts.finding_kit import findings_of
from tabside.model.craft import CraftSettings
from tabside.model.findings import Severity
from tabside.model.stock import StockCable
from tabside.rules.unknown_facts import board_unknown, family_unknown, length_unknown, view_unknown

STOCK = CraftSettings(stock_cables=(StockCable("x", (("jst_sh", 2), ("jst_sh", 2)), ((1, 1),), "map", 1, 1, True),))


def severities(check, *symbols, **more):
    return [each.severity.value for each in findings_of(check, *symbols, **more)]


def test_families_that_are_not_said_are_one_note():
    two = (plug("J1", "A B", board="one"), plug("J2", "A B", board="two"))
    found = findings_of(family_unknown, *two)
    assert [each.severity for each in found] == [Severity.NOTE]
    assert "2 connectors" in found[0].message
    assert severities(family_unknown, *two, settings=STOCK) == ["warning"]


def test_a_family_that_is_written_and_not_known_is_a_warning():
    found = findings_of(family_unknown, plug("J1", "A B", board="one", family="JTS SH"))
    assert [each.severity for each in found] == [Severity.WARNING]
    assert "JTS SH" in found[0].message


def test_quiet_for_known_families_pads_and_bare_leads():
    assert not findings_of(
        family_unknown,
        plug("J1", "A B", board="one", family="jst-sh"),
        pads("TP1", "A B", board="two"),
        captive("M1", "A B", board="motor"),
    )


def test_boards_that_are_not_named_are_one_note():
    symbols = (
        plug("J1", "A G", signals="TX, GND"),
        plug("J2", "A G", signals="RX, GND"),
        plug("J3", "B", board="named"),
    )
    found = findings_of(board_unknown, *symbols)
    assert [each.severity for each in found] == [Severity.NOTE]
    assert "J1 and J2" in found[0].message


def test_a_missing_ground_at_an_unnamed_board_makes_it_a_warning():
    assert severities(board_unknown, plug("J1", "A -", signals="TX, GND"), plug("J2", "A -", signals="RX, GND")) == [
        "warning"
    ]


def test_quiet_when_all_boards_are_named():
    assert not findings_of(board_unknown, plug("J1", "A", board="one"), plug("J2", "A", board="two"))


def test_leads_without_length_are_one_note_and_lengths_quiet_it():
    symbols = (plug("J1", "A B", board="one"), plug("J2", "A B", board="two"))
    found = findings_of(length_unknown, *symbols)
    assert [each.severity for each in found] == [Severity.NOTE]
    assert "2 of 2 wires" in found[0].message
    assert not findings_of(length_unknown, *symbols, settings=CraftSettings(lengths_mm={("J1", "J2"): 80.0}))


def test_which_way_round_a_plug_looks_is_asked_of_plugs_that_can_be_re_pinned():
    """Soldered, moulded and coaxial plugs are never re-pinned.  Retention: the table of families."""
    crimped = plug("J1", "A B", board="one", family="jst-gh")
    assert severities(view_unknown, crimped) == ["note"]
    for family in ("XT60", "MR30", "U.FL", "USB Type-C", "jst_sr"):
        assert not findings_of(view_unknown, plug("J1", "A B", board="one", family=family)), family


def test_quiet_when_entry_release_side_and_contact_1_are_known():
    known = plug("J1", "A B", board="one", family="jst-gh", entry="side", tabs="board", contact_1="left")
    assert not findings_of(view_unknown, known)
