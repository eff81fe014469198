"""What a check has to say."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from tabside.model.drawing import Place


class Severity(StrEnum):
    ERROR = "error"
    WARNING = "warning"
    NOTE = "note"

    @property
    def rank(self) -> int:
        """0 for an error, the most severe."""
        return list(Severity).index(self)


@dataclass(frozen=True, slots=True)
class Where:
    """One place that a finding points at.  What does not apply is None."""

    board: str | None = None
    termination: str | None = None
    contact: str | None = None
    net: str | None = None
    place: Place | None = None


@dataclass(frozen=True, slots=True)
class Finding:
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


@dataclass(frozen=True, slots=True)
class Judged:
    """How much of the craft the checks could judge."""

    leads: int  # judged; with `not_judged` all leads
    not_judged: int
    boards_unknown: int
    families_unknown: int
    views_unknown: int


@dataclass(frozen=True, slots=True)
class Verdict:
    """All findings of a craft, most harmful first, and how much was judged."""

    findings: tuple[Finding, ...]
    judged: Judged

    def count(self, severity: Severity) -> int:
        """Findings of this severity that are not accepted."""
        return sum(1 for f in self.findings if f.severity is severity and f.accepted is None)

    @property
    def accepted(self) -> int:
        return sum(1 for f in self.findings if f.accepted is not None)
