"""Plugs that parts bring along and that go in where they are drawn, but in another order of contacts."""

from __future__ import annotations

from tabside.analysis.joined.lead_ends import EndKind, WireFrom
from tabside.analysis.joined.part_plugs import is_live
from tabside.make.needs.cable_jobs import CableJob, releasable
from tabside.model.craft import Craft


def why_not_moved(job: CableJob, craft: Craft) -> str:
    """Why the part's own plug, which is in another order, cannot be put right; "" when nothing is wrong."""
    own = own_plug(job, craft)
    if own is None:
        return ""
    part, there = own
    if is_live(craft, craft.terminations[part]):
        return (
            f"the plug of {part} is live and in another order than {there}: never re-pin it; change the drawing, or "
            f"the board connector {there}"
        )
    if {part, there} & craft.settings.bench.never_at:
        return (
            f"the plug of {part} is in another order than {there}, and the craft file wants it left as it is (never_at)"
        )
    numbers = [key[1] for made in job.leads for key in made.lead.ends]
    if not releasable(craft.terminations[part].family) or not all(number.isdecimal() for number in numbers):
        return f"the plug of {part} is in another order than {there}, and its contacts cannot be moved: another plug"
    return ""


def own_plug(job: CableJob, craft: Craft) -> tuple[str, str] | None:
    """(part, receptacle) when the part's own plug mates but in another order."""
    if len(job.terminations) != 2 or any(made.wire_from is not WireFrom.CAPTIVE for made in job.leads):
        return None
    if not all(EndKind.MATED in {end.kind for end in made.ends} for made in job.leads):
        return None
    if all(made.lead.a[1] == made.lead.b[1] for made in job.leads):
        return None
    own = (
        next(end.key[0] for end in job.leads[0].ends if end.kind is not EndKind.MATED)
        if any(end.kind is EndKind.OWN for end in job.leads[0].ends)
        else job.terminations[0]
    )
    return own, next(reference for reference in job.terminations if reference != own)
