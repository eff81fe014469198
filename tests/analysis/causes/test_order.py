"""The order of a link, and the single slip that explains its clashes.

Published orders are typed from the pages named beside them; where none is named: common practice, no source.
"""

from __future__ import annotations

import pytest

from crafts.contact_kit import contacts
from tabside.analysis.causes.order import order_of, single_causes
from tabside.analysis.meeting.agreement import Agreement, Outcome, agree
from tabside.analysis.meeting.outcome import not_judged

# RS-232 DE-9 and Ethernet maps: public pages on DE-9, null modems and RJ45 wiring (grade C), which agree.
NULL_MODEM_3 = [(2, 3), (3, 2), (5, 5)]
NULL_MODEM_5 = [*NULL_MODEM_3, (7, 8), (8, 7)]
DE9_STRAIGHT = [(n, n) for n in range(1, 10)]
# T568A at one end, T568B at the other: 1-3, 2-6, 3-1, 6-2, the rest straight.
CROSSOVER = [(1, 3), (2, 6), (3, 1), (4, 4), (5, 5), (6, 2), (7, 7), (8, 8)]
ROLLOVER = [(n, 9 - n) for n in range(1, 9)]


@pytest.mark.parametrize(
    ("joined", "ways", "name"),
    [
        pytest.param(DE9_STRAIGHT, (9, 9), "straight", id="RS-232 straight, DTE to DCE"),
        pytest.param(NULL_MODEM_3, (9, 9), "mixed", id="RS-232 null modem, 3 wires"),
        pytest.param(CROSSOVER, (8, 8), "mixed", id="TIA-568 A to B"),
        pytest.param(ROLLOVER, (8, 8), "reversed", id="fully reversed, n to 9-n"),
        pytest.param([(1, 1), (6, 6)], (6, 6), "straight", id="straight with empty cavities"),
        pytest.param([(1, 6), (6, 1)], (6, 6), "reversed", id="reversed with empty cavities"),
        pytest.param([(1, 4), (2, 3), (3, 2), (4, 1)], (6, 4), "reversed", id="reversed about the shorter row"),
        pytest.param([(1, 2), (2, 3), (3, 4)], (6, 6), "shifted", id="shifted by one"),
        pytest.param([(1, 2), (2, 3), (6, 1)], (6, 6), "shifted", id="shifted around the end"),
        pytest.param([(1, 2), (2, 3), (6, 1)], (6, 8), "mixed", id="no way around rows of other lengths"),
        pytest.param([(1, 1), (2, 3), (3, 2)], (3, 3), "mixed", id="two exchanged"),
    ],
)
def test_the_order_of_a_link(joined, ways, name):
    assert order_of(joined, *ways).name == name


def test_crossing_pairs_of_known_cables():
    assert order_of(NULL_MODEM_3, 9, 9).exchanged == ((2, 3),)
    assert order_of(NULL_MODEM_5, 9, 9).exchanged == ((2, 3), (7, 8))
    assert order_of(CROSSOVER, 8, 8).exchanged == ((1, 3), (2, 6))


def test_the_size_of_a_shift():
    assert order_of([(1, 2), (2, 3), (6, 1)], 6, 6).shift == 1


# Eight-pin controller and driver orders, from the boards' pages (grade A).
ORDERS = {
    "BF": "VBAT GND CUR TLM M1 M2 M3 M4",
    "AIRBOT": "GND VBAT CUR TLM M1 M2 M3 M4",
    "SPEEDY-FC": "GND VBAT M1 M2 M3 M4 CUR TLM",
    "SPEEDY-ESC": "N/A CUR M4 M3 M2 M1 VBAT GND",
    "FLYSPARK": "TLM CUR M4 M3 M2 M1 VBAT GND",
    "ARK": "VBAT CUR TLM M1 M2 M3 M4 GND",
}


def joined_by(esc: str, controller: str, order: str) -> dict[str, tuple[str, Agreement]]:
    """ESC label -> (controller label, agreement) over a straight or reversed eight-way cable."""
    ends = contacts(ORDERS[esc], "J1"), contacts(ORDERS[controller], "J2")
    far = ends[1] if order == "straight" else ends[1][::-1]
    return {a.label: (b.label, agree(a, b)) for a, b in zip(ends[0], far, strict=True)}


# The table of outcomes beside these orders (derived there by mapping): (ESC end, controller end, order, what meets what
# and clashes, what meets what and agrees).
OUTCOMES = [
    ("BF", "AIRBOT", "straight", "VBAT-GND GND-VBAT", "CUR-CUR M4-M4"),
    ("BF", "SPEEDY-FC", "straight", "VBAT-GND GND-VBAT", ""),
    ("BF", "FLYSPARK", "straight", "VBAT-TLM GND-CUR", ""),
    ("BF", "ARK", "straight", "GND-CUR M4-GND", "VBAT-VBAT"),
    ("AIRBOT", "SPEEDY-FC", "straight", "CUR-M1 TLM-M2 M3-CUR M4-TLM", "GND-GND VBAT-VBAT"),
    ("AIRBOT", "FLYSPARK", "straight", "VBAT-CUR", ""),
    ("ARK", "BF", "straight", "GND-M4 CUR-GND", "VBAT-VBAT"),
    ("ARK", "AIRBOT", "straight", "VBAT-GND", ""),
    ("ARK", "SPEEDY-FC", "straight", "VBAT-GND", ""),
    ("FLYSPARK", "SPEEDY-FC", "straight", "CUR-VBAT TLM-GND", ""),
    ("SPEEDY-FC", "FLYSPARK", "straight", "VBAT-CUR GND-TLM", ""),
    ("BF", "BF", "reversed", "VBAT-M4 GND-M3", ""),
    ("ARK", "ARK", "reversed", "VBAT-GND GND-VBAT", ""),
]


