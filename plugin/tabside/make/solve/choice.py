"""What is chosen: how each cable, or the loose leads of a link, is made."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from enum import Enum

from msgspec import Struct, field

from tabside.make.assignment import Assignment
from tabside.make.needs.cable_jobs import CableJob
from tabside.make.options.activities import Buy, Deed
from tabside.make.options.ready_cables import ReadyWay
from tabside.make.options.things import Thing
from tabside.make.options.work import Work
from tabside.make.solve.handing_out import LeadSource


class Otherwise(Enum):
    """How a cable is made when not from a ready-made one."""

    LEAD_BY_LEAD = "lead by lead"
    STOPPED = "not made"
    OWN_LEADS = "a part's own leads"


Way = ReadyWay | Otherwise
Solved = Assignment[Way, Deed, Thing]


class CableChoice(Struct, frozen=True):
    """How one cable, or the loose leads of one link, is made."""

    job: CableJob
    ready: ReadyWay | None  # None: lead by lead, or nothing to choose
    work: Work
    sources: Mapping[str, LeadSource] = field(default_factory=dict)  # by lead mark
    housings: tuple[tuple[str, int], ...] = ()  # empty ones that it takes: (family, ways)
    bought: bool = False  # the ready-made cable is bought, whether the stock's list names it or not
    stopped: tuple[str, ...] = ()  # leads that nothing makes; then none of it is made
    not_used: tuple[str, ...] = ()  # why cables that are kept for this place are not used


class CraftChoice(Struct, frozen=True):
    """How everything is made."""

    cables: tuple[CableChoice, ...]
    solved: Solved
    bought: Mapping[Buy, int]  # what is bought, and how often
    work: Mapping[Deed, Work]  # of one of each activity
    makes: Mapping[Deed, Mapping[Thing, float]]  # what one of each activity makes
    cut_mm: Mapping[str, float | None]  # by lead mark: the length to cut it to; None: not known
    allowance_mm: Mapping[str, float]  # what of it is no part of the lead's length

    def sources(self) -> Iterator[tuple[str, LeadSource]]:
        """What each lead that is made singly is made of, by its mark."""
        for cable in self.cables:
            yield from cable.sources.items()
