"""Every check is run, in one order, and every file of checks has its tests."""

from __future__ import annotations

import importlib
import pkgutil
from pathlib import Path

import tabside.rules
from crafts.craft_kit import craft, plug
from tabside.model.findings import Severity
from tabside.rules import ALL_CHECKS, check_craft
from tabside.rules.rule import Check

# The rules as users know them, typed from the product's table of findings.
RULES = [
    "role-clash",
    "uart-not-crossed",
    "mirrored",
    "shifted",
    "swapped-pair",
    "two-sources",
    "no-source",
    "no-return",
    "not-connected",
    "cavity-shared",
    "pad-crowded",
    "straight-hazard",
    "reversed-hazard",
    "over-voltage",
    "under-voltage",
    "level-mismatch",
    "over-current-contact",
    "over-current-wire",
    "over-budget",
    "voltage-drop",
    "gauge-outside-contact",
    "insulation-outside-contact",
    "look-alike",
    "fuse-missing",
    "view-unknown",
    "ways-mismatch",
    "signals-mismatch",
    "family-unknown",
    "board-unknown",
    "length-unknown",
    "end-kind",
    "not-annotated",
    "reference-duplicate",
    "board-differs",
]


def checks_by_module():
    found = {}
    for info in pkgutil.iter_modules(tabside.rules.__path__):
        module = importlib.import_module(f"tabside.rules.{info.name}")
        own = [each for each in vars(module).values() if isinstance(each, Check)]
        found[info.name] = [each for each in own if each.find.__module__ == module.__name__]
    return {name: own for name, own in found.items() if own}


def test_no_check_is_left_out():
    for name, own in checks_by_module().items():
        assert all(each in ALL_CHECKS for each in own), f"tabside.rules.{name} is not in ALL_CHECKS"


def test_every_file_of_checks_has_a_test_file_of_its_name():
    here = Path(__file__).parent
    assert not [name for name in checks_by_module() if not (here / f"test_{name}.py").exists()]


def test_every_rule_has_a_check_and_every_check_says_its_source():
    ours = {rule for each in ALL_CHECKS for rule in each.rules}
    assert set(RULES) <= ours
    assert not [each.rules for each in ALL_CHECKS if "Source:" not in each.__doc__]


def test_no_check_is_worse_than_it_says_and_none_uses_a_rule_of_another():
    from tabside.analysis.judgement import Judgement

    made = craft(
        plug("J1", "A B C", board="one", signals="5V, TX, GND"),
        plug("J2", "A B C", board="two", signals="GND, TX, 5V"),
    )
    for each in ALL_CHECKS:
        for finding in each(Judgement(made)):
            assert finding.severity.rank >= each.severity.rank
            assert finding.rule in each.rules


def test_findings_come_most_harmful_first():
    made = craft(
        plug("J1", "A B G", board="pilot", signals="TX, RX, GND"),
        plug("J2", "A B G", board="gps", signals="TX, RX, GND"),
        plug("J3", "V H", board="pilot", signals="VBAT, GND"),
        plug("J4", "V H", board="camera", signals="SDA, GND"),
    )
    findings = check_craft(made).findings
    ranks = [each.severity.rank for each in findings]
    assert ranks == sorted(ranks)
    assert [each.rule for each in findings if each.severity is Severity.ERROR] == ["role-clash", "uart-not-crossed"]


def test_judged_counts():
    made = craft(
        plug("J1", "A B G", board="pilot", family="JST SH", signals="TX, FOO, GND"),
        plug("J2", "A B G", signals="RX, BAR, GND"),
    )
    judged = check_craft(made).judged
    assert (judged.leads, judged.not_judged) == (2, 1)
    assert (judged.boards_unknown, judged.families_unknown, judged.views_unknown) == (1, 1, 2)


def test_an_empty_craft_has_nothing_to_say():
    verdict = check_craft(craft())
    assert verdict.findings == ()
    assert verdict.judged.leads == 0


def test_every_check_says_what_it_is_why_and_what_to_do():
    """The explanation of a rule is made of these."""
    for each in ALL_CHECKS:
        lacking = [word for word in ("Example:", "Fix:", "Accept:", "Source:") if word not in each.__doc__]
        assert not lacking, f"{each.rules[0]} lacks {lacking}"
