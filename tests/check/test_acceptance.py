"""Findings that the craft file accepts."""

from __future__ import annotations

from craft_kit import plug
from finding_kit import all_findings, of_rule
from tabside.check import check_craft
from tabside.model.craft import Acceptance, CraftSettings
from tabside.model.findings import Severity

UNGROUNDED = (
    plug("J4", "A B", board="pilot", signals="TX, RX"),
    plug("P1", "A B", board="isolated radio", signals="RX, TX"),
)


def accepting(rule, *contacts, reason="the radio is isolated"):
    at = tuple((reference, number) for reference, number in (each.split(":") for each in contacts))
    return CraftSettings(accept=(Acceptance(rule, at, reason),))


def no_return(settings=None):
    return of_rule("no-return", all_findings(*UNGROUNDED, settings=settings))


def test_an_accepted_finding_stays_visible_with_its_reason():
    assert [each.accepted for each in no_return()] == [None]
    found = no_return(accepting("no-return", "J4:2", "P1:2"))
    assert [each.accepted for each in found] == ["the radio is isolated"]
    assert found[0].severity is Severity.ERROR


def test_another_rule_or_another_contact_accepts_nothing():
    for settings in (accepting("role-clash", "J4:2", "P1:2"), accepting("no-return", "J4:2", "P1:7")):
        assert [each.accepted for each in no_return(settings)] == [None]


def test_an_acceptance_that_matches_nothing_is_reported():
    found = of_rule("accept", all_findings(*UNGROUNDED, settings=accepting("mirrored", "J4:2", "P1:2")))
    assert [each.severity for each in found] == [Severity.NOTE]
    assert "mirrored" in found[0].message and "J4:2" in found[0].message
    assert not of_rule("accept", all_findings(*UNGROUNDED, settings=accepting("no-return", "J4:2", "P1:2")))


def test_accepted_findings_are_counted_apart():
    from craft_kit import craft

    made = craft(*UNGROUNDED, settings=accepting("no-return", "J4:2", "P1:2"))
    verdict = check_craft(made)
    assert verdict.accepted == 1
    assert verdict.count(Severity.ERROR) == 0
