"""Findings of small crafts, for tests of single checks."""

from __future__ import annotations

from collections.abc import Iterable

from crafts.craft_kit import Symbol, craft
from tabside.analysis.judgement import Judgement
from tabside.model.craft import Craft, CraftSettings
from tabside.model.findings import Finding, Severity
from tabside.rules import check_craft
from tabside.rules.rule import Check


def findings_of(check: Check, *symbols: Symbol, settings: CraftSettings | None = None, **more: object) -> list[Finding]:
    """What one check says of the craft of these symbols."""
    return list(check(Judgement(craft(*symbols, settings=settings, **more))))


def all_findings(*symbols: Symbol, settings: CraftSettings | None = None, **more: object) -> list[Finding]:
    return list(check_craft(craft(*symbols, settings=settings, **more)).findings)


def alarms(findings: Iterable[Finding]) -> list[str]:
    """Errors and warnings, one line each."""
    return [f"{each.severity} {each.rule}: {each.message}" for each in findings if each.severity is not Severity.NOTE]


def rules(findings: Iterable[Finding]) -> list[str]:
    return [each.rule for each in findings]


def of_rule(rule: str, findings: Iterable[Finding]) -> list[Finding]:
    return [each for each in findings if each.rule == rule]


def at(finding: Finding) -> set[str]:
    """The contacts that a finding names, as "J1:4"."""
    return {f"{where.termination}:{where.contact}" for where in finding.where if where.contact is not None}


def terminations(made: Craft) -> list[str]:
    return list(made.terminations)
