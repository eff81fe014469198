"""Wires against the contacts crimped on them.

Ranges: JST SH 32 to 28 AWG, insulation 0.4 to 0.8 mm (maker's data sheet, 2024-10-04); JST GH 30 to 26 AWG, 0.76 to
1.0 mm (quoted from the maker); JST ZH 32 to 26 AWG from memory.  DF50 publishes none that we know.
"""

from __future__ import annotations

import pytest

from crafts.craft_kit import captive, pads, plug
from crafts.finding_kit import at, findings_of
from tabside.model.craft import CraftSettings, Limits
from tabside.model.findings import Severity
from tabside.rules.wire_in_contact import wire_in_contact


def found(gauge, family="JST SH", other=None, insulation=None):
    return findings_of(
        wire_in_contact,
        plug("J1", "A B", board="pilot", family=family, signals="TX, GND"),
        other or pads("TP1", "A B", board="radio", signals="RX, GND"),
        settings=CraftSettings(gauge_awg=gauge, limits=Limits(insulation_mm=insulation or {})),
    )


@pytest.mark.parametrize(
    ("family", "gauge", "severity"),
    [
        ("JST SH", 32, None),
        ("JST SH", 28, None),
        ("JST SH", 26, Severity.ERROR),
        ("JST SH", 34, Severity.ERROR),
        ("JST GH", 26, None),
        ("JST GH", 24, Severity.ERROR),
        ("JST ZH", 24, Severity.WARNING),
        ("Hirose DF50", 12, None),
        ("Amass XT60", 28, None),  # soldered
    ],
)
def test_a_gauge_inside_and_outside_of_the_range(family, gauge, severity):
    assert [each.severity for each in found(gauge, family)] == ([] if severity is None else [severity])


def test_one_finding_names_all_leads_of_the_plug():
    (finding,) = found(26)
    assert finding.rule == "gauge-outside-contact"
    assert at(finding) == {"J1:1", "J1:2"}
    assert "32 to 28 AWG" in finding.message


def test_both_plugs_are_found():
    assert len(found(22, other=plug("J2", "A B", board="radio", family="JST GH", signals="RX, GND"))) == 2


def test_a_captive_parts_own_plug_is_not_crimped_here_and_a_foreign_one_is_cut_off():
    def camera(family):
        return findings_of(
            wire_in_contact,
            plug("J1", "A B", board="pilot", family="JST SH", signals="TX, GND"),
            captive("J2", "A B", board="camera", family=family, signals="RX, GND"),
            notes=[],
        )

    assert not camera("JST SH")
    assert not camera("JST GH")  # its gauge is not known


def test_unknown_gauges_are_quiet():
    assert not found(None)


@pytest.mark.parametrize(
    ("family", "od_mm", "severity"),
    [("JST SH", 0.8, None), ("JST SH", 0.9, Severity.ERROR), ("JST GH", 0.7, Severity.ERROR), ("JST GH", 1.0, None)],
)
def test_the_insulation_of_the_builders_wire(family, od_mm, severity):
    result = found(28, family, insulation={28: od_mm})
    assert [each.severity for each in result] == ([] if severity is None else [severity])
    assert all(each.rule == "insulation-outside-contact" for each in result)


def test_an_insulation_that_nobody_states_is_quiet():
    assert not found(28, insulation={26: 5.0})
