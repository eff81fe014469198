"""`tabside explain`: what a finding means, for a person at a terminal."""

from __future__ import annotations

from tabside.cli.printing.paragraphs import filled
from tabside.documents.explanation import Explanation, acceptance_in_toml, explained, explanations


def print_explanation(rule: str | None) -> None:
    """One rule with all that is said of it, or all rules with what each means."""
    if rule is None:
        _print_all()
        return
    found = explained(rule)
    print(rule)
    for explanation in found:
        print()
        _print_one(explanation)
    if any(explanation.may_be_accepted for explanation in found):
        _print_acceptance(rule)


def _print_all() -> None:
    for explanation in explanations():
        print(filled(", ".join(explanation.rules)))
        print(filled(f"{explanation.severity.value}: {explanation.what}", "    "))
    print("\n`tabside explain RULE` says why it matters, how to fix it, and its source.")


def _print_one(explanation: Explanation) -> None:
    print(filled(f"{explanation.severity.upper()}  {explanation.what}"))
    print(filled(explanation.why, "  "))
    for label, words in (
        ("Example", explanation.example),
        ("Fix", explanation.fix),
        ("Accept", explanation.accept),
        *explanation.cases,
        ("Source", explanation.source),
    ):
        if words:
            print(filled(f"{label}: {words}", "  ", "    "))


def _print_acceptance(rule: str) -> None:
    print()
    print(filled("To accept one, in the craft file, with both contacts that the finding names:"))
    print()
    words = acceptance_in_toml(rule, ("autopilot/J3:2", "radio/J7:3"), "what you have looked up, and where")
    print("".join(f"    {line}\n" for line in words.splitlines()), end="")
