"""Contacts and wires that carry too much.

Ratings: JST SH 1.0 A (maker's data sheet of 2024-10-04), JST GH 1.0 A (quoted from the maker's catalogue), JST ZH 1.0 A
(from memory).  Currents of wire: FAA AC 43.13-1B, Table 11-9; MIL-W-5088B as quoted in a maker's manual.  Sharing of
parallel contacts at 80 %: common practice, no source.
"""

from __future__ import annotations

import pytest

from crafts.craft_kit import captive, pads, plug, splice, two_pin
from crafts.finding_kit import all_findings, at, findings_of, of_rule
from tabside.model.craft import CraftSettings, Limits
from tabside.model.findings import Severity
from tabside.model.roles import Volts
from tabside.rules.over_current import over_current


def link(takes, family="JST SH", gives="5V 9A"):
    return (
        plug("J1", "V G", board="pilot", family=family, signals="5V, GND", gives=gives),
        plug("J2", "V G", board="lamp", family=family, signals="5V, GND", takes=takes),
    )


def wired(gauge, **limits):
    return CraftSettings(gauge_awg=gauge, lengths_mm={("J1", "J2"): 100.0}, limits=Limits(**limits))


def contact_findings(*symbols, **more):
    return of_rule("over-current-contact", findings_of(over_current, *symbols, **more))


def wire_findings(*symbols, **more):
    return [
        each
        for each in of_rule("over-current-wire", findings_of(over_current, *symbols, **more))
        if each.severity is not Severity.NOTE
    ]


def test_a_contact_carries_its_rating_and_no_more():
    assert not contact_findings(*link("5V 1A"))
    found = contact_findings(*link("5V 1.2A typical 0.2A"))
    assert [each.severity for each in found] == [Severity.ERROR]
    assert at(found[0]) == {"J1:1", "J2:1", "J1:2", "J2:2"}  # the supply, and the ground it returns over
    assert "1.2 A" in found[0].message and "rated 1 A" in found[0].message


def test_a_rating_from_memory_only_warns():
    found = contact_findings(*link("5V 1.2A", family="JST ZH"))
    assert [each.severity for each in found] == [Severity.WARNING]
    assert "from memory" in found[0].message


def test_families_without_a_rating_and_loads_without_a_current_are_quiet():
    assert not findings_of(over_current, *link("5V 9A", family="JST ZE"))
    assert not findings_of(over_current, *link("5V"))


@pytest.mark.parametrize(("takes", "found"), [("5V 1.5A", 0), ("5V 1.6A", 0), ("5V 1.7A", 1)])
def test_two_contacts_carry_a_fifth_less_than_twice_as_much(takes, found):
    doubled = (
        plug("J1", "V V L G G", board="pilot", family="JST SH", signals="5V, 5V, LED, GND, GND", gives="5V 9A"),
        plug("J2", "V V L G G", board="lamp", family="JST SH", signals="5V, 5V, DIN, GND, GND", takes=takes),
    )
    assert len(contact_findings(*doubled)) == found


def test_a_board_that_passes_a_rail_on_carries_both_loads():
    chain = [
        plug("J1", "V G", board="pilot", family="JST SH", signals="5V, GND", gives="5V 9A"),
        plug("J2", "V G", board="hub", family="JST SH", signals="5V, GND", takes="5V 0.6A"),
        plug("J3", "W H", board="hub", family="JST SH", signals="5V, GND", gives="5V 1A"),
        plug("J4", "W H", board="lamp", family="JST SH", signals="5V, GND", takes="5V 0.6A"),
    ]
    found = contact_findings(*chain)
    assert [at(each) for each in found] == [{"J1:1", "J2:1", "J1:2", "J2:2"}]
    assert "1.2 A" in found[0].message


def test_a_range_that_the_fed_volts_fit_is_passed_on_too():
    found = contact_findings(
        pads("TP1", "V G", board="bec", signals="5V, GND", gives="5V 3A"),
        plug("J2", "V G", board="hub", family="JST SH", signals="VIN, GND", takes="4.5-5.5V 0.6A"),
        plug("J3", "W H", board="hub", family="JST SH", signals="5V, GND", gives="5V 1A"),
        pads("TP4", "W H", board="lamp", signals="5V, GND", takes="5V 0.6A"),
    )
    assert at(found[0]) == {"TP1:1", "J2:1", "TP1:2", "J2:2"} and "1.2 A" in found[0].message


