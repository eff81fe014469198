"""The verdict as a whole in a person's words: how much it rests on, and what to do next."""

from __future__ import annotations

from tabside.model.findings import Judged, Severity, Verdict
from tabside.words.contacts import counted


def judged_line(judged: Judged) -> str:
    """How much the verdict rests on."""
    unknown = [
        f"{number} {what} unknown"
        for number, what in (
            (judged.boards_unknown, "boards"),
            (judged.families_unknown, "families"),
            (judged.views_unknown, "views"),
        )
        if number
    ]
    return (
        f"Judged: {judged.leads} of {judged.leads + judged.not_judged} leads" + "".join(f", {u}" for u in unknown) + "."
    )


def last_line(verdict: Verdict) -> str:
    """One line that a person can act on."""
    errors, warnings = verdict.count(Severity.ERROR), verdict.count(Severity.WARNING)
    accepted = f" {counted(verdict.accepted, 'finding')} accepted by the craft file." if verdict.accepted else ""
    if errors:
        return (
            f"NOT CLEARED: {counted(errors, 'error')}, {counted(warnings, 'warning')}.{accepted} "
            "Mend the drawing from the top of this list and check again before any cable is made."
        )
    if warnings:
        return f"No error, {counted(warnings, 'warning')}.{accepted} Settle each one before power is connected."
    judged = verdict.judged
    if not judged.leads + judged.not_judged:
        return f"Nothing found, but there is no lead to judge.{accepted} Draw terminations and join them."
    if judged.not_judged * 10 > judged.leads + judged.not_judged:
        return (
            f"Nothing found, {counted(judged.not_judged, 'lead')} not judged.{accepted} "
            "Name their signals (field Signals) and check again."
        )
    return (
        f"Clean: no error, no warning.{accepted} "
        "Prove each cable with a meter, then first power through a current limiter."
    )
