"""Figures of workmanship, typed by hand from their sources."""

import pytest

from tabside.facts.sources import Grade
from tabside.facts.workmanship import figure


@pytest.mark.parametrize(
    ("name", "value", "unit", "grade"),
    [
        # A public field-wiring specification: more than 120 % of the calculated resistance is a fail.
        ("wire_factor", 1.20, "", Grade.QUOTED),
        ("lead_error", 0.05, "ohm", Grade.COMMON_PRACTICE),  # common practice, no source
        ("meter_step", 0.1, "ohm", Grade.COMMON_PRACTICE),  # common practice, no source
        # From memory: IPC/WHMA-A-620, default continuity limit of class 3, 1 ohm beside the wire.
        ("coarse_limit", 1.0, "ohm", Grade.MEMORY),
    ],
)
def test_each_figure_has_its_value_unit_and_grade(name, value, unit, grade):
    found = figure(name)
    assert (found.value, found.unit, found.source.grade) == (value, unit, grade)


def test_a_figure_that_is_not_in_the_table_is_no_guess():
    with pytest.raises(KeyError):
        figure("pull_force")
