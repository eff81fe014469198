"""What short signs in a document stand for: gauges and lengths."""

from __future__ import annotations

from collections.abc import Iterable

from tabside.facts import wire
from tabside.model.craft import CraftSettings, Lead, SaidBy


def gauge_legend(gauges: Iterable[int | None]) -> tuple[str, ...]:
    """One line with the cross-section of each gauge, thickest first; none when no gauge is known.

    Source: the formula of ASTM B258, for a solid conductor.
    """
    known = sorted({gauge for gauge in gauges if gauge is not None})
    said = [f"{wire.gauge_text(gauge)} AWG {wire.awg_area_mm2(gauge):.3g} mm²" for gauge in known]
    return (f"Conductors: {', '.join(said)} (solid; stranded wire differs a little).",) if said else ()


def length_legend(leads: Iterable[Lead], settings: CraftSettings) -> tuple[str, ...]:
    """One line on lengths that were worked out from the boards' positions; none when all are stated."""
    if not any(lead.length_said_by is SaidBy.POSITIONS for lead in leads):
        return ()
    loop = f"{settings.service_loop_mm:g} mm"
    return (f"Lengths from positions are straight lines plus a service loop of {loop}: measure the real path.",)
