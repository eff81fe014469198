"""Findings that the craft file accepts, with their reason."""

from __future__ import annotations

from collections.abc import Iterable

from msgspec.structs import replace

from tabside.model.craft import Acceptance, Craft
from tabside.model.findings import Finding, Severity, Where

ACCEPT_RULE = "accept"
LEAD_BY_LEAD = frozenset(("not-judged",))  # findings that gather leads, each of which is accepted by itself


def with_acceptances(craft: Craft, findings: Iterable[Finding]) -> list[Finding]:
    """Each acceptance in the craft file is for a finding that there is.

    An acceptance matches a finding of its rule that names both of its contacts; one with a single contact matches only
    what names that contact alone, so that it does not hide a later fault there.  One that matches nothing is left over
    from an older drawing, or misspelt: then the finding that it was meant for still stands.  Example: an acceptance of
    two contacts that were since drawn elsewhere.

    Fix: take the acceptance out of the craft file, or give the rule and both contacts as the finding names them.
    Accept: it is a note.
    Notes: an acceptance without a finding.
    Source: logic.
    """
    left = list(craft.settings.accept)
    used: set[int] = set()
    result = []
    for finding in findings:
        match = next((n for n, each in enumerate(left) if _matches(each, finding)), None)
        if match is not None:
            used.add(match)
            finding = replace(finding, accepted=left[match].reason)
        result.append(finding)
    return result + [_unused(craft, each) for n, each in enumerate(left) if n not in used]


def _matches(acceptance: Acceptance, finding: Finding) -> bool:
    if acceptance.rule != finding.rule or not acceptance.at:
        return False
    named = {(where.termination, where.contact) for where in finding.where if where.contact is not None}
    at = set(acceptance.at)
    return at == named if len(at) == 1 or acceptance.rule in LEAD_BY_LEAD else at <= named


def _unused(craft: Craft, acceptance: Acceptance) -> Finding:
    places = " and ".join(":".join(key) for key in acceptance.at)
    where = []
    for reference, number in acceptance.at:
        termination = craft.terminations.get(reference)
        where.append(Where(termination.board if termination else None, reference, number))
    return Finding(
        rule=ACCEPT_RULE,
        severity=Severity.NOTE,
        message=f"The craft file accepts {acceptance.rule} at {places}, and there is no such finding.",
        fix="Take the acceptance out of the craft file, or give the rule and both contacts as the finding names them.",
        where=tuple(where),
    )
