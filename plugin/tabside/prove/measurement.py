"""One measurement on the bench: where the probes go, when it can be done, and what the meter must say."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator, Mapping
from enum import StrEnum

from msgspec import Struct
from msgspec.structs import replace

from tabside.model.craft import ContactKey, Craft


class Test(StrEnum):
    """What kind of row it is, in a word or two."""

    METER = "meter"
    WIRE = "wire"
    THROUGH = "through splices"
    GROUND = "ground check"
    SOLDERED = "after soldering"
    PART = "in-line part"
    SHORT = "no short"
    VOLTS = "volts"
    LOOK = "look"


class Section(StrEnum):
    """Headings of rows that belong to no cable and to no wires; all others stand under theirs."""

    METER = "The meter itself"
    PARTS = "In-line parts"
    ACROSS = "Parts across wires"
    PLUGGING = "When all is plugged in"
    BEFORE_PACK = "With everything plugged in but the pack"


class At(StrEnum):
    """What kind of place a probe touches."""

    CONTACT = "contact"  # `lead` named: that lead's end, in its plug or soldered; no lead: the board's own contact
    BARE = "bare end"  # of `lead`, made for that contact, before it is soldered
    GROUND = "known ground"  # of `board`: known without this sheet
    PROBE = "probe"  # the other probe


class End(Struct, frozen=True):
    """Where a probe touches."""

    at: At
    board: str = ""
    termination: str = ""
    contact: str = ""
    lead: str | None = None


class RowKind(StrEnum):
    BEEP = "beep"
    VOLTS = "volts"  # red on `where`, black on the one end in `joined`
    LOOK = "look"  # no meter finds it: for the eye


class When(StrEnum):
    """The earliest moment at which a row can be done, in the order of work."""

    METER = "meter"  # before all
    LOOSE = "loose"  # the cable lies loose: nothing plugged in, nothing soldered
    SPLICED = "spliced"  # splices and in-line parts done, fuses in, switches on; no board
    PLUGGED = "plugged"  # one end in its real board, all other ends loose, bare ends not soldered yet
    SOLDERED = "soldered"  # all of its ends soldered, nothing else on these boards
    PART = "part"  # an in-line part by itself
    CRAFT = "craft"  # everything plugged in and soldered, the pack away
    PACK = "pack"  # volts, last


class Measurement(Struct, frozen=True):
    """One row of the continuity sheet: one place of the fixed probe, and all that the other probe visits."""

    group: Section | str  # heading under which it stands
    test: Test
    leads: tuple[str, ...]  # marks
    start: str  # where the fixed probe goes, in words
    end: str  # where the other one goes, in words
    expect: str  # what the meter must say, or the eye see
    limit_ohm: float | None = None  # the most that the lead may have; None: not known
    has_limit: bool = False  # False: a limit does not apply
    notes: tuple[str, ...] = ()  # of volts, the first says when
    id: str = ""  # made of what it measures: the same row has the same id whatever else has changed
    kind: RowKind = RowKind.BEEP
    when: When = When.LOOSE
    cable: str | None = None  # its mark; None for leads that enter no plug, and for what belongs to no cable
    plugged: tuple[str, ...] = ()  # terminations plugged in (of `PLUGGED` rows the first) or soldered by then
    cups: tuple[str, ...] = ()  # places whose loose plug is touched, where wires are soldered into that plug
    where: End = End(At.PROBE)  # of the fixed probe
    joined: tuple[End, ...] = ()  # must beep
    open: tuple[End, ...] = ()  # must not beep
    volts: tuple[float, float] | None = None  # lowest and highest; None: not stated, or no volts are measured
    off: tuple[str, ...] = ()  # switches that are off; those in `plugged` are on else
    meter: str = ""  # how the meter is set, and how long the probes stay
    look_at: str = ""  # the place, where the eye looks and no meter measures
    at_end: str = ""  # of volts, the place of `end` alone

    @property
    def words(self) -> str:
        """The whole row as a person is told it."""
        if self.kind is RowKind.LOOK:
            return f"Look at {self.look_at}: {self.expect}"
        colours = ("Red", "black") if self.kind is RowKind.VOLTS else ("Black", "red")
        text = f"{colours[0]} on {self.start}; {colours[1]} {self.end}: {self.expect}"
        return f"{text} ({self.note})" if self.note else text

    @property
    def note(self) -> str:
        """All notes on one line."""
        return "; ".join(self.notes)

    @property
    def soldered_first(self) -> tuple[str, ...]:
        """Terminations that must be soldered before the row can be done."""
        return (*self.parts_first, *(cup for cup in self.cups if cup not in self.parts_first))

    @property
    def parts_first(self) -> tuple[str, ...]:
        """Of these the splices, in-line parts and pads."""
        return self.plugged[1:] if self.when is When.PLUGGED else self.plugged

    @property
    def ends(self) -> tuple[End, ...]:
        """All places that a probe touches, the fixed one first."""
        return (self.where, *self.joined, *self.open)


def probed(end: End, craft: Craft) -> Iterator[ContactKey]:
    """As `PowerWays` calls it."""
    if end.lead:
        yield ("", end.lead)
    for there in craft.terminations.values() if end.at is At.GROUND else ():
        yield from (contact.key for contact in there.contacts if there.board == end.board and contact.role.is_ground)
    if end.at is not At.GROUND and not end.lead:
        yield (end.termination, end.contact)


def with_id(row: Measurement, wires: Mapping[str, tuple[ContactKey, ContactKey]]) -> Measurement:
    """The row with an id made of what it measures: its places, and where the wires between them end.

    Marks of leads and cables are no part of it.  `wires`: the ends of each lead by its mark.
    """
    parts = [row.kind.value, row.when.value, ",".join(sorted(row.plugged)), _key(row.where)]
    parts += [";".join(sorted(map(_key, row.joined))), ";".join(sorted(map(_key, row.open)))]
    parts += [f"{row.volts}", f"{row.limit_ohm}", row.words if row.kind is RowKind.LOOK else ""]
    parts.append(";".join(sorted(f"{wires[mark]}" for mark in touched_leads(row) if mark in wires)))
    parts += [f"off {','.join(sorted(row.off))}"] if row.off else []
    return replace(row, id="m" + hashlib.sha256("|".join(parts).encode()).hexdigest()[:10])


def _key(end: End) -> str:
    return f"{end.at.value}/{end.board}/{end.termination}/{end.contact}"


def touched_leads(row: Measurement) -> set[str]:
    """Leads that a row depends on: that conduct in it, or are touched."""
    return {*row.leads, *(end.lead for end in row.ends if end.lead)}
