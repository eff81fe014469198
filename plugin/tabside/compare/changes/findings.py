"""What the checks say of the new build that they did not say of the old one, and the other way round."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator

from msgspec import Struct
from msgspec.structs import replace

from tabside.compare.changes.change import ADDED, REMOVED, Change
from tabside.compare.fates.leads import LeadFates
from tabside.compare.matched.matching import Matching
from tabside.compare.reuse.wires import Ends
from tabside.model.findings import Finding, Severity, Verdict


def changes_of_findings(came: Iterable[Finding], went: Iterable[Finding]) -> Iterator[Change]:
    """What the checks say now that they did not say, and the other way round."""
    for finding in came:
        yield Change(ADDED, "finding", finding.rule, None, finding_words(finding), finding.fix)
    for finding in went:
        yield Change(REMOVED, "finding", finding.rule, finding_words(finding), None, "Nothing: it is no longer found.")


def finding_words(finding: Finding) -> str:
    """With its severity, and with the reason when the craft file accepts it."""
    accepted = f" (accepted: {finding.accepted})" if finding.accepted is not None else ""
    return f"{finding.severity} {finding.rule}{accepted}: {finding.message}"


class Retest(Struct, frozen=True):
    """What must be measured again, and what the checks say now that they did not say before."""

    leads: tuple[Ends, ...]  # new leads that are new or touched
    new: tuple[Finding, ...]  # findings that are not notes
    gone: tuple[Finding, ...]
    still: tuple[Finding, ...]

    def of_one_build(self) -> Retest:
        """Of two drawings of one build: a finding of like plugs may name another one of them."""
        return replace(self, new=(), gone=(), still=(*self.still, *self.new))


def retest_of(
    matching: Matching,
    leads: LeadFates,
    verdicts: tuple[Verdict, Verdict],
    *,
    accepted: bool,
) -> Retest:
    """A finding whose acceptance is withdrawn counts again, and is new; one that is accepted now stands, so marked.

    `accepted`: whether acceptances are known on both sides.
    """

    def key(finding: Finding, *, is_old: bool) -> tuple[object, ...]:
        places = {(at.termination or "", at.contact or "") for at in finding.where}
        if is_old:
            places = {(matching.pairs.get(termination, termination), contact) for termination, contact in places}
        return (finding.rule, finding.severity, frozenset(places))

    loud = [[each for each in verdict.findings if each.severity is not Severity.NOTE] for verdict in verdicts]
    before = {key(finding, is_old=True) for finding in loud[0]}
    counted_before = {key(finding, is_old=True) for finding in loud[0] if finding.accepted is None}
    now = {key(finding, is_old=False) for finding in loud[1]}

    def stood(finding: Finding) -> bool:
        """Whether it was there before, and counted if it counts now."""
        known = before if finding.accepted is not None or not accepted else counted_before
        return key(finding, is_old=False) in known

    return Retest(
        leads.touched,
        tuple(finding for finding in loud[1] if not stood(finding)),
        tuple(finding for finding in loud[0] if key(finding, is_old=True) not in now),
        tuple(finding for finding in loud[1] if stood(finding)),
    )


def counted_findings(findings: tuple[Finding, ...]) -> Counter[tuple[object, ...]]:
    return Counter((finding.rule, finding.severity, finding.accepted) for finding in findings)
