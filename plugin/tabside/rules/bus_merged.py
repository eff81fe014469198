"""Two buses of one board on one net."""

from __future__ import annotations

from collections.abc import Iterator

from tabside.analysis import harm
from tabside.analysis.causes.tied_outputs import merged_buses
from tabside.analysis.judgement import Judgement
from tabside.analysis.places import at_contacts
from tabside.model.craft import Contact
from tabside.model.findings import Finding, Severity
from tabside.rules.rule import check
from tabside.words.contacts import listed, name_of


@check("role-clash", severity=Severity.ERROR)
def bus_merged(judgement: Judgement) -> Iterator[Finding]:
    """A board's buses of different number stay apart.

    Joined, two controllers clock one bus, and devices of one address answer together: neither bus works.  Example:
    SDA1 and SDA2 of an autopilot on the net of one compass.

    Fix: give each bus a net of its own.
    Accept: where the two names stand for one bus inside the board.
    Passes: one bus at two places of a board, which passes it on; buses of two boards, whose numbers do not matter.
    Fails: SDA1 and SDA2, or I2C1_SCL and I2C2_SCL, of one board on one net.
    Source: common practice, no source.
    """
    craft = judgement.craft
    merged: dict[str, list[tuple[Contact, Contact]]] = {}
    for a, b in merged_buses(judgement):
        merged.setdefault(craft.terminations[a.termination].board, []).append((a, b))
    for board, pairs in merged.items():
        names = [f"{name_of(craft, a)} and {name_of(craft, b)}" for a, b in pairs]
        yield Finding(
            rule="role-clash",
            severity=Severity.ERROR,
            message=f"Two buses of {board} are one net: {listed(names)}.",
            fix="Give each bus a net of its own.",
            where=at_contacts(craft, [contact for pair in pairs for contact in pair]),
            harm=harm.DEAD_LINK,
        )