def test_another_rail_made_on_the_board_is_in_its_own_need():
    assert not contact_findings(
        captive("X1", "B G", board="pack", signals="VBAT, GND", gives="VBAT 30A"),
        plug("J1", "B G", board="bec", family="JST SH", signals="VBAT, GND", takes="7-26V 0.5A"),
        pads("TP1", "V G", board="bec", signals="5V, GND", gives="5V 2A"),
        pads("TP2", "V G", board="lamp", signals="5V, GND", takes="5V 1.5A"),
    )


def test_a_fuse_and_a_splice_carry_what_hangs_behind_them():
    found = contact_findings(
        plug("J1", "A G", board="pilot", family="JST SH", signals="5V, GND", gives="5V 9A"),
        two_pin("F1", "A", "V"),
        splice("J9", "V"),
        splice("J8", "G"),
        *[pads(f"TP{n}", "V G", board=f"lamp {n}", signals="5V, GND", takes="5V 0.4A") for n in (1, 2, 3)],
    )
    assert [at(each) for each in found] == [{"J1:1", "F1:1"}, {"J1:2", "J8:1"}]
    assert "1.2 A" in found[0].message


def ring(amps, family="JST SH"):
    return findings_of(
        over_current,
        plug("J1", {"1": "A", "2": "C"}, board="pilot", family=family, signals="5V, 5V", gives="5V 9A"),
        plug("J2", {"1": "A", "2": "B"}, board="one", family=family, signals="5V, 5V", takes=f"1:5V {amps}A"),
        plug("J3", {"1": "B", "2": "C"}, board="two", family=family, signals="5V, 5V", takes="2:5V 0.3A"),
    )


def test_in_a_loop_what_is_certain_is_judged_and_what_could_be_is_a_warning():
    (certain, *rest) = ring(5)  # 5 A into one board over two contacts for 1 A each, however they share
    assert (certain.rule, certain.severity) == ("over-current-contact", Severity.ERROR)
    assert at(certain) == {"J1:1", "J2:1", "J2:2", "J3:1"}
    assert "at least 5 A together, and is limited to 2 A" in certain.message
    assert {each.severity for each in rest} == {Severity.WARNING}  # the third lead could carry it all
    # 1.2 A in all: either lead from the pilot could carry them, the one between the two boards less.
    assert [each.severity for each in ring(0.9)] == [Severity.WARNING, Severity.WARNING, Severity.NOTE]
    (note,) = ring(0.5)  # 0.8 A in all, which each lead may carry
    assert note.severity is Severity.NOTE
    assert "cannot be calculated" in note.message and "3 supply or ground wires" in note.message


def test_what_hangs_behind_a_loop_is_determined():
    found = contact_findings(
        pads("TP1", "A C", board="pilot", signals="5V, 5V", gives="5V 9A"),
        pads("TP2", "A B D", board="one", signals="5V, 5V, 5V", takes="1:5V 1A"),
        pads("TP3", "B C", board="two", signals="5V, 5V", takes="1:5V 1A"),
        plug("J4", "D", board="lamp", family="JST SH", signals="5V", takes="5V 2A"),
    )
    assert [at(each) for each in found] == [{"TP2:3", "J4:1"}]


def test_of_two_sources_that_diodes_part_each_could_feed_the_load_alone():
    found = findings_of(
        over_current,
        plug("J1", "A", board="bec 1", family="JST SH", signals="5V", gives="5V 3A"),
        plug("J2", "B", board="bec 2", family="JST SH", signals="5V", gives="5V 3A"),
        two_pin("D1", "A", "V"),
        two_pin("D2", "B", "V"),
        splice("J9", "V"),
        plug("J3", "V", board="lamp", family="JST SH", signals="5V", takes="5V 2A"),
    )
    assert {each.severity for each in found if at(each) & {"J1:1", "J2:1"}} == {Severity.WARNING}
    assert "could carry up to 2 A" in found[1].message
    assert "J3:1" in at(of_rule("over-current-contact", found)[0])


