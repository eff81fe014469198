"""Part numbers of housings, plugs and contacts, with their sources."""

from __future__ import annotations

from collections.abc import Iterable

from tabside.analysis.joined.lead_ends import EndKind
from tabside.facts import contacts, families
from tabside.facts.contacts import CrimpContact
from tabside.make.buy.purchase import NOT_KNOWN


def housing_number(kind: EndKind, family: str | None, ways: int | None, rows: int) -> tuple[str, str, str]:
    """Part number, its source, and a note."""
    if family is None:
        return NOT_KNOWN, "", "the drawing does not say the family"
    if kind is EndKind.MATE:
        return NOT_KNOWN, "", "takes the plug that the part brings along, which is not cut off; with its contacts"
    if ways is None or kind is not EndKind.CONTACT:
        return NOT_KNOWN, "", ""
    part = families.housing_part(family, ways, rows)
    if part is None:
        return NOT_KNOWN, "", ""
    if not part.complete:
        note = f"series {part.number}; the number for {ways} ways is not known"
        return NOT_KNOWN, part.source.words, "; ".join(filter(None, (note, part.note)))
    return part.number, part.source.words, part.note


def contact_choice(family: str, gauge: int | None) -> tuple[str, str, str]:
    """Part number, its source, and a note: one contact where only one may do, else all that may, with their ranges."""
    known = contacts.contact_parts(family)
    if not known:
        return NOT_KNOWN, "", ""
    may = known if gauge is None else [part for part in known if part.takes(gauge) is not False]
    if not may:
        return NOT_KNOWN, "", f"none of these takes {gauge} AWG: {_ranges(known)}"
    source = "; ".join(dict.fromkeys(part.source.words for part in may))
    sure = gauge is not None and may[0].takes(gauge)
    if len(may) == 1 and sure:
        return may[0].number, source, ""
    note = f"{_ranges(may)}; {'choose one' if len(may) > 1 else 'check the wire'}"
    if gauge is None:
        note += ": the gauge of the wire is not known"
    return " or ".join(part.number for part in may), source, note


def _ranges(parts: Iterable[CrimpContact]) -> str:
    return ", ".join(f"{part.number} ({_range(part)})" for part in parts)


def _range(part: CrimpContact) -> str:
    gender = f"{part.gender}, " if part.gender == "male" else ""
    if part.thickest_awg is None or part.thinnest_awg is None:
        return f"{gender}range not known"
    insulation = ""
    if part.od_min_mm is not None and part.od_max_mm is not None:
        insulation = f", insulation {part.od_min_mm:g} to {part.od_max_mm:g} mm"
    return f"{gender}{part.thickest_awg} to {part.thinnest_awg} AWG{insulation}"
