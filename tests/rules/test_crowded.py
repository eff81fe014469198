"""Contacts with more leads than they take.  Four leads on a pad: common practice, no source."""

from __future__ import annotations

from crafts.craft_kit import pads, plug, splice
from crafts.finding_kit import at, findings_of, rules
from tabside.model.findings import Severity
from tabside.rules.crowded import crowded


def cavities(*more):
    return [plug(f"J{n}", "GND", board=f"board {n}", signals="GND") for n in (1, 2, 3)] + list(more)


def test_three_cavities_on_one_net():
    found = findings_of(crowded, *cavities())
    assert rules(found) == ["cavity-shared"]
    assert found[0].severity is Severity.ERROR
    assert at(found[0])
    assert "splice" in found[0].fix.lower()


def test_quiet_with_a_splice_or_a_pad():
    assert not findings_of(crowded, *cavities(splice("J9", "GND")))
    assert not findings_of(crowded, *cavities(pads("TP1", "GND", board="plane", signals="GND")))


def test_a_pad_for_two_leads():
    found = findings_of(
        crowded,
        pads("TP1", "GND", board="hub", signals="GND", leads_max=2),
        *[pads(f"TP{n}", "GND", board=f"board {n}", signals="GND", leads_max=1) for n in (2, 3, 4)],
    )
    assert rules(found) == ["pad-crowded"]
    assert found[0].severity is Severity.WARNING


def test_a_net_that_clashes_is_told_as_that_first():
    assert not findings_of(
        crowded,
        plug("J1", "A", board="one", signals="GND"),
        plug("J2", "A", board="two", signals="5V"),
        plug("J3", "A", board="three", signals="GND"),
    )