@pytest.mark.parametrize(
    ("table", "gauge", "takes", "severity"),
    [
        # FAA AC 43.13-1B, Table 11-9, 105 °C wire in a bundle: 24 AWG 2.5 A, 22 AWG 3 A, 20 AWG 4 A.
        ("ac4313_105C", 24, "5V 2.5A", None),
        ("ac4313_105C", 24, "5V 2.6A", Severity.ERROR),
        ("ac4313_105C", 22, "5V 3A", None),
        ("ac4313_105C", 22, "5V 3.1A", Severity.ERROR),
        # MIL-W-5088B, chassis wiring: 22 AWG 5.0 A, 20 AWG 8.33 A, 14 AWG 31.2 A, 12 AWG 40 A.
        ("milw5088b_chassis", 22, "5V 5A", None),
        ("milw5088b_chassis", 22, "5V 5.1A", Severity.ERROR),
        ("milw5088b_chassis", 14, "5V 31.3A", Severity.ERROR),
        # No row for 16: the figure of 18 AWG (15.4 A) counts.  Thinner than all rows: below that of 22 AWG.
        ("milw5088b_chassis", 16, "5V 15.4A", None),
        ("milw5088b_chassis", 16, "5V 15.5A", Severity.ERROR),
        ("milw5088b_chassis", 28, "5V 5.1A", Severity.ERROR),
        ("milw5088b_chassis", 28, "5V 4.9A", None),
        # NASA bundle of 15 or more wires, trade page: 20 AWG 3.7 A.  From memory: 28 AWG 1.0 A.
        ("nasa_bundle", 20, "5V 3.7A", None),
        ("nasa_bundle", 20, "5V 3.8A", Severity.WARNING),
        ("nasa_bundle", 28, "5V 1.1A", Severity.WARNING),
    ],
)
def test_a_wire_carries_what_the_chosen_table_says(table, gauge, takes, severity):
    found = wire_findings(
        pads("J1", "V G", board="pilot", signals="5V, GND", gives="5V 99A"),
        pads("J2", "V G", board="lamp", signals="5V, GND", takes=takes),
        settings=wired(gauge, ampacity=table),
    )
    assert [each.severity for each in found] == ([] if severity is None else [severity])
    assert all(table in each.message for each in found)


def test_the_condition_stands_beside_the_verdict():
    found = wire_findings(
        pads("J1", "V G", board="pilot", signals="5V, GND", gives="5V 99A"),
        pads("J2", "V G", board="lamp", signals="5V, GND", takes="5V 9A"),
        settings=wired(28, ampacity="nasa_bundle"),
    )
    assert "bundle of 15 or more wires" in found[0].message
    assert "from memory" in found[0].message


def test_the_builders_own_factor_lowers_a_table():
    def found(factor):
        return wire_findings(
            pads("J1", "V G", board="pilot", signals="5V, GND", gives="5V 99A"),
            pads("J2", "V G", board="lamp", signals="5V, GND", takes="5V 2.2A"),
            settings=wired(24, ampacity="ac4313_105C", ampacity_factor=factor),
        )

    assert not found(1.0)
    assert len(found(0.5)) == 1


def two_feeds(takes, gives="5V 3A"):
    return findings_of(
        over_current,
        plug("J1", "A G", board="bec 1", family="JST GH", signals="5V, GND", gives=gives),
        plug("J2", "B G", board="bec 2", family="JST GH", signals="5V, GND", gives=gives),
        plug("J3", "A G", board="pilot", family="JST GH", signals="5V, GND", takes=f"5V {takes}A"),
        plug("J4", "B G", board="pilot", family="JST GH", signals="5V, GND"),
    )


