"""What the harness weighs."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping

from msgspec import Struct

from tabside.analysis.joined.lead_ends import MadeLead
from tabside.facts import wire
from tabside.words.contacts import counted

COPPER_G_CM3 = 8.96  # density of copper at 20 °C; from memory, as chemical tables print it
INSULATION_G_CM3 = 1.35  # plasticized PVC; common practice, no source


class Mass(Struct, frozen=True):
    """Of all leads whose gauge and length are known, in grams."""

    copper_g: float
    insulation_g: float
    leads: int  # counted
    not_known: int  # leads left out: gauge or length not known
    insulation_unknown: int  # leads whose insulation is left out
    notes: tuple[str, ...]


def harness_mass(leads: Iterable[MadeLead], od_mm: Mapping[str, float]) -> Mass:
    """The mass of all leads; `od_mm` is the diameter over insulation by lead mark, where it is known.

    A conductor counts as a round solid one of its gauge; stranded and tinned wire differs by up to 15 %.
    """
    copper, insulation, weighed, unknown, bare = 0.0, 0.0, 0, 0, 0
    for made in leads:
        lead = made.lead
        size = None if lead.gauge_awg is None else wire.wire_sizes().get(lead.gauge_awg)
        if size is None or lead.length_mm is None:
            unknown += 1
            continue
        weighed += 1
        # mm² times mm is mm³; a thousand of them are a cm³.
        copper += size.area_mm2 * lead.length_mm / 1000 * COPPER_G_CM3
        over = od_mm.get(lead.mark)
        if over is None:
            bare += 1
        else:
            ring_mm2 = max(0.0, math.pi / 4 * over**2 - size.area_mm2)
            insulation += ring_mm2 * lead.length_mm / 1000 * INSULATION_G_CM3
    notes = [f"copper {COPPER_G_CM3:g} g/cm³ (from memory); solid conductors: stranded wire differs by up to 15 %"]
    if weighed > bare:
        notes.append(f"insulation {INSULATION_G_CM3:g} g/cm³ (common practice, no source)")
    if bare:
        notes.append(f"insulation of {counted(bare, 'wire')} not known, left out")
    if unknown:
        notes.append(f"{counted(unknown, 'wire')} left out: gauge or length not known")
    notes.append("without plugs, contacts and solder")
    return Mass(copper, insulation, weighed, unknown, bare, tuple(notes))
