"""Which leads the stock serves as it lies there, without a choice to make.

Only what plainly fits is taken: a cable whose cavities are joined exactly as drawn, a pre-crimped lead of the same
families, gauge and colour that is long enough and not far too long.  A cable that only may fit is left to the builder
and said in a note.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from ..facts import colours
from ..model.craft import Cable, Craft, Lead, Link, StockCable, StockLead
from .gauges import CHOSEN
from .lead_ends import EndKind, LeadEnd, MadeLead, WireFrom, how_leads_are_made

_LONGEST = 2  # a lead used as it is may be twice as long as its path: no long loops; common practice, no source


@dataclass(frozen=True, slots=True)
class FromStock:
    """What of the stock a lead is taken from."""

    text: str  # as named in the craft file, or in words
    length_mm: float | None
    cut: bool  # it is cut to length and stripped at one end; False: used as it is
    cable: StockCable | None = None
    lead: StockLead | None = None


@dataclass(frozen=True, slots=True)
class StockUse:
    """What the stock gives this craft."""

    leads: tuple[MadeLead, ...]  # all leads of the craft, in mark order
    taken: Mapping[str, FromStock] = field(default_factory=dict)  # by lead mark
    notes: tuple[str, ...] = ()  # what may fit, and why it was not taken


def use_stock(craft: Craft) -> StockUse:
    """The leads that stock serves: whole cables first, then single pre-crimped leads, the longest first."""
    made = how_leads_are_made(craft)
    by_mark = {each.lead.mark: each for each in made}
    taken: dict[str, FromStock] = {}
    notes: list[str] = []
    left = [cable.count for cable in craft.settings.stock_cables]
    if craft.settings.stock_cables:
        cables = {cable.mark: cable for cable in craft.cables}
        for link in craft.links:
            if _is_whole_cable(link, by_mark, cables):
                _take_cable(craft, link, left, taken, notes)
    free = [each for each in made if each.wire_from is WireFrom.NEW and each.lead.mark not in taken]
    _take_leads(craft.settings.stock_leads, free, taken)
    return StockUse(made, taken, tuple(notes))


def _take_cable(craft: Craft, link: Link, left: list[int], taken: dict[str, FromStock], notes: list[str]) -> None:
    for position, cable in enumerate(craft.settings.stock_cables):
        if not left[position] or not _joins_as_drawn(craft, link, cable):
            continue
        doubt = _doubt(link, cable)
        if doubt:
            ends = " and ".join(link.ends)
            notes.append(f'Stock cable "{cable.name}" joins {ends} as drawn, but {doubt}: not counted.')
            continue
        left[position] -= 1
        for lead in link.leads:
            taken[lead.mark] = FromStock(cable.name, cable.length_mm, cut=False, cable=cable)
        return


def _is_whole_cable(link: Link, by_mark: Mapping[str, MadeLead], cables: Mapping[str, Cable]) -> bool:
    """A plug on both ends, and no lead of either plug goes elsewhere."""
    ends = [end for lead in link.leads for end in by_mark[lead.mark].ends]
    plugs = (EndKind.CONTACT, EndKind.SLOT, EndKind.MADE)
    cable = cables.get(link.leads[0].cable or "")
    marks = {lead.mark for lead in link.leads}
    return all(end.kind in plugs for end in ends) and cable is not None and set(cable.leads) == marks


def _joins_as_drawn(craft: Craft, link: Link, cable: StockCable) -> bool:
    """Same families and cavities, and exactly the drawn pairs of cavities, with the cable either way round."""
    a, b = (craft.terminations[reference] for reference in link.ends)
    drawn = {tuple(lead.a[1] if lead.a[0] == end else lead.b[1] for end in link.ends) for lead in link.leads}
    there = {(str(m), str(n)) for m, n in cable.map}
    ends = ((a.family, a.ways), (b.family, b.ways))
    return (ends == cable.ends and drawn == there) or (ends == cable.ends[::-1] and drawn == {(n, m) for m, n in there})


def _doubt(link: Link, cable: StockCable) -> str:
    """Why a cable that joins the right cavities may still not do; "" when nothing speaks against it."""
    lengths = [lead.length_mm for lead in link.leads]
    if cable.length_mm is None or None in lengths:
        return "whether it is long enough is not known"
    if any(length is not None and length > cable.length_mm for length in lengths):
        return "it is too short"
    if any(lead.gauge_awg is not None and lead.gauge_said_by != CHOSEN for lead in link.leads):
        return "the stock does not say its gauge"
    if any(lead.colour is not None for lead in link.leads):
        return "the stock does not say its colours"
    return ""


def _take_leads(stock: Sequence[StockLead], free: Sequence[MadeLead], taken: dict[str, FromStock]) -> None:
    left = [lead.count for lead in stock]
    # Long leads have the fewest pieces that do, and each takes the shortest that does.
    for made in sorted(free, key=lambda each: -(each.lead.length_mm or 0.0)):
        fits = [n for n, piece in enumerate(stock) if left[n] and _lead_fits(piece, made)]
        if fits:
            best = min(fits, key=lambda n: (stock[n].length_mm, n))
            left[best] -= 1
            taken[made.lead.mark] = _from_stock_lead(stock[best], made)


def _lead_fits(piece: StockLead, made: MadeLead) -> bool:
    lead, plugs = made.lead, _crimped(made)
    if lead.length_mm is None or piece.length_mm < lead.length_mm:
        return False
    if lead.gauge_awg is None or piece.gauge_awg != lead.gauge_awg or not _same_colour(lead, piece):
        return False
    if len(plugs) == 2:
        if piece.length_mm > _LONGEST * lead.length_mm:
            return False
        return sorted(piece.ends) == sorted(end.family or "" for end in plugs)
    return len(plugs) == 1 and plugs[0].family in piece.ends and all(_is_free(end) for end in made.ends)


def _crimped(made: MadeLead) -> list[LeadEnd]:
    return [end for end in made.ends if end.kind is EndKind.CONTACT]


def _is_free(end: LeadEnd) -> bool:
    """Crimped already, or bare: cut, stripped and soldered."""
    return end.kind in (EndKind.CONTACT, EndKind.PAD, EndKind.SPLICE, EndKind.INLINE, EndKind.CUP)


def _same_colour(lead: Lead, piece: StockLead) -> bool:
    if lead.colour is None:
        return True
    return piece.colour is not None and colours.colour_code(piece.colour) == colours.colour_code(lead.colour)


def _from_stock_lead(piece: StockLead, made: MadeLead) -> FromStock:
    ends = " - ".join(piece.ends)
    what = " ".join(part for part in (ends, f"{piece.length_mm:g} mm", piece.colour or "") if part)
    return FromStock(f"pre-crimped {what}", piece.length_mm, cut=len(_crimped(made)) == 1, lead=piece)