def usb_tie(vbus=""):
    """A computer fed by its own regulator, and a pilot by its power module, tied by USB; both cables are ordinary."""
    takes = {"takes": vbus} if vbus else {}
    return findings_of(
        over_current,
        plug("J7", "P PG", board="power module", family="JST GH", signals="5V, GND", gives="5V 3A"),
        plug("J4", "P PG", board="pilot", family="JST GH", signals="5V, GND", takes="5V 0.5A"),
        pads("TP1", "V G", board="bec", signals="5V, GND", gives="5V 5A"),
        pads("TP5", "V G", board="computer", signals="5V, GND", takes="5V 3A"),
        plug("J2", "U M P1 UG", board="computer", family="JST GH", signals="5V, D-, D+, GND", gives="5V 0.5A"),
        plug("J3", "U M P1 UG", board="pilot", family="JST GH", signals="VBUS, D-, D+, GND", **takes),
    )


@pytest.mark.parametrize("vbus", ["", "5V 0.5A"])
def test_a_usb_tie_carries_what_the_host_gives_and_no_more(vbus):
    assert {each.severity for each in usb_tie(vbus)} <= {Severity.NOTE}


def test_two_feeds_of_one_board_are_judged_by_what_is_certain():
    found = two_feeds(3)  # 3 A over two contacts for 1 A
    assert [each.severity for each in found if "together" in each.message] == [Severity.ERROR]
    assert {each.severity for each in two_feeds(1.5)} >= {Severity.WARNING}  # one could carry it all
    assert not [each for each in two_feeds(1.5) if each.severity is Severity.ERROR]
    found = two_feeds(1.5, gives="5V 0.3A")  # the other gives 0.3 A at most: 1.2 A at least over each
    assert [each.severity for each in of_rule("over-current-contact", found) if "at least 1.2 A" in each.message] == [
        Severity.ERROR
    ] * 2
    assert {each.severity for each in two_feeds(0.9)} == {Severity.NOTE}


def test_a_load_that_is_not_stated_is_no_loop():
    assert not findings_of(
        over_current,
        pads("TP1", "+5V GND", board="bec", signals="5V, GND", gives="5V 3A"),
        pads("TP2", "+5V GND", board="pilot", signals="5V, GND"),
        pads("TP3", "+5V GND", board="gps", signals="5V, GND", takes="5V 0.1A"),
    )


def test_a_default_gauge_says_nothing_about_leads_that_come_with_a_part():
    assert not wire_findings(
        pads("J1", "V G", board="pilot", signals="5V, GND", gives="5V 99A"),
        captive("J2", "V G", board="winch", signals="5V, GND", takes="5V 9A"),
        settings=wired(28),
    )


def test_nothing_is_worked_out_where_something_clashes():
    found = all_findings(
        plug("J1", "V G", board="pilot", family="JST SH", signals="5V, GND", gives="5V 9A"),
        plug("J2", "V G", board="lamp", family="JST SH", signals="GND, 5V", takes="5V 5A"),
    )
    assert not of_rule("over-current-contact", found)
    assert of_rule("swapped-pair", found) or of_rule("mirrored", found)


def test_the_plug_of_a_captive_part_counts_once():
    found = contact_findings(
        plug("J1", "V G", board="pilot", family="JST SH", signals="5V, GND", gives="5V 9A"),
        captive("J2", "V G", board="fan", family="JST SH", signals="5V, GND", takes="5V 2A"),
    )
    assert [at(each) for each in found] == [{"J1:1", "J2:1", "J1:2", "J2:2"}]


# JST eVH pages 1-4 as quoted: 10 A at AWG 16, 7 A at AWG 18.
@pytest.mark.parametrize(
    ("gauge", "amps", "severity"),
    [(16, 9.9, None), (16, 10.1, Severity.ERROR), (18, 6.9, None), (18, 8, Severity.ERROR), (22, 7.1, Severity.ERROR)],
)
def test_a_contacts_rating_follows_the_gauge_of_its_wire(gauge, amps, severity):
    found = contact_findings(
        plug("J1", "V G", board="bec", family="JST VH", signals="12V, GND", gives="12V 20A"),
        plug("J2", "V G", board="pump", family="JST VH", signals="12V, GND", takes=f"12V {amps}A"),
        settings=wired(gauge),
    )
    assert [each.severity for each in found] == ([] if severity is None else [severity])
    assert all("AWG 1" in each.message for each in found)


