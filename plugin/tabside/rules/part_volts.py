"""Lamps, fans, motors, buzzers and relay coils by the volts in their Value."""

from __future__ import annotations

from collections.abc import Iterator

from tabside.analysis import harm
from tabside.analysis.current.part_ratings import read_rating
from tabside.analysis.current.parts_on_rails import reach_at
from tabside.analysis.joined.joints import is_coil
from tabside.analysis.judgement import Judgement
from tabside.analysis.meeting.agreement import LOAD_ENDS
from tabside.analysis.places import at_contacts
from tabside.model.craft import Contact, Termination
from tabside.model.findings import Finding, Severity
from tabside.rules.rule import check

ABOVE = 1.25  # times the volts by which a part goes; common practice, no source


@check("over-voltage", severity=Severity.WARNING)
def part_volts(judgement: Judgement) -> Iterator[Finding]:
    """A part that goes by its volts in Value is not on a supply far above them.

    A motor, lamp, fan or buzzer drawn with KiCad's own symbol states no Takes; its Value often says the volts.
    Example: a fan of 5 V across a pack of 4S; a relay of 5 V with its coil on the pack.

    Fix: feed it from a rail of its volts, or take one for this supply.
    Accept: a part whose Value is no voltage of its own.
    Passes: a part of 12 V on 14.4 V; one that states Takes; a Value without volts; ends that no stated supply meets.
    Warns: more than a quarter above the volts in Value or Rating.  The verdict is then "not decided".
    Source: the drawing's own Value; a quarter is common practice, no source.
    """
    craft = judgement.craft
    for part in craft.terminations.values():
        ends = [contact for contact in part.contacts if contact.role.name in LOAD_ENDS or is_coil(craft, contact)]
        volts = read_rating(part.fields, part.value).volts if ends and not part.takes else None
        if volts is None:
            continue
        reached = [(high, words) for high, words in (reach_at(judgement, end) for end in ends) if high is not None]
        high, words = max(reached, default=(0.0, ""))
        if high > volts * ABOVE:
            yield _finding(judgement, part, ends, f"{volts:g} V", f"{words or 'supply'} reaches {high:g} V")


def _finding(judgement: Judgement, part: Termination, ends: list[Contact], made_for: str, reach: str) -> Finding:
    return Finding(
        rule="over-voltage",
        severity=Severity.WARNING,
        message=f"{part.reference} ({part.value}) is made for {made_for}, and the {reach}.",
        fix="Feed it from a rail of its volts, take one for this supply, or state its Takes.",
        where=at_contacts(judgement.craft, ends),
        harm=harm.TOO_MANY_VOLTS,
        undecided=1,
    )
