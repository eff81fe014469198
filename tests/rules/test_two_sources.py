"""Two boards that feed or drive one net.

Two regulators on one rail need diodes: autopilot wiki on powering (table of role pairs); the rest common practice.
"""

from __future__ import annotations

from crafts.craft_kit import captive, pads, plug, power, two_pin
from crafts.finding_kit import all_findings, at, findings_of, rules
from tabside.model.findings import Severity
from tabside.rules.two_sources import two_sources


def regulators(**second):
    return (
        pads("TP1", "+5V GND", board="bec", signals="5V, GND", gives="5V 3A"),
        pads("TP2", "+5V GND", board="pilot", signals="5V, GND", **second),
        pads("TP3", "+5V GND", board="gps", signals="5V, GND", takes="5V 0.1A"),
        power("GND"),
        power("+5V"),
    )


def test_two_regulators_on_one_rail():
    found = findings_of(two_sources, *regulators(gives="5V 2A"))
    assert rules(found) == ["two-sources"]
    assert found[0].severity is Severity.ERROR
    assert at(found[0]) == {"TP1:1", "TP2:1"}


def test_quiet_when_one_takes_or_may_be_either():
    assert not findings_of(two_sources, *regulators(takes="5V 0.5A"))
    assert not findings_of(two_sources, *regulators(either="5V"))
    assert not findings_of(two_sources, *regulators(either="5V", gives="5V 2A"))


def test_a_diode_between_them_is_enough_and_a_switch_is_not():
    def joined_by(part):
        return findings_of(
            two_sources,
            pads("TP1", "A GND", board="bec", signals="5V, GND", gives="5V 3A"),
            two_pin(part, "A", "B"),
            pads("TP2", "B GND", board="pilot", signals="5V, GND", gives="5V 2A"),
        )

    assert not joined_by("D1")
    assert rules(joined_by("SW1")) == ["two-sources"]


def test_power_output_pins_count_as_stated():
    found = findings_of(
        two_sources,
        pads("TP1", "A", board="bec", signals="5V", types="power_out"),
        pads("TP2", "A", board="pilot", signals="5V", types="power_out"),
    )
    assert rules(found) == ["two-sources"]


def test_two_contacts_of_one_board_are_one_source():
    assert not findings_of(
        two_sources,
        pads("TP1", "A A", board="bec", signals="5V, 5V", gives="5V 3A"),
        pads("TP2", "A", board="pilot", signals="5V", takes="5V"),
    )


def test_a_board_that_passes_the_battery_on_is_no_second_source():
    assert not findings_of(
        two_sources,
        captive("X1", "VBAT GND", board="pack", signals="VBAT, GND", gives="VBAT 60A", family="amass_xt60"),
        pads("TP1", "VBAT GND", board="driver", signals="VBAT, GND"),
        plug("J1", "VBAT GND", board="driver", signals="VBAT, GND", gives="VBAT 2A", family="JST SH"),
        plug("J2", "VBAT GND", board="pilot", signals="VBAT, GND", takes="VBAT 0.5A", family="JST SH"),
        power("GND"),
        power("VBAT"),
    )


def test_two_outputs_on_one_line():
    found = all_findings(
        plug("J1", "A G", board="camera", signals="VIDEO_OUT, GND"),
        plug("J2", "A G", board="second camera", signals="VIDEO_OUT, GND"),
    )
    assert "two-sources" in rules(each for each in found if each.severity is Severity.ERROR)


def test_open_drain_outputs_share_a_line():
    assert not findings_of(
        two_sources,
        pads("TP1", "A", board="one", signals="FAULT", types="open_collector"),
        pads("TP2", "A", board="two", signals="FAULT", types="open_collector"),
    )


def test_one_output_to_two_inputs_is_quiet():
    assert not findings_of(
        two_sources,
        pads("TP1", "A", board="camera", signals="VIDEO_OUT"),
        pads("TP2", "A", board="pilot", signals="VIDEO_IN"),
        pads("TP3", "A", board="recorder", signals="VIDEO_IN"),
    )


def test_a_board_of_one_contact_beside_the_pack_passes_the_battery_on_and_two_packs_are_two():
    pack = captive("X1", "VBAT GND", board="pack", signals="VBAT, GND", gives="4S 60A", family="amass_xt60")
    assert not findings_of(
        two_sources, pack, pads("TP1", "VBAT GND", board="plane", signals="VBAT, GND", gives="VBAT 60A")
    )
    second = captive("X2", "VBAT GND", board="second pack", signals="VBAT, GND", gives="4S 60A", family="amass_xt60")
    assert rules(findings_of(two_sources, pack, second)) == ["two-sources"]


def test_one_chip_select_for_two_devices_that_share_data():
    """Both answer at the same time; a select that is strapped to ground has one device for good."""

    def selected(net):
        core = pads("TP1", f"S I O {net} GND", board="core", signals="SCK, MISO, MOSI, CS1, GND", leads_max=4)
        devices = [
            pads(f"TP{n}", f"S I O {net} GND", board=f"sensor {n}", signals="SCK, MISO, MOSI, CS, GND", leads_max=4)
            for n in (2, 3)
        ]
        return findings_of(two_sources, core, *devices, power("GND"))

    (found,) = selected("C")
    assert "one chip select for two devices" in found.message and at(found) >= {"TP2:4", "TP3:4"}
    assert not selected("GND")