# Molex PS-171856-0001 A2: one circuit, 22 AWG 4.00 A; KK .100 with several: 2.5 A (PS-10-07).
# AMP catalogue, Commercial MATE-N-LOK, 18 AWG: 11 A with two circuits energised, 5 A with fifteen.
@pytest.mark.parametrize(
    ("family", "gauge", "pairs", "amps", "found"),
    [
        ("Molex KK 254", 22, 1, 2.4, 0),
        ("Molex KK 254", 22, 1, 2.6, 1),
        ("te_matenlok_093", 18, 1, 10.9, 0),
        ("te_matenlok_093", 18, 1, 11.1, 1),
        ("te_matenlok_093", 18, 3, 4.9, 0),
        ("te_matenlok_093", 18, 3, 6.0, 3),
    ],
)
def test_a_contacts_rating_follows_the_number_of_contacts_that_carry(family, gauge, pairs, amps, found):
    nets = " ".join(f"V{n} G{n}" for n in range(pairs))
    rails = "; ".join(f"{2 * n + 1}:{n + 3}V 20A" for n in range(pairs))
    needs = "; ".join(f"{2 * n + 1}:{n + 3}V {amps}A" for n in range(pairs))
    names = ", ".join(f"{n + 3}V, GND" for n in range(pairs))
    told = contact_findings(
        plug("J1", nets, board="bec", family=family, signals=names, gives=rails),
        plug("J2", nets, board="pump", family=family, signals=names, takes=needs),
        settings=wired(gauge),
    )
    supplies = [each for each in told if any(int(end.partition(":")[2]) % 2 for end in at(each))]
    assert bool(supplies) is bool(found)


def test_the_leads_of_a_pack_that_are_made_here_are_judged_by_the_default_gauge():
    """The pack keeps its plug: its mate, the wire from it to the fuse and on to the board are made here."""

    def found(amps, kind=captive, family="Amass XT60"):
        return wire_findings(
            kind("J1", "A G", board="pack", family=family, signals="BAT+, BAT-", gives="4S 60A"),
            two_pin("F1", "A", "B"),
            pads("J2", "B G", board="drive", signals="VBAT, GND", takes=f"12-17V {amps}A"),
            settings=CraftSettings(gauge_awg=28, battery=Volts(12.0, 16.8)),
        )

    assert not found(1.3)
    for amps in (25, 100):
        assert {end for each in found(amps) for end in at(each)} == {"J1:1", "F1:1", "F1:2", "J2:1", "J1:2", "J2:2"}
    # Bare leads of a pack are its own: only the wire beyond the fuse is cut here.
    assert {end for each in found(25, family="") for end in at(each)} == {"F1:2", "J2:1"}


@pytest.mark.parametrize(
    ("gauge", "amps", "severity"),
    [
        # The handbook's table (trade page) lets 28 AWG carry 1.4 A and 12 AWG 41 A; the most generous of the standards'
        # tables 24 AWG 5 A (FAA AC 43.13-1B, 200 °C wire) and less thinner wire, 12 AWG 40 A (MIL-W-5088B).
        (28, 1.3, None),
        (28, 4, Severity.WARNING),
        (28, 25, Severity.ERROR),
        (28, 100, Severity.ERROR),
        (12, 40, None),
        (12, 42, Severity.ERROR),
        (16, 20, None),
        (16, 23, Severity.ERROR),
    ],
)
def test_what_exceeds_every_standard_is_an_error_whichever_table_is_chosen(gauge, amps, severity):
    found = wire_findings(
        pads("J1", "V G", board="pilot", signals="12V, GND", gives="12V 200A"),
        pads("J2", "V G", board="lamp", signals="12V, GND", takes=f"12V {amps}A"),
        settings=wired(gauge),
    )
    assert [each.severity for each in found] == ([] if severity is None else [severity])


@pytest.mark.parametrize(("takes", "found"), [("5V 0.9A", 1), ("5V 0.8A", 0)])
def test_a_thin_wire_is_held_to_less_than_one_ampere(takes, found):
    """30 AWG in a bundle of two: 0.86 A by the table named above."""
    assert len(wire_findings(*link(takes), settings=wired(30))) == found
