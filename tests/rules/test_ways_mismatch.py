"""Symbols that do not fit their part.  Logic, no source needed; footprint names are KiCad's."""

from __future__ import annotations

from crafts.craft_kit import plug
from crafts.finding_kit import findings_of, rules
from tabside.model.findings import Severity
from tabside.rules.ways_mismatch import ways_mismatch

SIX_WAYS = "Connector_JST:JST_GH_SM06B-GHS-TB_1x06-1MP_P1.25mm_Horizontal"


def test_a_contact_above_the_footprints_ways():
    found = findings_of(ways_mismatch, plug("J1", "A B C D E F G", board="pilot", footprint=SIX_WAYS))
    assert rules(found) == ["ways-mismatch"]
    assert found[0].severity is Severity.ERROR
    assert "contact 7" in found[0].message and "6 ways" in found[0].message


def test_quiet_for_as_many_contacts_as_ways_or_fewer():
    assert not findings_of(ways_mismatch, plug("J1", "A B C D E F", board="pilot", footprint=SIX_WAYS))
    assert not findings_of(ways_mismatch, plug("J1", "A B C D", board="pilot", footprint=SIX_WAYS))
    assert not findings_of(ways_mismatch, plug("J1", "A B C D E F G", board="pilot"))


def test_fewer_or_more_names_than_contacts():
    for names in ("5V, TX, GND", "5V, TX, RX, GND, GND"):
        found = findings_of(ways_mismatch, plug("J1", "A B C D", board="pilot", signals=names))
        assert rules(found) == ["signals-mismatch"]
        assert found[0].severity is Severity.ERROR


def test_quiet_for_a_name_for_each_contact_and_for_each_way():
    assert not findings_of(ways_mismatch, plug("J1", "A B C D", board="pilot", signals="5V, nc, RX, GND"))
    assert not findings_of(
        ways_mismatch, plug("J1", "A B C D", board="pilot", footprint=SIX_WAYS, signals="5V TX RX nc nc GND")
    )
