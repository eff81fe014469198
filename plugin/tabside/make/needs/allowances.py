"""How long a piece of wire is cut: the lead's length, and at each end that is made here something more.

The lead's length is from contact to contact.  An end that is crimped or soldered here takes the bare conductor that its
maker wants (where no table says it, `Cutting.strip_mm`) and as much again as lets the end be made a second time
(`Cutting.again_mm`).  Nothing is added at an end that has its contact already.
"""

from __future__ import annotations

from tabside.analysis.lead_ends import EndKind, LeadEnd, MadeLead, WireFrom
from tabside.facts import families
from tabside.make.needs.cable_jobs import Want
from tabside.model.stock import Cutting


def end_mm(family: str | None, cutting: Cutting) -> float:
    """What one end takes; `family` None: soldered, or a plug whose strip length no table says."""
    strip = families.family(family).strip_mm if family is not None else None
    return (cutting.strip_mm if strip is None else strip) + cutting.again_mm


def cut_mm(want: Want, ready: str | None, cutting: Cutting) -> float | None:
    """Length to cut for a wanted lead, of which one end of the family `ready` has its contact already; None: not known.

    The same as `piece_mm` says of the lead itself.
    """
    if want.length_mm is None:
        return None
    made_here = list(want.plugs)
    if ready is not None:
        made_here.remove(ready)
    return want.length_mm + sum(end_mm(plug, cutting) for plug in (*made_here, *[None] * (want.joints + want.other)))


def allowance_mm(made: MadeLead, ready: str | None, cutting: Cutting) -> float:
    """What is added to a lead that is cut here; `ready` as in `cut_mm`."""
    ends = [end for end in made.ends if made.wire_from is WireFrom.NEW or end.kind is not EndKind.OWN]
    waiting = ready
    total = 0.0
    for end in ends:
        if waiting is not None and end.kind is EndKind.CONTACT and end.family == waiting:
            waiting = None
        else:
            total += end_mm(_stripped_as(end), cutting)
    return total


def _stripped_as(end: LeadEnd) -> str | None:
    return end.family if end.kind is EndKind.CONTACT else None