@pytest.mark.parametrize(("esc", "controller", "order", "clashing", "agreeing"), OUTCOMES)
def test_what_a_cable_joins_between_published_orders(esc, controller, order, clashing, agreeing):
    found = joined_by(esc, controller, order)
    for pair in clashing.split():
        a, b = pair.split("-")
        assert (found[a][0], found[a][1].outcome) == (b, Outcome.CLASH)
    for pair in agreeing.split():
        a, b = pair.split("-")
        assert (found[a][0], found[a][1].outcome) == (b, Outcome.AGREE)


# Correct by the same table: equal orders straight, the two that are each other's reverse reversed.  The SPEEDY ESC end
# is FLYSPARK's order with nothing at contact 1.
CORRECT = {("straight", name, name) for name in ORDERS}
CORRECT |= {("straight", "FLYSPARK", "SPEEDY-ESC"), ("straight", "SPEEDY-ESC", "FLYSPARK")}
CORRECT |= {
    ("reversed", a, b)
    for pair in (("SPEEDY-FC", "FLYSPARK"), ("SPEEDY-FC", "SPEEDY-ESC"))
    for a, b in (pair, pair[::-1])
}


@pytest.mark.parametrize("order", ["straight", "reversed"])
@pytest.mark.parametrize("esc", ORDERS)
@pytest.mark.parametrize("controller", ORDERS)
def test_every_pair_of_published_orders_clashes_unless_the_table_calls_it_correct(esc, controller, order):
    found = joined_by(esc, controller, order)
    clashes = [label for label, (_, each) in found.items() if each.clashes]
    assert (not clashes) == ((order, esc, controller) in CORRECT)


def test_motors_exchanged_by_an_order_are_a_warning():
    # AIRBOT to SPEEDY-FC, straight: M1 on M3, M2 on M4 (same table).
    found = joined_by("AIRBOT", "SPEEDY-FC", "straight")
    assert (found["M1"][0], found["M1"][1].outcome) == ("M3", Outcome.WARN)
    assert (found["M2"][0], found["M2"][1].outcome) == ("M4", Outcome.WARN)


# DS-009 Rev 0.1.0, pin tables, contact 1 up, as named on the autopilot.
PORTS = {
    "TELEM": "VCC TX RX CTS RTS GND",
    "GPS": "VCC TX RX SCL SDA GND",
    "POWER": "VCC VCC CURRENT VOLTAGE GND GND",
    "I2C": "VCC SCL SDA GND",
    "CAN": "VCC CAN_H CAN_L GND",
}
# DS-009: "the cable is 1:1 and the crossing is done by the peripheral's pin order".
RADIO = "VCC RX TX RTS CTS GND"


@pytest.mark.parametrize(
    ("first", "second", "clashing"),
    [
        pytest.param(PORTS["TELEM"], RADIO, [], id="TELEM to a radio"),
        pytest.param(PORTS["TELEM"], PORTS["TELEM"], [2, 3, 4, 5], id="TELEM to TELEM"),
        # Look-alike table: power and UART agree, CTS meets SCL and RTS meets SDA.
        pytest.param(RADIO, PORTS["GPS"], [4, 5], id="a radio on the GPS port"),
        pytest.param(PORTS["TELEM"], PORTS["GPS"], [2, 3, 4, 5], id="TELEM to GPS"),
        # Look-alike table: TX meets VCC, CTS meets VOLTAGE, RTS meets GND.
        pytest.param(PORTS["POWER"], PORTS["TELEM"], [2, 3, 4, 5], id="POWER to TELEM"),
        # Look-alike table: SCL meets CAN_H, SDA meets CAN_L.
        pytest.param(PORTS["I2C"], PORTS["CAN"], [2, 3], id="I2C to CAN"),
        pytest.param(PORTS["I2C"], PORTS["I2C"], [], id="I2C to I2C"),
        pytest.param(PORTS["CAN"], PORTS["CAN"], [], id="CAN to CAN"),
    ],
)
def test_straight_cables_between_ds009_ports(first, second, clashing):
    ends = contacts(first, "J1"), contacts(second, "J2")
    found = [a for a, b in zip(*ends, strict=True) if agree(a, b).clashes]
    assert [int(contact.number) for contact in found] == clashing


