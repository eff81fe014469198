"""What a check has to say."""

from __future__ import annotations

from enum import StrEnum

from msgspec import Struct

from tabside.model.drawing import Place


class Severity(StrEnum):
    ERROR = "error"
    WARNING = "warning"
    NOTE = "note"

    @property
    def rank(self) -> int:
        """0 for an error, the most severe."""
        return list(Severity).index(self)


class Where(Struct, frozen=True):
    """One place that a finding points at.  What does not apply is None."""

    board: str | None = None
    termination: str | None = None
    contact: str | None = None
    net: str | None = None
    place: Place | None = None


class Finding(Struct, frozen=True):
    """One thing that is wrong, or worth knowing, with what to do about it."""

    rule: str  # e.g. "role-clash"
    severity: Severity
    message: str  # which thing, what it is, what was expected
    fix: str  # what to do
    where: tuple[Where, ...] = ()
    folded: tuple[Finding, ...] = ()  # clashes that this one explains
    link: tuple[str, str] | None = None  # the link it belongs to, for grouping
    accepted: str | None = None  # the reason, when the craft file accepts it
    short: tuple[str, str] | None = None  # a kind and a few words, where a list gathers many findings of one rule
    harm: int = 0  # ranks findings of one severity: larger destroys more
    undecided: int = 0  # wires of which nobody knows whether they bring power where it should not be


class Judged(Struct, frozen=True):
    """How much of the craft the checks could judge."""

    leads: int  # judged; with `not_judged` all leads
    not_judged: int
    boards_unknown: int
    families_unknown: int
    views_unknown: int
    chosen: int = 0  # leads for which others would have done as well


class Outcome(StrEnum):
    """What the findings mean for the builder."""

    CLEAR = "clear"
    NOT_DECIDED = "not decided"
    NOT_CLEARED = "not cleared"


class NotJudged(Struct, frozen=True):
    """A lead that nothing decides, and why."""

    lead: str  # its mark
    ends: tuple[Where, Where]
    why: str


class Verdict(Struct, frozen=True):
    """All findings of a craft, most harmful first, and how much was judged."""

    findings: tuple[Finding, ...]
    judged: Judged
    not_judged: tuple[NotJudged, ...] = ()

    @property
    def outcome(self) -> Outcome:
        """Cleared only when no error stands and no lead of power is left undecided."""
        standing = [finding for finding in self.findings if finding.accepted is None]
        if any(finding.severity is Severity.ERROR for finding in standing):
            return Outcome.NOT_CLEARED
        return Outcome.NOT_DECIDED if any(finding.undecided for finding in standing) else Outcome.CLEAR

    @property
    def undecided(self) -> int:
        """Pairs of contacts that may carry power, that nothing decides and nobody accepts."""
        return sum(finding.undecided for finding in self.findings if finding.accepted is None)

    def count(self, severity: Severity) -> int:
        """Findings of this severity that are not accepted."""
        return sum(1 for f in self.findings if f.severity is severity and f.accepted is None)

    @property
    def accepted(self) -> int:
        return sum(1 for f in self.findings if f.accepted is not None)
