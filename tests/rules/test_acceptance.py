"""Findings that the craft file accepts."""

from __future__ import annotations

from crafts.craft_kit import plug
from crafts.finding_kit import all_findings, of_rule
from tabside.model.craft import Acceptance, CraftSettings
from tabside.model.findings import Severity
from tabside.rules import check_craft

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
    from crafts.craft_kit import craft

    made = craft(*UNGROUNDED, settings=accepting("no-return", "J4:2", "P1:2"))
    verdict = check_craft(made)
    assert verdict.accepted == 1
    assert verdict.count(Severity.ERROR) == 0


def test_one_contact_alone_does_not_hide_what_it_later_meets():
    assert [each.accepted for each in no_return(accepting("no-return", "J4:2"))] == [None]


def test_a_later_fault_of_the_same_rule_at_another_contact_stays():
    def clashes(settings):
        return of_rule(
            "role-clash",
            all_findings(
                plug("J1", "A G B", board="pilot", signals="5V, GND, 3V3"),
                plug("J2", "A G -", board="one", signals="SDA, GND, 3V3"),
                plug("J3", "B", board="two", signals="SCL"),
                settings=settings,
            ),
        )

    assert len(clashes(None)) == 2
    assert sorted(str(each.accepted) for each in clashes(accepting("role-clash", "J1:1", "J2:1"))) == [
        "None",
        "the radio is isolated",
    ]


def test_a_finding_of_one_contact_is_accepted_by_it():
    from crafts.craft_kit import pads

    rail = (
        pads("TP1", "A G", board="bec", signals="5V, GND", gives="5V 1A"),
        pads("TP2", "A G", board="servo", signals="5V, GND", takes="5V 2A"),
    )
    found = of_rule("over-budget", all_findings(*rail, settings=accepting("over-budget", "TP1:1")))
    assert [each.accepted for each in found] == ["the radio is isolated"]


MIRRORED = (
    plug("J1", "A B C D", board="pilot", signals="5V, TX, RX, GND"),
    plug("J2", "D C B A", board="gnss", signals="5V, RX, TX, GND"),
)
CROSSED = (
    plug("J1", "A B G", board="pilot", signals="TX, RX, GND"),
    plug("J2", "A B G", board="gnss", signals="TX, RX, GND"),
)


def test_a_harmless_pair_does_not_accept_the_finding_that_folds_it_with_a_short():
    # 5V on GND at J1:1 and J2:1; the two lines of the UART are folded into the same finding
    found = all_findings(*MIRRORED, settings=accepting("mirrored", "J1:2", "J2:3"))
    assert [each.accepted for each in of_rule("mirrored", found)] == [None]
    note = of_rule("accept", found)
    assert [each.severity for each in note] == [Severity.NOTE]
    assert "gnss/J2:4" in note[0].message and "pilot/J1:1" in note[0].message


def test_the_pairs_of_one_finding_may_be_accepted_one_by_one_or_all_together():
    first, second = (accepting("uart-not-crossed", f"J1:{n}", f"J2:{n}", reason=n).accept[0] for n in ("1", "2"))
    together = accepting("uart-not-crossed", "J1:1", "J2:1", "J1:2", "J2:2", reason="all").accept
    for accept, reasons in (((first,), [None]), ((first, second), ["1; 2"]), (together, ["all"])):
        found = of_rule("uart-not-crossed", all_findings(*CROSSED, settings=CraftSettings(accept=accept)))
        assert [each.accepted for each in found] == reasons


def test_an_acceptance_at_a_place_that_is_not_drawn_is_told_by_its_reference():
    found = of_rule("accept", all_findings(*UNGROUNDED, settings=accepting("mirrored", "J99:2", "P1:2")))
    assert "J99:2 and isolated radio/P1:2" in found[0].message