def causes(first, second, joined, ways=None):
    """Causes for two ends given by their labels, joined contact to contact."""
    ends = [{int(each.number): each for each in contacts(labels, f"J{k}")} for k, labels in ((1, first), (2, second))]

    def judge(a, b):
        if a not in ends[0] or b not in ends[1]:
            return not_judged("no such contact")
        return agree(ends[0][a], ends[1][b])

    return single_causes(joined, judge, ways or (len(ends[0]), len(ends[1])))


def straight(count):
    return [(n, n) for n in range(1, count + 1)]


def backwards(count):
    return [(n, count + 1 - n) for n in range(1, count + 1)]


CONTROLLER, GPS = "5V TX RX SCL SDA GND", "5V RX TX SCL SDA GND"


def test_nothing_is_tried_without_a_clash():
    assert causes(CONTROLLER, GPS, straight(6)) == []
    assert causes(ORDERS["SPEEDY-FC"], ORDERS["FLYSPARK"], backwards(8)) == []


def test_one_end_read_in_mirror_image():
    best = causes(CONTROLLER, GPS, backwards(6))[0]
    assert (best.rule, best.moved) == ("mirrored", 6)


def test_mirrored_holds_at_either_end_when_both_have_the_same_ways():
    found = causes(CONTROLLER, GPS, backwards(6))
    assert {cause.end for cause in found if cause.rule == "mirrored"} == {0, 1}


def test_rows_of_other_lengths_tell_the_mirrored_end():
    # The short end's names stand in mirror image; turned, each name meets its like.
    joined = [(1, 4), (2, 3), (3, 2), (6, 1)]
    found = causes(CONTROLLER, "5V RX TX GND", joined)
    assert [(cause.rule, cause.end) for cause in found] == [("mirrored", 1)]


@pytest.mark.parametrize("step", [1, 2])
def test_one_end_shifted(step):
    joined = [(n, (n - 1 + step) % 6 + 1) for n in range(1, 7)]
    best = causes("5V TX RX CTS RTS GND", "5V RX TX RTS CTS GND", joined)[0]
    assert (best.rule, best.shift_size) == ("shifted", step)


def test_two_leads_exchanged():
    joined = [(1, 1), (2, 2), (3, 3), (4, 5), (5, 4), (6, 6)]
    best = causes(CONTROLLER, GPS, joined)[0]
    assert (best.rule, best.moved, best.exchanged) == ("swapped-pair", 2, (3, 4))


def test_power_and_ground_exchanged_is_a_swapped_pair_not_a_mirror():
    found = causes("5V GND", "5V GND", [(1, 2), (2, 1)])
    assert [cause.rule for cause in found][:2] == ["swapped-pair", "mirrored"]


def test_a_servo_plug_turned_round_is_told_as_exchanged_leads():
    # Servo leads: ground, plus in the middle, signal; reversing keeps plus and swaps the others (servo pages, grade C).
    best = causes("GND 5V SIG", "GND 5V SIG", backwards(3))[0]
    assert (best.rule, best.moved) == ("swapped-pair", 2)


def test_a_cause_needs_two_agreements():
    assert causes("5V", "GND", [(1, 1)]) == []
    # Turned round, the ground meets ground, and nothing else is judged.
    assert causes("GND FOO", "BAR GND", [(1, 1)], (2, 2)) == []


def test_a_cause_needs_60_percent_of_the_leads_judged_as_drawn():
    # Five leads are judged as drawn; a mirror leaves two agreements and three that cannot be judged.
    first = "5V TX A1 B2 SDA GND"
    second = "GND SDA C3 D4 RX 5V"
    judged = causes(first, second, straight(6))
    assert [cause.rule for cause in judged][:1] == ["mirrored"]
    spoilt = causes("5V TX SCL MISO SDA GND", "GND FOO BAR QUX RX 5V", [(1, 1), (2, 5), (3, 1), (4, 1), (5, 6), (6, 6)])
    assert spoilt == []


def test_a_clash_that_stays_spoils_the_cause():
    found = causes("5V TX RX SCL SDA GND", "GND SCL SDA TX 9V 3V3", straight(6))
    assert found == []


def test_ends_without_a_row_are_never_mirrored_but_leads_can_be_exchanged():
    assert causes(CONTROLLER, GPS, backwards(6), (None, None)) == []
    joined = [(1, 1), (2, 2), (3, 3), (4, 5), (5, 4), (6, 6)]
    assert [cause.rule for cause in causes(CONTROLLER, GPS, joined, (None, None))] == ["swapped-pair"]


def test_unknown_names_do_not_hide_a_mirrored_end():
    best = causes("5V TX FOO BAR SDA GND", "GND SDA A9 B9 RX 5V", straight(6))
    assert best[0].rule == "mirrored"


def test_the_cause_that_moves_fewest_leads_comes_first():
    # Only the outer two are judged; exchanging them moves two leads, turning the row round moves six.
    found = causes("5V FOO BAR QUX ZIP GND", "GND A9 B9 C9 D9 5V", straight(6))
    assert [cause.rule for cause in found][:2] == ["swapped-pair", "mirrored"]
