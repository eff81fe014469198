"""What a rule means, why it matters and what to do about it: read off the docstring of each check.

A docstring begins with what holds in a sound craft; then comes why, up to "Example:"; then a line for each of `Fix`,
`Accept`, what is passed and what is reported, and `Source`.
"""

from __future__ import annotations

import re
from typing import Any

from msgspec import Struct

from tabside.errors import TabsideError
from tabside.model.findings import Severity
from tabside.rules import ALL_CHECKS
from tabside.rules.acceptance import ACCEPT_RULE, with_acceptances
from tabside.words.nearest import did_you_mean

FORMAT = "tabside/explain/1"
_CASES = ("Passes", "Quiet", "Notes", "Warns", "Fails", "Not checked")
_LABEL = re.compile(rf"(?:^|(?<=[.)] ))(Example|Fix|Accept|Source|(?:{'|'.join(_CASES)})(?:, too)?): ")


class Explanation(Struct, frozen=True):
    """What one check means."""

    rules: tuple[str, ...]  # the names that its findings bear
    severity: Severity  # the worst that it reports
    what: str
    why: str
    example: str
    fix: str
    accept: str
    cases: tuple[tuple[str, str], ...]  # what is passed, noted, warned of: ("Passes", "5V on 5V.")
    source: str
    may_be_accepted: bool

    def as_json(self) -> dict[str, Any]:
        return {
            "rules": list(self.rules),
            "severity": self.severity.value,
            "what": self.what,
            "why": self.why,
            "example": self.example,
            "fix": self.fix,
            "accept": self.accept,
            "cases": [{"case": case, "words": words} for case, words in self.cases],
            "source": self.source,
        }


def explanations() -> tuple[Explanation, ...]:
    """All of them, in the order of reports."""
    checks = (_read(check.rules, check.severity, check.__doc__, check.may_be_accepted) for check in ALL_CHECKS)
    return (*checks, _read((ACCEPT_RULE,), Severity.NOTE, with_acceptances.__doc__ or "", may_be_accepted=False))


def explained(rule: str) -> tuple[Explanation, ...]:
    """What a finding of this name may mean, the most severe first.

    Raises: TabsideError for a name that is no rule's.
    """
    every = explanations()
    found = [explanation for explanation in every if rule in explanation.rules]
    if not found:
        raise TabsideError(f'no rule is called "{rule}"; {_near(rule, every)}')
    return tuple(sorted(found, key=lambda explanation: explanation.severity.rank))


def explain_json(rule: str | None) -> dict[str, Any]:
    """The answer of `explain --json`, of one rule or of all.  Raises: TabsideError for a name that is no rule's."""
    found = explanations() if rule is None else explained(rule)
    return {"format": FORMAT, "rule": rule, "explanations": [explanation.as_json() for explanation in found]}


def acceptance_in_toml(rule: str, at: tuple[str, ...], reason: str) -> str:
    """What the craft file must hold so that a finding of `rule` at these contacts (`board/J1:2`) is accepted."""
    places = ", ".join(f'"{contact}"' for contact in at)
    return f'[[accept]]\nrule = "{rule}"\nat = [{places}]\nreason = "{reason}"\n'


def _near(rule: str, every: tuple[Explanation, ...]) -> str:
    names = sorted({name for explanation in every for name in explanation.rules})
    plain = "-".join(rule.lower().replace("_", " ").split())
    return did_you_mean(plain, names, "`tabside explain` lists them", alike=0.6)


def _read(rules: tuple[str, ...], severity: Severity, docstring: str, may_be_accepted: bool) -> Explanation:
    what, _, rest = docstring.partition("\n\n")
    why, *parts = _LABEL.split(" ".join(rest.split()))
    said = [(label, words.strip()) for label, words in zip(parts[::2], parts[1::2], strict=True)]
    one = dict(said)
    return Explanation(
        rules=rules,
        severity=severity,
        what=" ".join(what.split()),
        why=why.strip(),
        example=one.get("Example", ""),
        fix=one.get("Fix", ""),
        accept=one.get("Accept", ""),
        cases=tuple((label, words) for label, words in said if label.partition(",")[0] in _CASES),
        source=one.get("Source", ""),
        may_be_accepted=may_be_accepted,
    )
