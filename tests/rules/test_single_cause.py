"""Links whose clashes come from one slip of the pencil.  Common practice, no source."""

from __future__ import annotations

from crafts.craft_kit import pads, plug, power
from crafts.finding_kit import all_findings, at, findings_of, rules
from tabside.model.findings import Severity
from tabside.rules.single_cause import single_cause

CONTROLLER = "5V, TX, RX, SCL, SDA, GND"
GPS = "5V, RX, TX, SCL, SDA, GND"


def pair(near, far, **more):
    return (
        plug("J1", near, board="pilot", family="JST GH", signals=CONTROLLER),
        plug("J2", far, board="gps", family="JST GH", signals=more.get("signals", GPS)),
    )


def test_quiet_for_a_straight_and_for_a_re_pinned_link():
    assert not findings_of(single_cause, *pair("A B C D E F", "A B C D E F"))
    reordered = pair("A B C D E F", "F E D C B A", signals="GND, SDA, SCL, TX, RX, 5V")
    assert not findings_of(single_cause, *reordered)


def test_a_mirrored_end_is_one_error_with_its_clashes_folded():
    found = all_findings(*pair("A B C D E F", "F E D C B A"))
    errors = [each for each in found if each.severity is Severity.ERROR]
    assert rules(errors) == ["mirrored"]
    (mirrored,) = errors
    assert len(mirrored.folded) == 6
    assert {"J1:1", "J2:6"} <= at(mirrored)
    assert "the drawing does not show which" in mirrored.message
    assert mirrored.link == ("J1", "J2")


def test_a_mirrored_end_is_found_though_supply_and_ground_run_over_shared_nets():
    found = all_findings(
        plug("J1", "+5V B C D E GND", board="pilot", family="JST GH", signals=CONTROLLER),
        plug("J2", "GND E D C B +5V", board="gps", family="JST GH", signals=GPS),
        plug("J3", "+5V X Y GND", board="pilot", family="JST GH", signals="5V, TX, RX, GND"),
        plug("J4", "+5V X Y GND", board="radio", family="JST GH", signals="5V, RX, TX, GND"),
        power("GND"),
        power("+5V"),
    )
    errors = [each for each in found if each.severity is Severity.ERROR]
    assert rules(errors) == ["mirrored"]


def test_another_link_tells_which_end_is_mirrored():
    # J1 goes to two boards; only if J1 itself is read backwards do both links agree.
    found = findings_of(
        single_cause,
        plug("J1", "A B C D E F", board="pilot", family="JST GH", signals="GND, SDA, SCL, RX, TX, 5V"),
        plug("J2", "A B C X Y F", board="gps", family="JST GH", signals="5V, RX, TX, nc, nc, GND"),
        plug("J3", "D E", board="compass", family="JST GH", signals="SCL, SDA"),
    )
    (mirrored,) = [each for each in found if each.link == ("J1", "J2")]
    assert "pin order of pilot/J1 is mirrored" in mirrored.message


def test_an_end_shifted_by_one():
    found = findings_of(
        single_cause,
        plug("J1", "A B C D E F", board="pilot", family="JST GH", signals="5V, TX, RX, CTS, RTS, GND"),
        plug("J2", "F A B C D E", board="modem", family="JST GH", signals="5V, RX, TX, RTS, CTS, GND"),
    )
    assert rules(found) == ["shifted"]
    assert "off by 1 contact" in found[0].message


def test_two_exchanged_leads_with_the_way_to_mend_them():
    found = findings_of(single_cause, *pair("A B C D E F", "A B C E D F"))
    assert rules(found) == ["swapped-pair"]
    assert at(found[0]) == {"J1:4", "J1:5", "J2:4", "J2:5"}
    assert "pilot/J1:4 (SCL) to gps/J2:4 (SCL)" in found[0].fix


def test_exchanged_leads_between_pads():
    found = findings_of(
        single_cause,
        pads("TP1", "A B C", board="pilot", signals="5V, SIG, GND"),
        pads("TP2", "C B A", board="lamp", signals="5V, SIG, GND"),
    )
    assert rules(found) == ["swapped-pair"]


def test_two_rows_are_not_tried():
    found = all_findings(
        plug(
            "J1",
            "A B C D",
            board="pilot",
            signals="5V, SDA, SCL, GND",
            footprint="Connector_PinHeader_1.27mm:PinHeader_2x02_P1.27mm_Vertical",
        ),
        plug(
            "J2",
            "D B C A",
            board="hub",
            signals="5V, SDA, SCL, GND",
            footprint="Connector_PinHeader_1.27mm:PinHeader_2x02_P1.27mm_Vertical",
        ),
    )
    errors = [each.rule for each in found if each.severity is Severity.ERROR]
    assert errors and set(errors) == {"role-clash"}


def test_the_worst_folded_clash_ranks_the_finding():
    power_swapped = findings_of(single_cause, *pair("A B C D E F", "F B C D E A"))
    bus_swapped = findings_of(single_cause, *pair("A B C D E F", "A B C E D F"))
    assert power_swapped[0].harm > bus_swapped[0].harm


def test_a_shared_bus_does_not_repeat_the_clash_of_a_mirrored_end():
    found = all_findings(
        plug("J1", "A B C D E F", board="pilot", family="JST GH", signals=CONTROLLER),
        plug("J2", "F E D C B A", board="gps", family="JST GH", signals=GPS),
        pads("TP1", "D E F", board="compass", signals="SCL, SDA, GND"),
    )
    errors = [each for each in found if each.severity is Severity.ERROR]
    assert "mirrored" in rules(errors)


def test_a_connector_read_backwards_speaks_for_all_of_its_links():
    found = all_findings(
        plug("J1", "+5V B C D E GND", board="pilot", family="JST GH", signals="GND, SDA, SCL, RX, TX, 5V"),
        plug("J2", "+5V B C GND", board="gps", family="JST GH", signals="5V, RX, TX, GND"),
        pads("TP1", "+5V D E GND", board="compass", signals="5V, SCL, SDA, GND"),
        pads("TP2", "+5V GND", board="bec", signals="5V, GND", gives="5V 2A"),
        power("GND"),
        power("+5V"),
    )
    errors = [each for each in found if each.severity is Severity.ERROR]
    assert rules(errors) == ["mirrored"]
    assert "pilot/J1 is mirrored" in errors[0].message


def test_motors_out_of_order_are_not_told_beside_the_mirror_that_explains_them():
    order = "VBAT, GND, CUR, TLM, M1, M2, M3, M4"
    found = all_findings(
        plug("J1", "A B C D E F G H", board="driver", family="JST SH", signals=order),
        plug("J2", "E F G H A B C D", board="pilot", family="JST SH", signals=order),
    )
    alarms = [each for each in found if each.severity is not Severity.NOTE]
    assert rules(alarms) == ["shifted"]


def polarity(near, far, signals="VBAT, GND, TX"):
    other = signals.replace("TX", "RX")
    (found,) = findings_of(
        single_cause,
        plug("J1", near, board="power", family="JST GH", signals=signals, gives="VBAT 5A"),
        plug("J2", far, board="driver", family="JST GH", signals=other, takes="VBAT"),
    )
    return found.rule, found.message.startswith("REVERSED POLARITY: ")


def test_plus_on_minus_both_ways_is_called_reversed_polarity_and_nothing_else_is():
    assert polarity("A B C", "B A C") == ("swapped-pair", True)
    assert polarity("A B C", "A C B") == ("swapped-pair", False)  # ground and signal
    assert polarity("A B C", "C B A") == ("swapped-pair", False)  # battery and signal
