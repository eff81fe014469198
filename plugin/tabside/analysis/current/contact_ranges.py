"""What wire the crimp contacts of a family are made for, with how far that is known."""

from __future__ import annotations

from collections.abc import Iterable
from functools import cache

from msgspec import Struct

from tabside.model.craft import Kind, Termination


class Range(Struct, frozen=True):
    """Spans that a contact of the family is made for; a value inside any of them fits.  No span: nothing is known."""

    spans: tuple[tuple[float, float], ...]
    words: str  # "32 to 28 AWG (read in the document)"
    hard: bool  # known well enough for an error

    def holds(self, value: float) -> bool:
        return not self.spans or any(low - 1e-9 <= value <= high + 1e-9 for low, high in self.spans)


_NOT_KNOWN = Range((), "not known", hard=False)


@cache
def gauge_range(family_id: str) -> Range:
    """Gauges in AWG.  A family that states a range without telling its contacts apart has that one."""
    from tabside.facts.contacts import contact_parts
    from tabside.facts.families import family

    known = family(family_id)
    found = [
        ((float(part.thickest_awg), float(part.thinnest_awg)), part.source)
        for part in contact_parts(family_id)
        if part.thickest_awg is not None and part.thinnest_awg is not None
    ]
    if known.thickest_awg is not None and known.thinnest_awg is not None:
        found.append(((float(known.thickest_awg), float(known.thinnest_awg)), known.wire_source))
    if not found:
        return _NOT_KNOWN
    spans = [span for span, _ in found]
    thinnest, thickest = max(span[1] for span in spans), min(span[0] for span in spans)
    sources = [source for _, source in found]
    return Range(
        tuple(spans),
        f"{thinnest:g} to {thickest:g} AWG ({_grades(source.grade_for('AWG').words for source in sources)})",
        hard=all(source.is_hard_for("AWG") for source in sources),
    )


@cache
def insulation_range(family_id: str, gauge_awg: int) -> Range:
    """Diameters over the insulation in mm, of the contacts that take this gauge, else of the family."""
    from tabside.facts.contacts import contact_parts
    from tabside.facts.families import family

    known = family(family_id)
    parts = [part for part in contact_parts(family_id) if part.takes(gauge_awg)]
    stated = [part for part in parts if part.od_max_mm is not None]
    if parts and len(stated) < len(parts):
        return _NOT_KNOWN  # another contact may take it
    if stated:
        spans = [(part.od_min_mm or 0.0, part.od_max_mm or 0.0) for part in stated]
        sources = [part.source for part in stated]
    elif known.od_max_mm is not None:
        spans, sources = [(known.od_min_mm or 0.0, known.od_max_mm)], [known.wire_source]
    else:
        return _NOT_KNOWN
    low, high = min(span[0] for span in spans), max(span[1] for span in spans)
    size = f"{low:g} to {high:g} mm" if low else f"at most {high:g} mm"
    return Range(
        tuple(spans),
        f"{size} over the insulation ({_grades(source.grade_for('OD').words for source in sources)})",
        hard=all(source.is_hard_for("OD") for source in sources),
    )


def crimped_family(here: Termination, there: Termination) -> str | None:
    """The family whose contact the builder crimps on this end of a lead; None where none is crimped, or unknown."""
    if here.family is None or here.kind not in (Kind.RECEPTACLE, Kind.INLINE):
        return None
    from tabside.facts.families import family
    from tabside.facts.mating import mate

    if there.kind is Kind.CAPTIVE and there.family is not None and mate(there.family, here.family):
        return None  # the part brings its plug

    known = family(here.family)
    if known.one_object or known.retention in ("solder_cup", "idc_slot", "solder"):
        return None
    return known.id


def _grades(words: Iterable[str]) -> str:
    return ", ".join(dict.fromkeys(words))
