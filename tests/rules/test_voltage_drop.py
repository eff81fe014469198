"""Volts lost on the way.

Worked examples: FAA AC 43.13-1B, Tables 11-7 and 11-8 (one way, airframe return); IEC 60228 class 5, 0.5 mm² at 39.0
ohm per km; 24 AWG at 28.40 ohm per 1000 ft (Table 11-9), 28 AWG at as much more than its solid conductor, with the aged
contact of JST SH, 40 milliohm (maker's data sheet).
"""

from __future__ import annotations

import pytest

from crafts.craft_kit import captive, craft, note, pads, plug, two_pin
from crafts.finding_kit import findings_of
from tabside.analysis.joined.lead_amps import drop_v
from tabside.analysis.judgement import Judgement
from tabside.model.craft import CraftSettings, Limits
from tabside.model.findings import Severity
from tabside.model.roles import Volts
from tabside.rules.voltage_drop import voltage_drop


def wired(gauge=28, mm=150.0, **limits):
    return CraftSettings(
        battery=Volts(12.0, 16.8), gauge_awg=gauge, lengths_mm={("J1", "J2"): mm}, limits=Limits(**limits)
    )


def link(takes="5V 1A", family="JST SH"):
    return (
        plug("J1", "V G", board="pilot", family=family, signals="5V, GND", gives="5V 9A"),
        plug("J2", "V G", board="lamp", family=family, signals="5V, GND", takes=takes),
    )


@pytest.mark.parametrize(
    ("ohm_per_unit", "length", "expected", "tolerance"),
    [
        (0.00044, 107, 0.942, 0.005),  # No. 6, Table 11-7; 20 A in all of them
        (0.00028, 90, 0.504, 0.001),  # No. 4
        (0.00202, 88, 3.555, 0.05),  # No. 12, printed as 3.60
        (0.00306, 100, 6.12, 0.001),  # No. 14
        (0.00126, 39, 0.98, 0.005),  # No. 10, Table 11-8
        (0.00126, 156, 3.93, 0.005),
        (0.00126, 273, 6.88, 0.005),
    ],
)
def test_the_worked_examples_of_the_advisory_circular(ohm_per_unit, length, expected, tolerance):
    assert drop_v(ohm_per_unit, length, 20) == pytest.approx(expected, abs=tolerance)


def test_half_a_square_millimetre_a_metre_out_and_back_at_two_amperes():
    assert drop_v(0.0390, 2.0, 2.0) == pytest.approx(0.156, abs=0.0005)


def both_leads(settings, family="pad"):
    made = craft(*link(family=family), settings=settings)
    return made, [Judgement(made).wires.ohm(lead) for lead in made.leads]


def test_24_awg_300_mm_out_and_back_at_two_amperes():
    _, ohms = both_leads(wired(24, 300.0))
    assert sum(ohms) * 2.0 == pytest.approx(0.1118, abs=0.0005)


def test_28_awg_150_mm_out_and_back_over_four_aged_contacts():
    _, ohms = both_leads(wired(28, 150.0), family="JST SH")
    assert sum(ohms) * 1.0 == pytest.approx(0.2307, abs=0.001)


def test_copper_at_105_degrees():
    # FAA AC 43.13-1B: (234.5 + 105) / 254.5 = 1.334
    _, cold = both_leads(wired(24, 300.0))
    _, hot = both_leads(wired(24, 300.0, wire_c=105.0))
    assert sum(hot) / sum(cold) == pytest.approx(1.334, abs=0.001)


def test_leads_in_parallel_halve_the_resistance():
    made, ohms = both_leads(wired(24, 300.0))
    assert Judgement(made).wires.bundle_ohm(made.leads) == pytest.approx(ohms[0] / 2)


def test_a_drop_beyond_three_percent_is_found_with_its_two_ways():
    found = findings_of(voltage_drop, *link(), settings=wired())  # 0.2307 V of 5 V: 4.6 %
    assert [each.severity for each in found] == [Severity.WARNING]
    assert "0.23 V at 1 A (4.6 % of 5 V, limit 3 %)" in found[0].message
    assert "0.12 V out, 0.12 V back" in found[0].message


def test_the_limit_is_set_in_the_craft_file():
    assert not findings_of(voltage_drop, *link(), settings=wired(drop_percent_regulated=5.0))


def test_what_is_not_known_is_no_alarm():
    assert not findings_of(voltage_drop, *link())
    assert not findings_of(voltage_drop, *link(takes="5V"), settings=wired())
    assert not findings_of(voltage_drop, *link(), settings=CraftSettings(gauge_awg=40))


def test_it_goes_by_typical_currents():
    assert not findings_of(voltage_drop, *link("5V 1A typical 0.5A"), settings=wired())  # 2.3 %


