"""What has to be made: each cable, or the loose leads of one link, and what each of its leads wants."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from msgspec import Struct

from tabside.analysis.joined.lead_ends import EndKind, LeadEnd, MadeLead, WireFrom, soldered_into_plug
from tabside.facts import families
from tabside.model.craft import Craft, Termination

BARE = (EndKind.PAD, EndKind.SPLICE, EndKind.INLINE, EndKind.CUP)  # soldered


class Want(Struct, frozen=True):
    """What a lead of new wire must be; leads that want the same can change places."""

    plugs: tuple[str, ...]  # families of its crimped ends, sorted
    joints: int  # soldered ends
    other: int  # ends of plugs whose family is not known, or that nobody can crimp here
    gauge_awg: int | None
    colour: str | None
    length_mm: float | None
    usual_colour: str | None = None  # where the drawing states none


class CableJob(Struct, frozen=True):
    """A cable, or the loose leads of one link."""

    mark: str | None
    label: str
    leads: tuple[MadeLead, ...]
    terminations: tuple[str, ...]

    @property
    def new(self) -> tuple[MadeLead, ...]:
        return tuple(made for made in self.leads if made.wire_from is WireFrom.NEW)

    def end_at(self, made: MadeLead, termination: str) -> LeadEnd | None:
        return next((end for end in made.ends if end.key[0] == termination), None)

    def plugs(self, craft: Craft) -> tuple[tuple[str | None, int | None], ...]:
        """Family and ways of what it meets at each end."""
        ends = (craft.terminations[reference] for reference in self.terminations)
        return tuple((end.family, end.ways) for end in ends)

    @property
    def path_mm(self) -> float | None:
        """The longest of its leads' lengths; None when one is not known."""
        lengths = [made.lead.length_mm for made in self.leads]
        return None if None in lengths else max(length for length in lengths if length is not None)


def cable_jobs(craft: Craft, leads: Iterable[MadeLead]) -> tuple[CableJob, ...]:
    """Cables in mark order, then the loose leads by link."""
    made = {lead.lead.mark: lead for lead in leads}
    return tuple(_jobs(craft, made))


def _jobs(craft: Craft, made: dict[str, MadeLead]) -> Iterator[CableJob]:
    for cable in craft.cables:
        yield CableJob(cable.mark, cable.mark, tuple(made[mark] for mark in cable.leads), cable.ends)
    for link in craft.links:
        loose = tuple(made[lead.mark] for lead in link.leads if lead.cable is None)
        if loose:
            yield CableJob(None, " ".join(lead.lead.mark for lead in loose), loose, link.ends)


def soldered(end: LeadEnd) -> bool:
    """Whether this end is soldered: to copper, or into a plug with cups, which the mate of such a plug has, too."""
    return end.kind in BARE or soldered_into_plug(end)


def want_of(made: MadeLead) -> Want:
    return Want(
        plugs=tuple(sorted(end.family or "" for end in made.ends if end.kind is EndKind.CONTACT)),
        joints=sum(soldered(end) for end in made.ends),
        other=sum(end.kind is not EndKind.CONTACT and not soldered(end) for end in made.ends),
        gauge_awg=made.lead.gauge_awg,
        colour=made.lead.colour,
        length_mm=made.lead.length_mm,
        usual_colour=made.lead.usual_colour,
    )


def plug_pairs(job: CableJob, craft: Craft) -> tuple[tuple[int, int], ...] | None:
    """The drawn pairs of cavities, in lead order, when it is one cable with a plug on each of two ends; else None.

    Only plugs of one row with numbered cavities: how two rows are numbered is not known.
    """
    if len(job.terminations) != 2 or job.mark is None or len(job.new) != len(job.leads):
        return None
    first, second = (craft.terminations[reference] for reference in job.terminations)
    pairs = []
    for made in job.leads:
        cavities = (_numbered_cavity(job, made, first), _numbered_cavity(job, made, second))
        if cavities[0] is None or cavities[1] is None:
            return None
        pairs.append((cavities[0], cavities[1]))
    return tuple(pairs)


def _numbered_cavity(job: CableJob, made: MadeLead, met: Termination) -> int | None:
    """Where the lead sits in a plug of one row."""
    end = job.end_at(made, met.reference)
    if end is None or end.kind not in (EndKind.CONTACT, EndKind.SLOT) or met.ways is None or met.rows != 1:
        return None
    return int(end.key[1]) if end.key[1].isdecimal() and 1 <= int(end.key[1]) <= met.ways else None


def releasable(family: str | None) -> bool:
    """Whether contacts of this family can be taken out of their housing and put back; not known is no."""
    return family is not None and families.family(family).crimped
