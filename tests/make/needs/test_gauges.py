"""The gauge chosen for a lead that has none.

Contacts: JST SH 32 to 28 AWG (maker's data sheet), JST GH 30 to 26 AWG, JST XH 30 to 22 AWG, both quoted.  Currents of
the usual table: 30 AWG 0.86 A, 28 1.4 A, 26 2.2 A, 24 3.5 A, 22 7 A, 20 11 A.  Resistance in ohm per km: 30 AWG 338.5,
28 212.9, 26 133.9, 24 84.21, 22 52.96.  Which sizes are usual: common practice, no source.
"""

from __future__ import annotations

import pytest

from crafts.craft_kit import captive, craft, note, pads, plug, two_pin
from tabside.analysis.judgement import Judgement
from tabside.make.needs.gauges import with_gauges
from tabside.model.craft import CraftSettings, Limits


def gauges(*symbols, lengths=None, limits=None, **more):
    settings = CraftSettings(lengths_mm=lengths or {}, limits=limits or Limits())
    made = with_gauges(Judgement(craft(*symbols, settings=settings, **more)))
    return {" - ".join(":".join(end) for end in lead.ends): lead for lead in made.leads}


def supply(takes, family="JST XH", mm=None, **more):
    found = gauges(
        plug("J1", "V G", board="pilot", family=family, signals="5V, GND", gives="5V 20A"),
        plug("J2", "V G", board="lamp", family=family, signals="5V, GND", takes=takes),
        lengths={("J1", "J2"): mm} if mm else None,
        **more,
    )
    return found["J1:1 - J2:1"], found["J1:2 - J2:2"]


@pytest.mark.parametrize(
    ("takes", "gauge"), [("5V 0.8A", 30), ("5V 0.9A", 28), ("5V 2A", 26), ("5V 3A", 24), ("5V 4A", 22), ("5V 7A", 22)]
)
def test_the_thinnest_that_carries_the_current_out_and_back(takes, gauge):
    out, back = supply(takes)
    assert (out.gauge_awg, back.gauge_awg) == (gauge, gauge)
    assert out.gauge_said_by == "chosen"


def test_the_reason_says_what_the_next_thinner_one_breaks():
    out, _ = supply("5V 2A")
    (why,) = out.notes
    assert "fits JST XH" in why and "carries 2 A (up to 2.2 A by table handbook_chassis)" in why
    assert "28 AWG carries 1.4 A" in why
    assert "its length is not known" in why


def test_it_holds_the_drop():
    # 3 % of 5 V is 150 mV, 75 mV each way.  2 A over 300 mm, tinned stranded: 26 AWG 89 mV, 24 AWG 56 mV.
    out, back = supply("5V 2A", mm=300.0)
    assert (out.gauge_awg, back.gauge_awg) == (24, 24)
    assert "26 AWG loses 0.089 V" in out.notes[0]
    out, _ = supply("5V 2A", mm=300.0, limits=Limits(drop_percent_regulated=10.0))
    assert out.gauge_awg == 26


def test_a_way_over_two_boards_shares_the_drop():
    found = gauges(
        pads("J1", "V G", board="bec", signals="5V, GND", gives="5V 9A"),
        pads("J2", "V G", board="hub", signals="5V, GND", takes="5V 0A"),
        pads("J3", "W H", board="hub", signals="5V, GND", gives="5V 9A"),
        pads("J4", "W H", board="lamp", signals="5V, GND", takes="5V 2A"),
        lengths={("J1", "J2"): 300.0, ("J3", "J4"): 300.0},
    )
    # 37.5 mV for each lead: 24 AWG 51 mV, 22 AWG 32 mV.
    assert {lead.gauge_awg for lead in found.values()} == {22}


def test_where_none_does_the_limit_that_breaks_is_named():
    out, _ = supply("5V 3A", family="JST SH")
    assert out.gauge_awg is None
    assert "28 AWG carries 1.4 A" in out.notes[0] and "JST SH takes 32 to 28 AWG" in out.notes[0]


def hops(takes):
    """A short way over many contacts, then a long one over pads: the parts of the drop are not equal."""
    return gauges(
        plug("J1", "V G", board="bec", family="JST GH", signals="5V, GND", gives="5V 9A"),
        plug("J2", "V G", board="hub", family="JST GH", signals="5V, GND", takes="5V 0A"),
        pads("J3", "W H", board="hub", signals="5V, GND", gives="5V 9A"),
        pads("J4", "W H", board="lamp", signals="5V, GND", takes=takes),
        lengths={("J1", "J2"): 50.0, ("J3", "J4"): 20.0},
    )


