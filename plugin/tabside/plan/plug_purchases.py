"""Housings, plugs and contacts to buy."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from ..facts import contacts, families
from ..facts.contacts import CrimpContact
from ..model.craft import Craft, Kind
from .lead_ends import EndKind, LeadEnd, WireFrom
from .purchase import NOT_KNOWN, Purchase, place_of
from .stock_use import StockUse
from .wire_purchases import when_crimped

_PLUG_WORDS = {
    EndKind.PLUG: "plug",
    EndKind.CONTACT: "housing",
    EndKind.CUP: "plug, leads soldered in",
    EndKind.SLOT: "plug, insulation displacement",
    EndKind.MATE: "mating plug",
}


def plugs(craft: Craft, stock: StockUse) -> Iterator[Purchase]:
    """Housings and plugs, by family and ways, for each receptacle that a lead to be made goes to."""
    used: dict[tuple[EndKind, str | None, int | None, int], dict[str, None]] = {}
    for end in _ends_to_make(stock):
        if end.kind in _PLUG_WORDS:
            met = craft.terminations[end.key[0]]
            places = used.setdefault((end.kind, end.family, end.ways, met.rows), {})
            # An in-line part has a plug of its own for each side.
            place = f"{place_of(met)}:{end.key[1]}" if met.kind is Kind.INLINE else place_of(met)
            places[place] = None
    for (kind, family, ways, rows), places in sorted(used.items(), key=lambda item: _plug_order(*item[0])):
        number, source, note = housing_number(kind, family, ways, rows)
        yield Purchase(
            item=_PLUG_WORDS[kind],
            part_number=number,
            family=family,
            ways=ways,
            quantity=len(places),
            used_for=tuple(places),
            source=source,
            note=note,
        )


def _ends_to_make(stock: StockUse) -> Iterator[LeadEnd]:
    """Ends of leads that no stock serves, those of a captive part's own leads among them."""
    for made in stock.leads:
        if made.lead.mark not in stock.taken and made.wire_from is not WireFrom.MADE:
            yield from made.ends


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
        return NOT_KNOWN, part.source.text, "; ".join(filter(None, (note, part.note)))
    return part.number, part.source.text, part.note


def crimped_contacts(craft: Craft, stock: StockUse) -> Iterator[Purchase]:
    """Contacts, by family and gauge, one for each end that is crimped."""
    used: dict[tuple[str, int | None, str], list[str]] = {}
    for made in stock.leads:
        if made.lead.mark in stock.taken or made.wire_from is WireFrom.MADE:
            continue
        for end in made.ends:
            if end.kind is EndKind.CONTACT and end.family is not None:
                key = (end.family, made.lead.gauge_awg, when_crimped(made))
                used.setdefault(key, []).append(place_of(craft.terminations[end.key[0]]))
    for (family, gauge, when), places in sorted(used.items(), key=lambda item: _contact_order(*item[0])):
        number, source, note = contact_choice(family, gauge)
        yield Purchase(
            item="contact",
            part_number=number,
            family=family,
            gauge_awg=gauge,
            quantity=len(places),
            when=when,
            used_for=_counted(places),
            source=source,
            note=note,
        )


def contact_choice(family: str, gauge: int | None) -> tuple[str, str, str]:
    """Part number, its source, and a note: one contact where only one may do, else all that may, with their ranges."""
    known = contacts.contact_parts(family)
    if not known:
        return NOT_KNOWN, "", ""
    may = known if gauge is None else [each for each in known if each.takes(gauge) is not False]
    if not may:
        return NOT_KNOWN, "", f"none of these takes {gauge} AWG: {_ranges(known)}"
    source = "; ".join(dict.fromkeys(each.source.text for each in may))
    sure = gauge is not None and may[0].takes(gauge)
    if len(may) == 1 and sure:
        return may[0].number, source, ""
    note = f"{_ranges(may)}; {'choose one' if len(may) > 1 else 'check the wire'}"
    if gauge is None:
        note += ": the gauge of the lead is not known"
    return " or ".join(each.number for each in may), source, note


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


def _counted(places: Iterable[str]) -> tuple[str, ...]:
    """Each place once, with how often it came: "pilot/J1 (6)"."""
    counts: dict[str, int] = {}
    for place in places:
        counts[place] = counts.get(place, 0) + 1
    return tuple(f"{place} ({count})" for place, count in counts.items())


def _plug_order(kind: EndKind, family: str | None, ways: int | None, rows: int) -> tuple[object, ...]:
    return (list(_PLUG_WORDS).index(kind), family or "", ways is None, ways or 0, rows)


def _contact_order(family: str, gauge: int | None, when: str) -> tuple[object, ...]:
    return (family, gauge is None, gauge or 0, when)
