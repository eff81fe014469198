"""Fuses against the wires behind them and the loads before them.

Limits of wire: handbook table for open-air chassis wiring (grade C: 28 AWG 1.4 A, 14 AWG 32 A, 12 AWG 41 A);
MIL-W-5088B as quoted (22 AWG 5 A, 20 AWG 8.33 A, 8 AWG 75 A).  "Nothing fused above the wire's rating" is common
practice, no source.
"""

from __future__ import annotations

import pytest

from crafts.craft_kit import captive, note, pads, plug, splice, two_pin
from crafts.finding_kit import all_findings, at, findings_of, of_rule
from tabside.model.craft import CraftSettings, Limits, Protection
from tabside.model.findings import Severity
from tabside.model.roles import Volts
from tabside.rules.fuse_size import fuse_size


def run(fuse="15A", amps=10, gauge=14, table="", reference="F1", **fields):
    return findings_of(
        fuse_size,
        captive("X1", "A G", board="pack", family="Amass XT60", signals="BAT+, BAT-", gives="4S 60A"),
        two_pin(reference, "A", "B", value=fuse, **fields),
        pads("TP1", "B G", board="drive", signals="VBAT, GND", takes=f"7-26V {amps}A"),
        settings=CraftSettings(
            battery=Volts(12.0, 16.8), gauge_awg=gauge, limits=Limits(ampacity=table) if table else Limits()
        ),
    )


@pytest.mark.parametrize("rating", ["30", "1.5kA", "30 or 40", "1e9A", f"{'9' * 400}A"])
def test_a_rating_that_is_not_read_is_told(rating):
    """What is stated and not understood is no silence (the rule of the fields)."""
    (found,) = run("fuse", rating=rating)
    assert found.severity is Severity.WARNING and f'"{rating}"' in found.message
    assert found.message.endswith("nothing is held against it.")
    assert [each.message.endswith("its Value counts, 15 A.") for each in run("15A", rating=rating)] == [True]


def test_a_rating_in_words_is_told_where_the_value_has_no_figures_either():
    (found,) = run("fuse", rating="big")
    assert found.message.endswith('"big" says neither amperes nor volts; nothing is held against it.')


@pytest.mark.parametrize("rating", ["", "~", "slow", "15A", "15 A 58V", "58V", "T15A"])
def test_a_rating_that_is_read_or_says_nothing_is_quiet(rating):
    assert run("15A", rating=rating) == []


@pytest.mark.parametrize(
    ("fuse", "amps", "gauge", "table", "severity"),
    [
        ("15A", 10, 14, "", None),
        ("30 A", 25, 14, "", None),
        ("15A", 10, 28, "", Severity.ERROR),  # above every standard: 22 AWG carries 5 A by MIL-W-5088B
        ("4A", 2, 26, "", Severity.WARNING),  # above the handbook's 2.2 A alone
        ("200A", 54, 8, "", Severity.ERROR),
        ("6A", 4, 22, "milw5088b_chassis", Severity.ERROR),
        ("5A", 4, 22, "milw5088b_chassis", None),
        ("8A", 4, 20, "milw5088b_chassis", None),
        ("10A", 4, 20, "milw5088b_chassis", Severity.ERROR),
        ("1A", 54, 10, "", Severity.WARNING),  # opens under load
        ("500mA", 2, 22, "", Severity.WARNING),
        ("Littelfuse", 54, 14, "", None),  # it states no current
    ],
)
def test_a_fuse_lies_between_the_load_and_what_the_wire_carries(fuse, amps, gauge, table, severity):
    found = run(fuse, amps, gauge, table)
    assert [each.severity for each in found] == ([] if severity is None else [severity])


@pytest.mark.parametrize("reference", ["F7", "FH2", "CB1", "PF3"])
def test_holders_and_breakers_are_fuses(reference):
    assert run("40A", 10, 20, reference=reference)


def test_rating_comes_before_value():
    assert not run("ATO", 10, 14, rating="15A 58V")
    assert run("15A", 10, 14, rating="60A")
    assert "F1 (60 A) does not protect W" in run("15A", 10, 14, rating="60A")[0].message


