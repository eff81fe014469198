"""The verdict as a whole in a person's words: how much it rests on, and what to do next."""

from __future__ import annotations

from tabside.model.findings import Judged, Severity, Verdict, Where
from tabside.words.contacts import counted


def judged_line(judged: Judged) -> str:
    """How much the verdict rests on."""
    unknown = [
        f"{what} not given for {counted(number, 'connector')}"
        for number, what in (
            (judged.boards_unknown, "board"),
            (judged.families_unknown, "family"),
            (judged.views_unknown, "orientation"),
        )
        if number
    ]
    checked = f"Checked {judged.leads} of {counted(judged.leads + judged.not_judged, 'wire')}"
    if judged.chosen:
        checked += f", {judged.chosen} of them chosen by name, not drawn"
    missing = ", ".join(unknown)
    return f"{checked}. {missing[0].upper()}{missing[1:]}." if missing else f"{checked}."


def stop_words(errors: int, undecided: int) -> str:
    """What stands on top of every page and sheet while nobody may build from it; "" when the craft is cleared."""
    if errors:
        return f"NOT CLEARED TO BUILD: {counted(errors, 'error')}"
    return f"NOT DECIDED: {counted(undecided, 'wire')} may bring power where it does harm" if undecided else ""


def no_errors(warnings: int) -> str:
    """ "No errors, no warnings", "No errors, 2 warnings"."""
    return f"No errors, {counted(warnings, 'warning') if warnings else 'no warnings'}"


def last_line(verdict: Verdict) -> str:
    """One line that a person can act on."""
    errors, warnings = verdict.count(Severity.ERROR), verdict.count(Severity.WARNING)
    accepted = f" {counted(verdict.accepted, 'finding')} accepted by the craft file." if verdict.accepted else ""
    stop = stop_words(errors, verdict.undecided)
    if errors:
        return (
            f"{stop}, {counted(warnings, 'warning')}.{accepted} "
            "Fix the drawing, starting at the top of this list, and run the check again before you make any cable."
        )
    if stop:
        return (
            f"{stop}.{accepted} Look up what the contacts and parts of these warnings are, correct the drawing or say"
            " it in Signals, Gives or Takes, and run the check again."
        )
    if warnings:
        return (
            f"{no_errors(warnings)}.{accepted} "
            "Before you apply power do what the fix of each says, in the drawing or at the bench; the findings page "
            "lists them."
        )
    judged = verdict.judged
    every = judged.leads + judged.not_judged
    if not every:
        return f"Nothing to check: the drawing has no wires.{accepted} Draw connectors and wire them up."
    if judged.not_judged * 10 > every:
        return (
            f"No errors found, but {counted(judged.not_judged, 'wire')} could not be checked.{accepted} "
            "Give their contacts names (field Signals) and run the check again."
        )
    return (
        f"{no_errors(0)}.{accepted} Check every cable with a meter. Power up the first time through a current limiter."
    )


def not_judged_lines(verdict: Verdict) -> list[str]:
    """Which wires could not be checked, one line each."""
    return [f"{left.lead}: {_end(left.ends[0])} to {_end(left.ends[1])}: {left.why}" for left in verdict.not_judged]


def _end(where: Where) -> str:
    board = f"{where.board}/" if where.board and where.board != where.termination else ""
    return f"{board}{where.termination}:{where.contact}"
