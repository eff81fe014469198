"""How each cable is made, as a person follows it: frozen data that plans, pages and drawings share."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum


class Method(StrEnum):
    """How a cable is made, the least work first."""

    DIRECT = "direct"  # a captive plug mates
    PLUG_IN = "plug-in"  # ready-made, as it is
    AS_BOUGHT = "as-bought"  # coax, USB, flat flex: one object, never re-pinned or cut
    RE_PIN = "re-pin"  # contacts moved in a ready-made cable
    RE_HOUSE = "re-house"  # contacts moved over into an empty housing
    ASSEMBLE = "assemble"  # pre-crimped leads into empty housings
    TAIL = "tail"  # a plug on one end, cut and soldered on the other
    SOLDER = "solder"
    CRIMP = "crimp"  # the last resort


@dataclass(frozen=True, slots=True)
class PlugEnd:
    """One end of a cable."""

    board: str
    termination: str
    family: str | None
    ways: int | None

    @property
    def name(self) -> str:
        return f"{self.board}/{self.termination}"


@dataclass(frozen=True, slots=True)
class Cavity:
    """One cavity of a plug and what belongs in it."""

    number: str  # as drawn
    lead: str | None = None  # mark; None: stays empty
    signal: str = ""
    colour: str | None = None  # IEC 60757 code, or as written; None: not known


@dataclass(frozen=True, slots=True)
class PlugRow:
    """A plug's cavities in contact order, before any work and as drawn."""

    end: PlugEnd
    before: tuple[Cavity, ...]  # of the cable that the work starts from; () when it starts from nothing
    after: tuple[Cavity, ...]
    from_left: tuple[int, ...] | None  # place from the left on face `tabs` of each cavity; None: not known
    entry: str | None = None
    tabs: str | None = None
    contact_1: str | None = None


@dataclass(frozen=True, slots=True)
class PlanStep:
    """One thing that the hand does."""

    step: int  # from 1
    action: str  # "take out", "put in", "leave out", "cut", "strip", "solder", "crimp"
    end: str  # "board/termination"
    cavity: str | None  # the number as drawn
    from_mark: int | None  # counted from the mark of contact 1
    from_left: int | None  # on face `tabs`; None when it is not known
    lead: str | None
    colour: str | None
    words: str  # the step as a sentence
    housing: tuple[str | None, ...] | None = None  # lead in each cavity after the step, in contact order
    parked: str | None = None  # the lead that waits outside after the step


@dataclass(frozen=True, slots=True)
class CablePlan:
    """One cable: what it is made from, how, and how to prove it."""

    mark: str  # "C3", or the marks of leads that no plug ties together
    ends: tuple[PlugEnd, ...]
    leads: tuple[str, ...]
    method: Method
    start_from: str | None  # "straight", "reversed", "stock:NAME", None
    material: tuple[str, ...]  # what to take in hand, in words
    steps: tuple[PlanStep, ...]
    rows: tuple[PlugRow, ...]
    needs_one_look: tuple[str, ...]  # what the drawing cannot settle
    first: tuple[str, ...]  # mark, flag and tag; then prove that the starting cable is the kind assumed
    release: tuple[str, ...]  # how to release and seat a contact, with grades
    proof: tuple[str, ...]  # what proves the result
    minutes: float
    cost: float | None  # None: a price is not known
    why: str


@dataclass(frozen=True, slots=True)
class CraftPlan:
    """All cables of a craft."""

    cables: tuple[CablePlan, ...]
    notes: tuple[str, ...] = ()  # what was assumed; how good the choice is
    settings: Mapping[str, str] = field(default_factory=dict)  # figures that the choice rests on, with their sources

    @property
    def minutes(self) -> float:
        return sum(cable.minutes for cable in self.cables)
