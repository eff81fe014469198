"""Terminators of CAN and RS-485 lines."""

from __future__ import annotations

from collections.abc import Iterator

from tabside.analysis import harm
from tabside.analysis.buses.bus_lines import BusLine, bus_lines
from tabside.analysis.buses.bus_wiring import longest_can_stub_m, longest_rs485_stub_m, stubs_of
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
    Warns, too: a CAN stub longer than 1.67 m.
    Notes: only one stated: the other may be built into a board; an RS-485 stub longer than 0.5 m.
    Source: two plugs of 120 ohm, 60 ohm between the lines: a page on a flight bus, quoted; ends only: common practice,
    no source; stubs of CAN: CiA 301 as quoted in a glossary; of RS-485: a tenth of a transceiver's rise time there
    and back, by its data sheet.
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
        yield from _stubs(judgement, line)


def _stubs(judgement: Judgement, line: BusLine) -> Iterator[Finding]:
    """Boards on branches that are too long; how fast an RS-485 transceiver is, nobody states."""
    can = line.group == "can"
    most = longest_can_stub_m() if can else longest_rs485_stub_m()
    long = [stub for stub in stubs_of(judgement, line) if stub.metres > most * (1 + 1e-9)]
    if long:
        boards = [f"{stub.board} ({stub.metres:.2g} m)" for stub in long]
        fast = "" if can else " of a fast transceiver (50 ns)"
        yield Finding(
            rule="terminator",
            severity=Severity.WARNING if can else Severity.NOTE,
            message=f"The {_TITLES[line.group]} line has long stubs: {listed(boards)}; at most {most:.3g} m{fast}.",
            fix="Run the line from board to board, or shorten the branches.",
            where=at_contacts(judgement.craft, line.contacts),
            harm=harm.DRAWING,
        )


def _said(line: BusLine) -> tuple[Severity, str, str] | None:
    names = [resistor.reference for resistor in line.terminators]
    if len(names) > WANTED:
        return (
            Severity.WARNING,
            f"has {len(names)} terminators ({listed(names)}): two are right, one at each end",
            "Keep those at the two ends of the line, and take the others out.",
        )
    middle = [resistor.reference for resistor in line.terminators if resistor.net not in line.end_nets]
    if middle:
        return (
            Severity.WARNING,
            f"has {listed(middle)} in mid-line: a terminator goes at an end of the line",
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
    nets = {resistor.net for resistor in line.terminators}
    if len(line.nets) > 1 and len(nets) == 1:
        return (
            Severity.WARNING,
            f"has both of its terminators ({listed(names)}) at one end",
            "Move one of them to the other end of the line.",
        )
    return None