def test_a_battery_may_lose_five_percent_of_its_lowest_volts():
    def found(amps):
        return findings_of(
            voltage_drop,
            captive("J1", "B G", board="pack", signals="VBAT, GND", gives="VBAT 60A"),
            pads("J2", "B G", board="drive", signals="VBAT, GND", takes=f"VBAT {amps}A"),
            settings=CraftSettings(battery=Volts(12.0, 16.8)),
            notes=[note("J1:1 J2:1", gauge=20, length=1000), note("J1:2 J2:2", gauge=20, length=1000)],
        )

    # 20 AWG: 9.88 ohm per 1000 ft, 64.8 milliohm out and back over a metre; 5 % of 12 V is 0.6 V: 9.26 A.
    assert not found(9.2)
    assert len(found(9.3)) == 1


def test_the_way_goes_on_through_a_fuse_and_over_the_next_board():
    found = findings_of(
        voltage_drop,
        pads("J1", "A G", board="bec", signals="5V, GND", gives="5V 9A"),
        two_pin("F1", "A", "B"),
        pads("J2", "B G", board="hub", signals="5V, GND", takes="5V 0.1A"),
        pads("J3", "C H", board="hub", signals="5V, GND", gives="5V 1A"),
        pads("J4", "C H", board="lamp", signals="5V, GND", takes="5V 0.9A"),
        settings=CraftSettings(
            gauge_awg=28,
            lengths_mm={("F1", "J1"): 100.0, ("F1", "J2"): 100.0, ("J1", "J2"): 200.0, ("J3", "J4"): 300.0},
        ),
    )
    # 28 AWG, 235.5 ohm per km: 0.4 m x 1 A = 0.094 V (1.9 %), then 0.6 m x 0.9 A = 0.127 V: 4.4 % in all.
    assert len(found) == 1
    assert found[0].link == ("J3", "J4")
    assert "4.4 %" in found[0].message and "at least" in found[0].message  # the fuse's own is not known


def test_a_missing_ground_length_makes_it_at_least():
    found = findings_of(
        voltage_drop,
        *link("5V 3A", family="pad"),
        notes=[note("J1:1 J2:1", gauge=28, length=500)],
    )
    assert len(found) == 1
    assert "at least" in found[0].message and "the return not known" in found[0].message


@pytest.mark.parametrize(("mm", "warned"), [(1400.0, True), (1100.0, False)])
def test_stranded_wire_loses_more_than_a_solid_conductor(mm, warned):
    """5 V, 10 A, 12 AWG: 2.02 ohm per 1000 ft, 6.63 milliohm a metre; 3 % of 5 V are lost over 1.13 m out and back."""
    symbols = (
        pads("J1", "V G", board="bec", signals="5V, GND", gives="5V 20A"),
        pads("J2", "V G", board="light bar", signals="5V, GND", takes="5V 10A"),
    )
    assert bool(findings_of(voltage_drop, *symbols, settings=wired(12, mm))) is warned


def test_flows_are_worked_out_once():
    made = Judgement(craft(*link(), settings=wired()))
    assert made.flows is made.flows


def test_a_return_that_is_known_in_part_is_told_as_part():
    # The ground runs over a splice: its first piece has a length, the second has none.
    found = findings_of(
        voltage_drop,
        pads("J1", "V G", board="bec", signals="5V, GND", gives="5V 9A"),
        pads("J2", "V H", board="lamp", signals="5V, GND", takes="5V 3A"),
        two_pin("NT1", "G", "H"),
        notes=[note("J1:1 J2:1", gauge=28, length=500), note("J1:2 NT1:1", gauge=28, length=200)],
    )
    assert len(found) == 1
    assert "at least" in found[0].message
    assert "back over the part of the ground that is known" in found[0].message


def test_a_return_that_is_known_as_a_whole_is_told_without_a_but():
    found = findings_of(voltage_drop, *link("5V 3A", family="pad"), settings=wired(28, 500.0))
    assert len(found) == 1
    assert "V back over ground (" in found[0].message and "at least" not in found[0].message


@pytest.mark.parametrize(("sources", "found"), [(1, True), (2, False)])
def test_of_two_sources_without_diodes_nobody_knows_which_feeds(sources, found):
    """20 ohm per km and 2 A over 1 m of 28 AWG drop far more than is allowed; two sources share it, as they please."""
    feeds = [
        plug(f"J{n}", "V G", board=f"feed{n}", family="pad", signals="5V, GND", gives="5V 9A")
        for n in range(1, sources + 1)
    ]
    taker = plug("J9", "V G", board="lamp", family="pad", signals="5V, GND", takes="5V 2A")
    settings = CraftSettings(gauge_awg=28, lengths_mm={(f"J{n}", "J9"): 1000.0 for n in range(1, sources + 1)})
    assert bool(findings_of(voltage_drop, *feeds, taker, settings=settings)) is found


def test_a_load_that_states_a_range_it_stays_in_is_a_note():
    """0.17 V of 5 V at 1 A: what is left of a rail 5 % low is 4.58 V.  10 % and 5 % are common practice, no source."""
    for takes, severity in (
        ("4.5-5.5V 1A", Severity.NOTE),
        ("4.7-5.5V 1A", Severity.WARNING),
        ("5V 1A", Severity.WARNING),
    ):
        (found,) = findings_of(voltage_drop, *link(takes, family="pad"), settings=wired(28, 350.0))
        assert found.severity is severity
