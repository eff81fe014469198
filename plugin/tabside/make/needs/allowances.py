"""How long a piece of wire is cut: the lead's length, and at each end that is made here something more.

The lead's length is from contact to contact.  An end that is crimped or soldered here takes the bare conductor that its
maker wants and as much again as lets the end be made a second time (`Cutting.again_mm`).  Where no table says how much
is bare, the craft file does (`Cutting.strip_mm`), else room is left for it (`room_mm`).  Nothing is added at an end
that has its contact already.
"""

from __future__ import annotations

import math

from tabside.analysis.joined.lead_ends import EndKind, LeadEnd, MadeLead, WireFrom
from tabside.facts import families
from tabside.facts.wire import awg_diameter_mm
from tabside.make.needs.cable_jobs import Want, soldered
from tabside.model.stock import Cutting

_LEAST_MM = 2.0  # common practice, no source
# The longest overlap of a lap joint, in diameters of the wire: NASA-STD-8739.4 [A].  Cups and pads take less.
_DIAMETERS = 6


def room_mm(gauge_awg: int | None) -> float:
    """What the cut length leaves for the bare conductor of a soldered end, in whole mm."""
    return _LEAST_MM if gauge_awg is None else max(_LEAST_MM, math.ceil(_DIAMETERS * awg_diameter_mm(gauge_awg)))


def strip_mm(family: str | None, gauge_awg: int | None, cutting: Cutting) -> float:
    """What of an end is bare, or may be; `family` None: soldered."""
    stated = families.family(family).strip_mm if family is not None else None
    if stated is not None:
        return stated
    if cutting.strip_mm is not None:
        return cutting.strip_mm
    return room_mm(gauge_awg) if family is None else _LEAST_MM


def cut_mm(want: Want, ready: str | None, cutting: Cutting) -> float | None:
    """Length to cut for a wanted lead, of which one end of the family `ready` has its contact already; None: not known.

    The same as `allowance_mm` adds to the lead itself.
    """
    if want.length_mm is None:
        return None
    made_here = list(want.plugs)
    if ready is not None:
        made_here.remove(ready)
    ends = (*made_here, *[None] * want.joints, *[_OTHER] * want.other)
    return want.length_mm + sum(_end_mm(end, want.gauge_awg, cutting) for end in ends)


def allowance_mm(made: MadeLead, ready: str | None, cutting: Cutting) -> float:
    """What is added to a lead that is cut here; `ready` as in `cut_mm`."""
    ends = [end for end in made.ends if made.wire_from is WireFrom.NEW or end.kind is not EndKind.OWN]
    waiting = ready
    total = 0.0
    for end in ends:
        if waiting is not None and end.kind is EndKind.CONTACT and end.family == waiting:
            waiting = None
        else:
            total += _end_mm(_stripped_as(end), made.lead.gauge_awg, cutting)
    return total


_OTHER = ""  # a plug whose strip length no table says


def _end_mm(family: str | None, gauge_awg: int | None, cutting: Cutting) -> float:
    if family == _OTHER:
        return (_LEAST_MM if cutting.strip_mm is None else cutting.strip_mm) + cutting.again_mm
    return strip_mm(family, gauge_awg, cutting) + cutting.again_mm


def _stripped_as(end: LeadEnd) -> str | None:
    if soldered(end):
        return None
    return end.family if end.kind is EndKind.CONTACT and end.family is not None else _OTHER
