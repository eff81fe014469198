"""Rails and their loads.

Outside check: the worked 5 V rail of 1 A with receiver 100 mA, GPS 50 mA, buzzer 30 mA and LEDs of 40 mA each; the 80 %
and the loads are common practice, no source.
"""

from __future__ import annotations

import pytest

from crafts.craft_kit import pads, power
from crafts.finding_kit import all_findings, at, findings_of, of_rule
from tabside.model.craft import CraftSettings, Limits
from tabside.model.findings import Severity
from tabside.rules.over_budget import over_budget


def rail(leds, gives="5V 1A"):
    return (
        pads("TP1", "+5V GND", board="pilot", signals="5V, GND", gives=gives, leads_max=9),
        pads("TP2", "+5V GND", board="receiver", signals="5V, GND", takes="5V 100mA"),
        pads("TP3", "+5V GND", board="gps", signals="5V, GND", takes="5V 50mA"),
        pads("TP4", "+5V GND", board="buzzer", signals="5V, GND", takes="5V 30mA"),
        pads("TP5", "+5V GND", board="leds", signals="5V, GND", takes=f"5V {leds * 40}mA"),
        power("GND"),
        power("+5V"),
    )


def test_half_of_a_rail_is_quiet():
    assert not findings_of(over_budget, *rail(8))  # 500 mA of 1 A


def test_98_percent_is_beyond_80():
    found = findings_of(over_budget, *rail(20))  # 980 mA
    assert [each.severity for each in found] == [Severity.WARNING]
    assert "98 %" in found[0].message and "80 %" in found[0].message
    assert at(found[0]) == {"TP1:1"}


def test_typical_loads_above_the_rating_are_an_error():
    found = findings_of(over_budget, *rail(21))  # 1020 mA
    assert [each.severity for each in found] == [Severity.ERROR]


@pytest.mark.parametrize("gives", ["5V 0A", "5V 0.0 A", "5V 0mA"])
def test_a_rail_that_gives_nothing_has_no_share(gives):
    found = findings_of(over_budget, *rail(1, gives=gives))
    assert [each.severity for each in found] == [Severity.ERROR]
    assert found[0].message.endswith("drawn from it.")


def test_the_share_is_set_in_the_craft_file():
    assert not findings_of(over_budget, *rail(20), settings=CraftSettings(limits=Limits(budget_percent=99)))
    assert findings_of(over_budget, *rail(8), settings=CraftSettings(limits=Limits(budget_percent=40)))


def servo(takes, gives="5V 1A"):
    return (
        pads("TP1", "A G", board="pilot", signals="5V, GND", gives=gives),
        pads("TP2", "A G", board="servo", signals="5V, GND", takes=takes),
    )


def test_maxima_above_the_rating_warn_and_typical_loads_count_for_the_rest():
    assert not findings_of(over_budget, *servo("5V 1A typical 0.2A"))
    found = findings_of(over_budget, *servo("5V 1.5A typical 0.2A"))
    assert [each.severity for each in found] == [Severity.WARNING]
    assert "1.5 A" in found[0].message and "150 %" in found[0].message


def test_silent_boards_are_quiet():
    assert not findings_of(over_budget, *servo("5V"))
    assert not findings_of(over_budget, *servo("5V 3A", gives="5V"))


def two_ports(second):
    return (
        pads("TP1", "A G", board="pilot", signals="5V, GND", gives="5V 1A"),
        pads("TP2", "A G", board="one", signals="5V, GND", takes="5V 0.7A"),
        pads("TP3", "B G", board="pilot", signals="5V, GND", gives=second),
        pads("TP4", "B G", board="two", signals="5V, GND", takes="5V 0.7A"),
    )


def test_a_figure_repeated_at_several_plugs_is_one_regulator_as_far_as_anyone_knows():
    found = findings_of(over_budget, *two_ports("5V 1A"))
    assert [each.severity for each in found] == [Severity.WARNING]
    assert at(found[0]) == {"TP1:1", "TP3:1"}
    assert not findings_of(over_budget, *two_ports("5V 2A"))  # figures of their own


def test_a_plug_of_a_board_that_passes_a_rail_on_has_its_own_figure():
    found = findings_of(
        over_budget,
        pads("TP1", "A G", board="bec", signals="5V, GND", gives="5V 9A"),
        pads("TP2", "A G", board="hub", signals="5V, GND", takes="5V 0.1A"),
        pads("TP3", "B G", board="hub", signals="5V, GND", gives="5V 0.5A"),
        pads("TP4", "B G", board="lamp", signals="5V, GND", takes="5V 0.6A"),
    )
    assert [at(each) for each in found] == [{"TP3:1"}]


def test_a_loop_does_not_hide_what_its_only_source_feeds():
    found = findings_of(
        over_budget,
        pads("TP1", "A C", board="pilot", signals="5V, 5V", gives="5V 1A"),
        pads("TP2", "A B", board="one", signals="5V, 5V", takes="1:5V 1A"),
        pads("TP3", "B C", board="two", signals="5V, 5V", takes="2:5V 1A"),
    )
    assert [each.severity for each in found] == [Severity.ERROR]


def test_the_verdict_names_it_once():
    assert len(of_rule("over-budget", all_findings(*rail(21)))) == 1
