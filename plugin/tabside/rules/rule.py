"""What makes a function a check: its rule names, and the severity that it usually has."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from msgspec import Struct

from tabside.analysis.judgement import Judgement
from tabside.model.findings import Finding, Severity

CheckFunction = Callable[[Judgement], Iterator[Finding]]


class Check(Struct, frozen=True):
    """A check: called with a judged craft, it yields findings and changes nothing."""

    rules: tuple[str, ...]  # rule names that its findings may carry
    severity: Severity  # the worst that it reports
    may_be_accepted: bool  # whether a reason in the craft file can stand against a finding
    find: CheckFunction
    __doc__: str

    def __call__(self, judgement: Judgement) -> Iterator[Finding]:
        return self.find(judgement)


def check(*rules: str, severity: Severity, may_be_accepted: bool = True) -> Callable[[CheckFunction], Check]:
    """Marks a function as the check of these rules."""

    def mark(function: CheckFunction) -> Check:
        return Check(rules, severity, may_be_accepted, function, function.__doc__ or "")

    return mark
