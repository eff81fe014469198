"""Resistors between a rail and a line: what they pull it up to."""

from __future__ import annotations

from collections.abc import Iterator

from msgspec import Struct

from tabside.analysis.joints import letters_of
from tabside.analysis.judgement import Judgement
from tabside.model.craft import Contact, Kind
from tabside.model.roles import RoleClass


class PullUp(Struct, frozen=True):
    resistor: str
    volts: float
    above: tuple[Contact, ...]  # contacts on the line that tolerate less


def pull_ups(judgement: Judgement) -> Iterator[PullUp]:
    """Pull-ups to more volts than a contact on the line tolerates (`Level max`)."""
    runs = judgement.solid_runs  # a line runs on through switches, not through another resistor
    for resistor, a, b in _resistors(judgement):
        for rail, line in ((a, b), (b, a)):
            volts = _rail_volts(judgement, rail, judgement.solid_members.get(runs.get(rail, -1), []))
            on_line = judgement.solid_members.get(runs.get(line, -1), [])
            if volts is None or any(contact.role.is_supply or contact.role.is_ground for contact in on_line):
                continue
            above = [c for c in on_line if c.level_max_v is not None and volts > c.level_max_v + 1e-9]
            if above:
                yield PullUp(resistor, volts, tuple(above))


def _resistors(judgement: Judgement) -> Iterator[tuple[str, int, int]]:
    """Reference and the two nets of each resistor: on the nets, or in a line."""
    for part in judgement.craft.parts:
        if letters_of(part.reference) == "R" and len(part.pins) == 2 and not part.dnp:
            yield part.reference, part.pins[0].net_id, part.pins[1].net_id
    for termination in judgement.craft.terminations.values():
        if termination.kind is Kind.INLINE and letters_of(termination.reference) == "R":
            a, b = termination.contacts
            yield termination.reference, a.net_id, b.net_id


def _rail_volts(judgement: Judgement, net: int, contacts: list[Contact]) -> float | None:
    """The volts that this net surely has, by its contacts or by its name; None when it is no rail of known volts."""
    written = judgement.rail_names.get(net, ())
    if any(contact.role.cls not in (RoleClass.SUPPLY, RoleClass.UNKNOWN) for contact in contacts):
        return None
    volts = [contact.role.volts for contact in (*written, *contacts) if contact.role.is_supply and contact.role.volts]
    return max((each.low for each in volts), default=None)