def test_a_lead_may_lose_more_than_its_part_when_the_whole_way_holds():
    # Aged contacts of JST GH, 50 milliohm: 0.1 ohm a lead.  0.5 A: over 50 mV of 37.5 mV, but 0.11 V of 0.15 V in all.
    found = hops("5V 0.5A")
    lead = found["J1:1 - J2:1"]
    assert lead.gauge_awg == 26  # the thickest that GH takes
    assert "the whole way, as far as it is known, holds the drop" in lead.notes[0]
    assert found["J3:1 - J4:1"].gauge_awg == 30


def test_a_way_that_does_not_hold_the_drop_names_that_limit():
    lead = hops("5V 0.8A")["J1:1 - J2:1"]  # 0.16 V over the contacts alone
    assert lead.gauge_awg is None
    assert "26 AWG loses" in lead.notes[0] and "JST GH takes 30 to 26 AWG" in lead.notes[0]


def test_ends_that_no_wire_fits_both():
    found = gauges(
        plug("J1", "A G", board="pilot", family="JST SH", signals="TX, GND"),
        plug("J2", "A G", board="radio", family="JST VH", signals="RX, GND"),
    )
    lead = found["J1:1 - J2:1"]
    assert lead.gauge_awg is None
    assert "no usual gauge fits both ends" in lead.notes[0]
    assert "JST SH takes 32 to 28" in lead.notes[0] and "JST VH takes 22 to 16" in lead.notes[0]


def test_signals_take_the_thinnest_that_fits_and_pads_alone_say_nothing():
    found = gauges(
        plug("J1", "A B G", board="pilot", family="JST GH", signals="TX, RX, GND"),
        pads("J2", "A B G", board="radio", signals="RX, TX, GND"),
    )
    assert [lead.gauge_awg for lead in found.values()] == [30, 30, 30]
    found = gauges(pads("J1", "A G", board="a", signals="TX, GND"), pads("J2", "A G", board="b", signals="RX, GND"))
    assert [(lead.gauge_awg, lead.notes) for lead in found.values()] == [(None, ())] * 2


def test_a_supply_whose_current_is_not_stated_stays_open():
    out, back = supply("5V")
    assert (out.gauge_awg, back.gauge_awg) == (None, None)
    assert "not stated" in out.notes[0]
    silent = gauges(pads("J1", "V G", board="a", signals="5V, GND"), pads("J2", "V G", board="b", signals="5V, GND"))
    assert {lead.notes for lead in silent.values()} == {()}


def test_stated_gauges_are_never_changed():
    out, back = supply("5V 3A", notes=[note("J1:1 J2:1", gauge=30)])
    assert (out.gauge_awg, out.gauge_said_by) == (30, "drawing")
    assert back.gauge_awg == 24


def test_leads_that_come_with_a_part_are_not_chosen():
    found = gauges(
        plug("J1", "V G", board="pilot", family="JST SH", signals="5V, GND", gives="5V 2A"),
        captive("J2", "V G", board="fan", family="JST SH", signals="5V, GND", takes="5V 0.5A"),
    )
    assert {lead.gauge_awg for lead in found.values()} == {None}


def test_motor_phases_carry_what_nobody_states():
    found = gauges(
        plug("J1", "A B C", board="driver", family="JST XH", signals="PHASE_A, PHASE_B, PHASE_C"),
        pads("J2", "A B C", board="motor", signals="PHASE_A, PHASE_B, PHASE_C"),
    )
    assert {lead.gauge_awg for lead in found.values()} == {None}


def test_both_sides_of_a_fuse_carry_the_load():
    found = gauges(
        pads("J1", "A G", board="bec", signals="5V, GND", gives="5V 9A"),
        two_pin("F1", "A", "V"),
        pads("J2", "V G", board="lamp", signals="5V, GND", takes="5V 3A"),
    )
    assert {lead.gauge_awg for lead in found.values()} == {24}


def test_doubled_leads_share():
    doubled = gauges(
        plug("J1", "V V L G G", board="pilot", family="JST XH", signals="5V, 5V, LED, GND, GND", gives="5V 9A"),
        plug("J2", "V V L G G", board="lamp", family="JST XH", signals="5V, 5V, DIN, GND, GND", takes="5V 2A"),
    )
    # 2 A over two, counted at 80 %: 1.25 A each.
    assert doubled["J1:1 - J2:1"].gauge_awg == 28
    assert doubled["J1:3 - J2:3"].gauge_awg == 30
