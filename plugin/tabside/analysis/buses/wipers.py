"""Potentiometers: what stands at their wiper when they are turned to an end, and what they short there."""

from __future__ import annotations

from collections.abc import Iterator

from msgspec import Struct

from tabside.analysis.current.parts_on_rails import reach_at
from tabside.analysis.judgement import Judgement
from tabside.analysis.judging.judged_joints import LOGIC_V
from tabside.analysis.meeting.agreement import WIPER
from tabside.model.craft import Contact, Termination


class TurnedUp(Struct, frozen=True):
    """Inputs that get more volts than they stand when a potentiometer is turned up."""

    wiper: Contact
    volts: float
    above: tuple[Contact, ...]
    sure: bool  # the inputs state what they stand


class ShortAtEnd(Struct, frozen=True):
    """A potentiometer between a supply and ground by its wiper and an end."""

    wiper: Contact
    end: Contact
    supply: Contact


def turned_up(judgement: Judgement) -> Iterator[TurnedUp]:
    """Wipers that reach more volts than an input on their line stands."""
    for wiper, ends in _potentiometers(judgement):
        if any(end.net_id == wiper.net_id for end in ends):
            continue  # a variable resistor of two leads
        line = judgement.on_solid_run(wiper.net_id)
        if any(contact.role.is_supply or contact.role.is_ground for contact in line):
            continue
        volts = max((_volts(judgement, end) for end in ends), default=0.0)
        inputs = [contact for contact in line if contact.termination != wiper.termination]
        over = [c for c in inputs if c.level_max_v is not None and volts > c.level_max_v + 1e-9]
        silent = [c for c in inputs if c.level_max_v is None and c.role.judged and volts > LOGIC_V]
        if over or silent:
            yield TurnedUp(wiper, volts, tuple(over or silent), bool(over))


def shorts_at_an_end(judgement: Judgement) -> Iterator[ShortAtEnd]:
    """Potentiometers whose wiper stands on one rail while an end stands on the other."""
    for wiper, ends in _potentiometers(judgement):
        for end in ends:
            for one, other in ((wiper, end), (end, wiper)):
                supply = _supply(judgement, one)
                if supply is not None and any(contact.role.is_ground for contact in _beside(judgement, other)):
                    yield ShortAtEnd(wiper, end, supply)


def _potentiometers(judgement: Judgement) -> Iterator[tuple[Contact, list[Contact]]]:
    """Each wiper with the other contacts of its part."""
    for part in judgement.ends:
        for contact in part.contacts:
            if contact.role.name == WIPER:
                yield contact, _ends(part, contact)


def _ends(part: Termination, wiper: Contact) -> list[Contact]:
    return [contact for contact in part.contacts if contact is not wiper]


def _beside(judgement: Judgement, contact: Contact) -> list[Contact]:
    return [other for other in judgement.on_solid_run(contact.net_id) if other.termination != contact.termination]


def _supply(judgement: Judgement, contact: Contact) -> Contact | None:
    return next((other for other in _beside(judgement, contact) if other.role.is_supply), None)


def _volts(judgement: Judgement, end: Contact) -> float:
    """What stands at an end: by what feeds it, else by its own name."""
    supply = _supply(judgement, end)
    reach = reach_at(judgement, supply)[0] if supply is not None else None
    own = end.role.volts.high if end.role.is_supply and end.role.volts is not None else 0.0
    return own if reach is None else reach
