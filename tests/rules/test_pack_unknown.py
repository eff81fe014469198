"""Inputs on a battery of which nothing is said.  Logic, no source needed."""

from __future__ import annotations

from craft_kit import captive, plug
from finding_kit import alarms, all_findings, findings_of
from tabside.model.craft import CraftSettings
from tabside.model.findings import Severity
from tabside.model.roles import Volts
from tabside.rules.pack_unknown import pack_unknown

CRAFT = (
    captive("X1", "A B", board="pack", family="amass_xt60", signals="VBAT, GND", gives="VBAT 30A"),
    plug("J1", "A B", board="camera", family="JST PH", signals="VIN, GND", takes="7-26V 0.3A"),
)


def test_a_range_on_an_unknown_pack_is_a_note_and_never_an_alarm():
    found = findings_of(pack_unknown, *CRAFT)
    assert [each.severity for each in found] == [Severity.NOTE]
    assert "camera/J1:1" in found[0].message
    assert not alarms(each for each in all_findings(*CRAFT) if each.rule != "fuse-missing")


def test_quiet_when_the_pack_is_known():
    assert not findings_of(pack_unknown, *CRAFT, settings=CraftSettings(battery=Volts(12.0, 16.8)))
