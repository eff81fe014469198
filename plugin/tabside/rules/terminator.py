"""Terminators of CAN and RS-485 lines."""

from __future__ import annotations

from collections.abc import Iterator

from tabside.analysis import harm
from tabside.analysis.bus_lines import BusLine, bus_lines
from tabside.analysis.judgement import Judgement
from tabside.analysis.places import at_contacts
from tabside.model.findings import Finding, Severity
from tabside.rules.rule import check
from tabside.words.contacts import listed

WANTED = 2  # one at each end: 60 ohm between the lines [B]
_TITLES = {"can": "CAN", "rs485": "RS-485"}


@check("terminator", severity=Severity.WARNING)
def terminator(judgement: Judgement) -> Iterator[Finding]:
    """A CAN or RS-485 line has one terminator of 120 ohm at each of its two ends.

    Without them edges are reflected and messages lost, at some lengths and not at others; a third loads the drivers.
    Example: 120 ohm at a node in the middle of the line, and none at its end.

    Fix: fit 120 ohm at both ends and nowhere else.
    Accept: where a board brings its own terminator.
    Passes: two at the ends; a drawing in which nobody states a terminator.
    Warns: three or more; one in mid-line; none on a line while another line has stated ones.
    Notes: only one stated: the other may be built into a board.
    Source: two plugs of 120 ohm, 60 ohm between the lines: [B] flight-bus page; ends only: common practice, no source.
    """
    lines = list(bus_lines(judgement))
    if not any(line.terminators for line in lines):
        return
    for line in lines:
        said = _said(line)
        if said is not None:
            severity, what, fix = said
            boards = sorted({board for found in line.boards_on.values() for board in found})
            yield Finding(
                rule="terminator",
                severity=severity,
                message=f"The {_TITLES[line.group]} line of {listed(boards)} {what}.",
                fix=fix,
                where=at_contacts(judgement.craft, line.contacts),
                harm=harm.DRAWING,
            )


def _said(line: BusLine) -> tuple[Severity, str, str] | None:
    names = [each.reference for each in line.terminators]
    if len(names) > WANTED:
        return (
            Severity.WARNING,
            f"has {len(names)} terminators ({listed(names)}): two are right, one at each end",
            "Keep those at the two ends of the line, and take the others out.",
        )
    middle = [each.reference for each in line.terminators if each.net not in line.end_nets]
    if middle:
        return (
            Severity.WARNING,
            f"has {listed(middle)} in mid-line: a terminator stands at an end",
            f"Move {listed(middle)} to the end of the line.",
        )
    if len(names) == WANTED:
        return _one_end(line, names)
    if names:
        return (
            Severity.NOTE,
            f"has one terminator ({names[0]}): the other end needs one too, unless its board brings it",
            "Check by eye whether the board at the other end has 120 ohm built in, else fit it there.",
        )
    return (
        Severity.WARNING,
        "has no terminator, and other lines of this craft have",
        "Fit 120 ohm at both ends, unless the boards there bring their own; then accept this.",
    )


def _one_end(line: BusLine, names: list[str]) -> tuple[Severity, str, str] | None:
    """Two terminators on the one stretch at an end of a longer line: the other end has none."""
    nets = {each.net for each in line.terminators}
    if len(line.nets) > 1 and len(nets) == 1:
        return (
            Severity.WARNING,
            f"has both of its terminators ({listed(names)}) at one end",
            "Move one of them to the other end of the line.",
        )
    return None
