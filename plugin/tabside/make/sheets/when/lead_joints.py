"""Where a wire is soldered."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from tabside.analysis.joined.lead_ends import LeadEnd, MadeLead
from tabside.analysis.power_ways import Joint
from tabside.make.needs.cable_jobs import soldered


class LeadJoint(NamedTuple):
    """A wire at one of its ends."""

    made: MadeLead
    end: LeadEnd

    @property
    def mark(self) -> str:
        return self.made.lead.mark

    @property
    def at(self) -> Joint:
        return (self.made.lead.mark, self.end.key[0])


def joints_of(made: MadeLead) -> Iterator[LeadJoint]:
    yield from (LeadJoint(made, end) for end in made.ends if soldered(end))
