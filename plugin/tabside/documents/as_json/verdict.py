"""The verdict as the JSON object that `tabside check --json` prints."""

from __future__ import annotations

from typing import Any

from tabside.analysis.places import at_contact
from tabside.model.craft import Craft
from tabside.model.findings import Finding, Severity, Verdict, Where

FORMAT = "tabside/check/1"


def verdict_json(craft: Craft, verdict: Verdict) -> dict[str, Any]:
    """A plain object for `json.dumps`; keys that do not apply are null, decimal contacts are integers."""
    return {
        "format": FORMAT,
        "craft": craft.name,
        "findings": [finding_json(finding) for finding in verdict.findings],
        "counts": counts_json(verdict),
        "judged": {
            "leads": verdict.judged.leads,
            "not_judged": verdict.judged.not_judged,
            "boards_unknown": verdict.judged.boards_unknown,
            "families_unknown": verdict.judged.families_unknown,
            "views_unknown": verdict.judged.views_unknown,
        },
        "verdict": verdict.outcome.value,
        "not_judged": [
            {"lead": left.lead, "ends": [_where(end) for end in left.ends], "why": left.why}
            for left in verdict.not_judged
        ],
        "chosen": [
            {
                "lead": lead.mark,
                "others": [[_where(at_contact(craft, craft.contact(key))) for key in ends] for ends in lead.others],
            }
            for lead in craft.leads
            if lead.how == "chosen"
        ],
    }


def counts_json(verdict: Verdict) -> dict[str, int]:
    """How many findings stand of each severity, and how many are accepted."""
    return {severity.value: verdict.count(severity) for severity in Severity} | {"accepted": verdict.accepted}


def finding_json(finding: Finding) -> dict[str, Any]:
    """One finding, those that it explains within it."""
    return {
        "rule": finding.rule,
        "severity": finding.severity.value,
        "message": finding.message,
        "fix": finding.fix,
        "accepted": finding.accepted,
        "where": [_where(where) for where in finding.where],
        "folded": [finding_json(folded) for folded in finding.folded],
    }


def _where(where: Where) -> dict[str, Any]:
    return {
        "board": where.board,
        "termination": where.termination,
        "contact": contact_json(where.contact),
        "net": where.net,
        "sheet": where.place.sheet if where.place else None,
        "at_mm": list(where.place.at_mm) if where.place else None,
    }


def contact_json(number: str | None) -> int | str | None:
    """An integer when decimal ("07" is no number that would come back as drawn), else the text."""
    if number is not None and number.isascii() and number.isdecimal() and str(int(number)) == number:
        return int(number)
    return number
