"""What changed in the verdict since the last save, for a person at a terminal or a program."""

from __future__ import annotations

import json
import sys
import time
from collections import defaultdict
from collections.abc import Iterable, Sequence
from typing import Any

from tabside.cli.printing.paragraphs import filled
from tabside.cli.printing.report import print_finding, print_verdict
from tabside.documents.as_json.verdict import counts_json, finding_json
from tabside.errors import TabsideError
from tabside.model.craft import Craft
from tabside.model.findings import Finding, Severity, Verdict
from tabside.words.verdict import judged_line, last_line
from tabside.words.visible_text import visible

FORMAT = "tabside/watch/1"
_Told = tuple[Sequence[Finding], Sequence[Finding]]


def changed_findings(before: Iterable[Finding], after: Iterable[Finding]) -> _Told:
    """The findings that are new, and those that are gone; equal ones are told apart by their number."""
    old: defaultdict[str, list[Finding]] = defaultdict(list)
    for finding in before:
        old[_all_that_is_said(finding)].append(finding)
    new = []
    for finding in after:
        same = old[_all_that_is_said(finding)]
        if same:
            same.pop()
        else:
            new.append(finding)
    return new, [finding for left in old.values() for finding in left]


def _all_that_is_said(finding: Finding) -> str:
    """Where it sits on the sheet is left out: a symbol that was moved changes no verdict."""
    places = [(where.board, where.termination, where.contact) for where in finding.where]
    folded = [other.message for other in finding.folded]
    return repr((finding.rule, finding.severity, finding.message, finding.fix, finding.accepted, places, folded))


class Teller:
    """Remembers what it told last."""

    def __init__(self, *, as_json: bool) -> None:
        self.as_json = as_json
        self.verdict: Verdict | None = None
        self.problem = ""
        self.warnings: tuple[str, ...] = ()

    def tell(self, craft: Craft, verdict: Verdict, warnings: tuple[str, ...]) -> None:
        """The whole verdict at first, then what changed in it."""
        for warning in warnings:
            if warning not in self.warnings:
                print(f"tabside: warning: {visible(warning)}", file=sys.stderr, flush=True)
        before, was_problem = self.verdict, self.problem
        self.verdict, self.warnings, self.problem = verdict, warnings, ""
        new, gone = changed_findings(before.findings if before else (), verdict.findings)
        same = before is not None and judged_line(before.judged) == judged_line(verdict.judged)
        if same and not (new or gone or was_problem):
            return
        if self.as_json:
            self._print_json(verdict, new, gone)
        elif before is None:
            print_verdict(craft, verdict)
            print("\nWatching the drawing, its craft file and board files; Ctrl-C ends it.", flush=True)
        else:
            _print_changes(verdict, new, gone, was_problem)

    def tell_problem(self, problem: TabsideError) -> None:
        """Once, however often it is met."""
        if str(problem) == self.problem:
            return
        self.problem = str(problem)
        if self.as_json:
            print(json.dumps({"format": FORMAT, "at": _now(), "error": problem.as_json()}), flush=True)
        else:
            print(f"\n{_now()}  CANNOT CHECK: {visible(str(problem))}", flush=True)

    def _print_json(self, verdict: Verdict, new: Sequence[Finding], gone: Sequence[Finding]) -> None:
        answer: dict[str, Any] = {
            "format": FORMAT,
            "at": _now(),
            "error": None,
            "verdict": verdict.outcome.value,
            "counts": counts_json(verdict),
            "new": [finding_json(finding) for finding in new],
            "gone": [finding_json(finding) for finding in gone],
        }
        print(json.dumps(answer), flush=True)


def _print_changes(verdict: Verdict, new: Sequence[Finding], gone: Sequence[Finding], was_problem: str) -> None:
    print(f"\n{_now()}{'  can be checked again' if was_problem else ''}")
    for finding in gone:
        print(filled(f"gone: {finding.rule}: {finding.message}", "  ", "    "))
    for finding in new:
        if finding.accepted is not None:
            print(filled(f"accepted: {finding.rule}: {finding.message} Reason: {finding.accepted}", "  ", "    "))
        elif finding.severity is Severity.NOTE:
            print(filled(f"note: {finding.rule}: {finding.message}", "  ", "    "))
        else:
            print_finding(finding)
    print(filled(judged_line(verdict.judged)))
    print(filled(last_line(verdict)), flush=True)


def _now() -> str:
    return time.strftime("%H:%M:%S")
