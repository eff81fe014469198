"""Currents of wire against the tables' own rows, typed from them.

FAA AC 43.13-1B Change 1, Table 11-9; MIL-W-5088B as quoted in a load maker's manual; a handbook table of the trade.
"""

from __future__ import annotations

import pytest

from tabside.facts.ampacity import NEVER_A_LIMIT, USUAL_TABLE, ampacity, standards_amps, usable_tables
from tabside.facts.sources import Grade


@pytest.mark.parametrize(
    ("table", "awg", "amps"),
    [
        ("ac4313_105C", 24, 2.5),
        ("ac4313_105C", 22, 3),
        ("ac4313_105C", 20, 4),
        ("ac4313_105C", 18, 6),
        ("ac4313_105C", 16, 7),
        ("ac4313_105C", 14, 10),
        ("ac4313_105C", 12, 13),
        ("ac4313_105C", 10, 17),
        ("milw5088b_chassis", 22, 5.0),
        ("milw5088b_chassis", 20, 8.33),
        ("milw5088b_chassis", 18, 15.4),
        ("milw5088b_chassis", 14, 31.2),
        ("milw5088b_chassis", 12, 40),
        ("milw5088b_chassis", 10, 55),
        ("handbook_chassis", 28, 1.4),
        ("handbook_chassis", 22, 7),
        ("handbook_chassis", 12, 41),
        ("nasa_single", 22, 4.5),
        ("nasa_bundle", 22, 2.5),
        ("nasa_bundle", 20, 3.7),
    ],
)
def test_a_size_has_the_current_of_its_row(table, awg, amps):
    found = ampacity(table, awg)
    assert (found.amps, found.at_awg, found.below) == (amps, awg, False)


def test_a_size_between_two_rows_gets_the_thinner_ones():
    found = ampacity("milw5088b_chassis", 16)
    assert (found.amps, found.at_awg, found.below) == (15.4, 18, False)


def test_a_size_thinner_than_all_rows_carries_less_than_the_last():
    found = ampacity("ac4313_105C", 28)
    assert (found.amps, found.at_awg, found.below) == (2.5, 24, True)


def test_the_grade_belongs_to_the_row():
    assert ampacity("ac4313_105C", 24).source.grade is Grade.READ
    assert ampacity("milw5088b_chassis", 22).source.grade is Grade.QUOTED
    assert ampacity("nasa_bundle", 20).source.grade is Grade.TRADE
    assert ampacity("nasa_bundle", 28).source.grade is Grade.MEMORY


def test_sellers_figures_are_never_a_limit():
    assert NEVER_A_LIMIT and not NEVER_A_LIMIT & set(usable_tables())
    assert USUAL_TABLE in usable_tables()


def test_thicker_wire_carries_more_in_every_table():
    for name in usable_tables():
        amps = [row.amps for row in ampacity(name, 20).table.rows]
        assert amps == sorted(amps, reverse=True), name


def test_every_table_says_its_condition():
    assert all(ampacity(name, 20).table.conditions for name in usable_tables())


def test_the_most_generous_of_the_standards():
    # FAA AC 43.13-1B Table 11-9, 200 °C wire: 22 AWG 6 A, 24 AWG 5 A; MIL-W-5088B as printed: 22 AWG 5 A, 12 AWG 40 A.
    for awg, amps in ((22, 6.0), (12, 40.0), (28, 5.0)):
        found = standards_amps(awg)
        assert found is not None and found.amps == amps
        assert found.source.is_hard_for("")