def test_the_thinnest_branch_behind_a_fuse_counts_up_to_the_next_fuse():
    def found(*branch):
        return findings_of(
            fuse_size,
            captive("X1", "A G", board="pack", signals="BAT+, BAT-", gives="4S 60A"),
            two_pin("F1", "A", "B", value="30A"),
            splice("J9", "B"),
            pads("TP1", "B G", board="drive", signals="VBAT, GND", takes="7-26V 20A"),
            *branch,
            settings=CraftSettings(battery=Volts(12.0, 16.8), gauge_awg=12),
            notes=[note("TP2:1", gauge=26)],
        )

    (thin,) = found(pads("TP2", "B G", board="horn", signals="VBAT, GND", takes="7-26V 1A"))
    assert "TP2:1" in at(thin) and "26 AWG" in thin.message
    fused = [two_pin("F2", "B", "C", value="2A"), pads("TP2", "C G", board="horn", signals="VBAT, GND")]
    assert not found(*fused)


def test_a_contact_behind_a_fuse_only_warns():
    (found,) = findings_of(
        fuse_size,
        pads("TP1", "A G", board="bec", signals="5V, GND", gives="5V 5A"),
        two_pin("F1", "A", "B", value="3A"),
        plug("J1", "B G", board="lamp", family="JST SH", signals="5V, GND", takes="5V 0.5A"),
    )
    assert found.severity is Severity.WARNING and "JST SH is rated 1 A" in found.message


def test_leads_side_by_side_count_together_at_80_percent():
    def found(amps):
        return findings_of(
            fuse_size,
            pads("TP1", "A G", board="bec", signals="5V, GND", gives="5V 5A"),
            two_pin("F1", "A", "B", value=f"{amps}A"),
            plug("J1", "B B G", board="lamp", family="JST SH", signals="5V, 5V, GND", takes="5V 0.5A"),
            runs=[("F1:2", "J1:1"), ("F1:2", "J1:2")],
        )

    assert not found(1.6)
    assert found(1.7)


def test_a_limiter_of_the_craft_file_is_judged_like_a_drawn_one():
    def found(what):
        return findings_of(
            fuse_size,
            captive("X1", "A G", board="pack", family="Amass XT60", signals="BAT+, BAT-", gives="4S 60A"),
            pads("TP1", "A G", board="drive", signals="VBAT, GND", takes="7-26V 10A"),
            settings=CraftSettings(
                battery=Volts(12.0, 16.8), gauge_awg=20, protections=(Protection(("X1", "1"), what),)
            ),
        )

    assert not found("fuse in the holder")
    assert not found("10A fuse")
    assert found("60A fuse") and found("2A polyfuse")


def test_the_whole_check_tells_it():
    found = all_findings(
        captive("X1", "A G", board="pack", family="Amass XT60", signals="BAT+, BAT-", gives="4S 60A"),
        two_pin("F1", "A", "B", value="200A"),
        pads("TP1", "B G", board="drive", signals="VBAT, GND", takes="7-26V 20A"),
        settings=CraftSettings(battery=Volts(12.0, 16.8), gauge_awg=14),
    )
    assert of_rule("fuse-size", found)


def test_a_fuse_breaks_the_volts_of_the_pack():
    assert not run("15A", 10, 14, rating="15A 32V")
    (found,) = run("15A", 10, 14, rating="15A 12V")
    assert found.severity is Severity.WARNING and "made for 12 V, and the battery reaches 16.8 V" in found.message


def test_the_lead_that_feeds_the_fuse_carries_as_much():
    found = findings_of(
        fuse_size,
        captive("X1", "A G", board="pack", family="Amass XT60", signals="BAT+, BAT-", gives="4S 60A"),
        two_pin("F1", "A", "B", value="15A"),
        pads("TP1", "B G", board="drive", signals="VBAT, GND", takes="7-26V 10A"),
        settings=CraftSettings(battery=Volts(12.0, 16.8), gauge_awg=14),
        notes=[note("X1:1 F1:1", gauge=22)],
    )
    assert [each.severity for each in found] == [Severity.ERROR]
    assert {"X1:1", "F1:1"} <= at(found[0])
