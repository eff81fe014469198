"""Battery runs with and without a fuse.  Fuse at the battery's end: common practice, no source."""

from __future__ import annotations

import pytest

from crafts.craft_kit import captive, pads, plug, splice, two_pin
from crafts.finding_kit import all_findings, at, findings_of, of_rule
from tabside.model.craft import Acceptance, CraftSettings, Protection
from tabside.model.findings import Severity
from tabside.rules.fuse_missing import fuse_missing

PACK = captive("X1", "A G", board="pack", signals="VBAT, GND", gives="VBAT 60A")
BOARD = pads("TP1", "B G", board="driver", signals="VBAT, GND", takes="7-26V 30A")
BARE = (PACK, pads("TP1", "A G", board="driver", signals="VBAT, GND", takes="7-26V 30A"))


def test_a_pack_straight_on_a_board_warns_at_both_ends():
    found = findings_of(fuse_missing, *BARE)
    assert [each.severity for each in found] == [Severity.WARNING]
    assert at(found[0]) == {"X1:1", "TP1:1"}


def test_a_fuse_in_the_run_is_enough_and_a_switch_is_not():
    assert not findings_of(fuse_missing, PACK, two_pin("F1", "A", "B"), BOARD)
    assert findings_of(fuse_missing, PACK, two_pin("SW1", "A", "B"), BOARD)
    assert not findings_of(fuse_missing, PACK, two_pin("SW1", "A", "C"), two_pin("F1", "C", "B"), BOARD)


def test_a_ferrite_bead_is_no_fuse():
    assert findings_of(fuse_missing, PACK, two_pin("FB1", "A", "B"), BOARD)


def test_one_branch_of_a_splice_without_a_fuse_is_found():
    found = findings_of(
        fuse_missing,
        PACK,
        splice("J9", "A"),
        splice("J8", "G"),
        two_pin("F1", "A", "B"),
        BOARD,
        pads("TP2", "A G", board="horn", signals="VBAT, GND", takes="7-26V 3A"),
    )
    assert len(found) == 1
    assert "TP2:1" in at(found[0]) and "TP1:1" not in at(found[0])


@pytest.mark.parametrize("end", [("X1", "1"), ("TP1", "1")])
def test_a_stated_limiter_is_enough(end):
    assert not findings_of(fuse_missing, *BARE, settings=CraftSettings(protections=(Protection(end, "BMS"),)))


def test_a_small_craft_may_accept_it():
    accept = Acceptance("fuse-missing", (("X1", "1"), ("TP1", "1")), "flies")
    found = of_rule("fuse-missing", all_findings(*BARE, settings=CraftSettings(accept=(accept,))))
    assert [each.accepted for each in found] == ["flies"]


def test_a_pack_of_which_nothing_is_stated_burns_wires_too():
    silent = (captive("X1", "A G", board="pack", signals="VBAT, GND"), BARE[1])
    assert [each.severity for each in findings_of(fuse_missing, *silent)] == [Severity.WARNING]


def test_boards_that_pass_the_battery_on_are_no_pack():
    assert not findings_of(
        fuse_missing,
        PACK,
        two_pin("F1", "A", "B"),
        BOARD,
        plug("J1", "B G", board="driver", family="JST SH", signals="VBAT, GND", gives="VBAT 2A"),
        plug("J2", "B G", board="pilot", family="JST SH", signals="VBAT, GND", takes="7-26V 1A"),
    )


def test_a_board_with_unstated_battery_pads_that_gives_elsewhere_is_no_pack():
    assert not findings_of(
        fuse_missing,
        PACK,
        two_pin("F1", "A", "B"),
        pads("TP1", "B G", board="driver", signals="BAT+, BAT-"),
        plug("J1", "C H", board="driver", family="JST SH", signals="VBAT, GND", gives="VBAT 2A"),
        plug("J2", "C H", board="pilot", family="JST SH", signals="VBAT, GND", takes="7-26V 1A"),
    )


def test_other_supplies_need_none():
    assert not findings_of(
        fuse_missing,
        pads("TP1", "A G", board="bec", signals="5V, GND", gives="5V 3A"),
        pads("TP2", "A G", board="pilot", signals="5V, GND", takes="5V 1A"),
    )


@pytest.mark.parametrize(
    ("between", "found"),
    [
        pytest.param((two_pin("F1", "M", "N"),), 0, id="a fuse"),
        pytest.param((two_pin("SW1", "M", "K"), two_pin("F1", "K", "N")), 0, id="a fuse behind a switch"),
        pytest.param((two_pin("SW1", "M", "N"),), 1, id="a switch"),
    ],
)
def test_one_fuse_between_packs_in_series_is_enough_for_their_one_current(between, found):
    assert (
        len(
            findings_of(
                fuse_missing,
                captive("X1", "A M", board="pack 1", signals="VBAT, GND", gives="12-16.8V 60A"),
                *between,
                captive("X2", "N G", board="pack 2", signals="VBAT, GND", gives="12-16.8V 60A"),
                pads("TP1", "A G", board="driver", signals="VBAT, GND", takes="20-36V 30A"),
            )
        )
        == found
    )


def test_the_plus_of_a_balance_lead_carries_no_load():
    pack = captive("X1", "A B C G", board="pack", family="JST XH", signals="B+, B2, B1, B-")
    charger = plug("J1", "A B C G", board="charger", family="JST XH", signals="B+, B2, B1, B-")
    assert not findings_of(fuse_missing, pack, charger)
