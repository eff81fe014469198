"""Ways to make single leads: whole pre-crimped ones, tails cut from them, wire crimped or soldered here."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import combinations_with_replacement, product

from tabside.analysis.current.contact_ranges import insulation_range
from tabside.facts import colours, contacts, families
from tabside.facts.usual_colours import TAKEN_FOR
from tabside.make.needs.allowances import cut_mm
from tabside.make.needs.cable_jobs import Want, releasable
from tabside.make.options.activities import (
    BuyContacts,
    BuyTails,
    BuyWhole,
    BuyWire,
    CutLead,
    CutWire,
    FinishTail,
    FinishWire,
    OpenWire,
    UseWhole,
)
from tabside.make.options.supply import can_be_had, pieces_of_wire
from tabside.make.options.things import (
    FinishedLead,
    ListedLead,
    ListedWire,
    LooseContact,
    OpenedWire,
    Tail,
    Thing,
    WirePiece,
)
from tabside.make.options.work import PURCHASE, Making, Work, making
from tabside.model.craft import CraftSettings
from tabside.model.stock import Costs, Cutting, StockLead, StockWire

# What comes from stock is free, but the fewest pieces are cut, those with the least left over, and of the usual colour:
# these ties decide only between choices that cost the same.
_PIECE, _OFFCUT, _OTHER_COLOUR = 10.0, 0.01, 1.0


def lead_options(wants: Mapping[Want, int], own: Iterable[str], settings: CraftSettings) -> Iterator[Making]:
    """All activities that could help to make so many of these leads; `own`: families that a part's own leads take."""
    leads = sum(wants.values())
    for want in wants:
        yield from _whole_leads(want, settings)
        yield from _finished_tails(want, settings)
        yield from _finished_wire(want, settings)
        yield from _pieces_of_wire(want, settings, leads)
    yield from _tails(list(wants), settings)
    yield from _opened_wires(settings, leads)
    yield from _contacts([*(family for want in wants for family in want.plugs), *own], settings)


def can_be_made(want: Want) -> bool:
    """Whether new wire and contacts make it: no contact is known to refuse its gauge."""
    return all(can_crimp(family, want.gauge_awg) for family in want.plugs)


def can_crimp(family: str, gauge_awg: int | None) -> bool:
    """Whether a contact of the family may take this gauge; a range that is not known does not forbid it."""
    known = contacts.contact_parts(family)
    return gauge_awg is None or not known or any(part.takes(gauge_awg) is not False for part in known)


def contacts_spent(plugs: Iterable[str], costs: Costs) -> dict[Thing, float]:
    """Contacts that crimping takes, spoiled ones among them."""
    return {
        LooseContact(family): count * costs.spoil_factor(families.family(family).pitch_mm)
        for family, count in Counter(plugs).items()
    }


def _finishing(want: Want, costs: Costs) -> Work:
    """Both ends into their housings, or soldered."""
    inserted = len(want.plugs) + want.other
    return Work(minutes=costs.insert_minutes * inserted + costs.solder_minutes * want.joints)


def _whole_leads(want: Want, settings: CraftSettings) -> Iterator[Making]:
    """Pre-crimped leads that need nothing but their housings."""
    if len(want.plugs) != 2:
        return
    costs, finish = settings.costs, _finishing(want, settings.costs)
    made: dict[Thing, float] = {FinishedLead(want): 1.0}
    for n, piece in enumerate(settings.stock_leads):
        had = can_be_had(settings, ListedLead(n))
        if had and sorted(piece.ends) == list(want.plugs) and _whole_fits(piece, want, costs):
            spare_mm = piece.length_mm - (want.length_mm or piece.length_mm)
            slack = Work(weight=costs.slack_price * spare_mm / 100)
            work = finish + slack + _colour(piece, want, costs)
            yield making(costs, UseWhole(n, want), work, {ListedLead(n): 1.0}, made)
    if _sold(want.plugs, want.gauge_awg, costs):
        yield making(costs, BuyWhole(want), finish + Work(money=costs.lead_price, tie=PURCHASE), {}, made)


def _finished_tails(want: Want, settings: CraftSettings) -> Iterator[Making]:
    """A tail's other end is cut to length, and crimped or soldered."""
    costs = settings.costs
    for family in dict.fromkeys(want.plugs):
        others = _others(want, family)
        if all(can_crimp(other, want.gauge_awg) for other in others):
            tail = Tail(family, want)
            work = Work(minutes=costs.cut_minutes + costs.crimp_minutes * len(others)) + _finishing(want, costs)
            takes = {tail: 1.0, **contacts_spent(others, costs)}
            yield making(costs, FinishTail(tail), work, takes, {FinishedLead(want): 1.0})


def _finished_wire(want: Want, settings: CraftSettings) -> Iterator[Making]:
    costs = settings.costs
    if can_be_made(want):
        crimps = len(want.plugs) + want.other
        work = Work(minutes=costs.cut_minutes * 2 + costs.crimp_minutes * crimps) + _finishing(want, costs)
        takes = {WirePiece(want): 1.0, **contacts_spent(want.plugs, costs)}
        yield making(costs, FinishWire(want), work, takes, {FinishedLead(want): 1.0})


def _others(want: Want, family: str) -> list[str]:
    """Families of its other crimped ends, when one of this family has its contact already."""
    others = list(want.plugs)
    others.remove(family)
    return others


def _sold(plugs: Sequence[str], gauge_awg: int | None, costs: Costs) -> bool:
    """Pre-crimped leads are taken to be on sale with one family on both ends, of a gauge that it takes."""
    return costs.buy_ready and len(set(plugs)) == 1 and releasable(plugs[0]) and can_crimp(plugs[0], gauge_awg)


def _whole_fits(piece: StockLead, want: Want, costs: Costs) -> bool:
    if not _same_wire(piece, want) or want.length_mm is None:
        return False
    return want.length_mm <= piece.length_mm <= want.length_mm + costs.slack_limit_mm


def _same_wire(piece: StockLead | StockWire, want: Want) -> bool:
    """Gauge as drawn, and colour where the drawing says one.  A gauge that the stock does not say fits none.

    Where the drawing says no gauge, a lead that comes with its contacts may do, after one look; wire never does.
    """
    if want.gauge_awg is None and isinstance(piece, StockWire):
        return False
    if want.gauge_awg is not None and piece.gauge_awg != want.gauge_awg:
        return False
    if want.colour is None:
        return True
    return piece.colour is not None and colours.colour_code(piece.colour) == colours.colour_code(want.colour)


def _colour(piece: StockLead | StockWire, want: Want, costs: Costs) -> Work:
    """What another colour than the usual one weighs: a risk where it would be taken for the other pole."""
    if want.usual_colour is None or piece.colour is None:
        return Work()
    code = colours.colour_code(piece.colour)
    if code == TAKEN_FOR.get(want.usual_colour):
        return Work(weight=costs.colour_risk)
    return Work() if code == want.usual_colour else Work(tie=_OTHER_COLOUR)


def _tails(wants: Sequence[Want], settings: CraftSettings) -> Iterator[Making]:
    """A pre-crimped lead gives one tail, or two when both fit into its length."""
    plugged = [want for want in wants if want.plugs]
    for n, piece in enumerate(settings.stock_leads):
        if can_be_had(settings, ListedLead(n)):
            yield from _tails_of_stock(n, piece, plugged, settings)
    yield from _bought_tails(plugged, settings)


def _tails_of_stock(n: int, piece: StockLead, wants: Sequence[Want], settings: CraftSettings) -> Iterator[Making]:
    cutting = settings.cutting
    fits = [want for want in wants if _same_wire(piece, want)]
    first, *second = (
        [Tail(family, want) for want in fits if _can_be_cut(Tail(family, want), piece, cutting)]
        for family in piece.ends
    )
    for tails in _cuts(piece.ends, first, second[0] if second else None):
        used_mm = sum(_cut_length_mm(tail, cutting) for tail in tails)
        if used_mm <= piece.length_mm:
            least = Work(tie=_PIECE + _OFFCUT * (piece.length_mm - used_mm))
            colours_of = sum((_colour(piece, tail.want, settings.costs) for tail in tails), Work())
            yield making(settings.costs, CutLead(n, tails), least + colours_of, {ListedLead(n): 1.0}, _counted(tails))


def _bought_tails(wants: Sequence[Want], settings: CraftSettings) -> Iterator[Making]:
    """A lead with one family on both ends is bought at the length needed; both tails are of one wire."""
    price = Work(money=settings.costs.lead_price, tie=PURCHASE)
    for family in dict.fromkeys(family for want in wants for family in want.plugs):
        fits = [
            Tail(family, want)
            for want in wants
            if family in want.plugs and _sold((family,), want.gauge_awg, settings.costs)
        ]
        for tails in _cuts((family, family), fits, fits):
            if len({(tail.want.gauge_awg, tail.want.colour or tail.want.usual_colour) for tail in tails}) == 1:
                yield making(settings.costs, BuyTails(tails), price, {}, _counted(tails))


def _cuts(ends: Sequence[str], first: Sequence[Tail], second: Sequence[Tail] | None) -> Iterator[tuple[Tail, ...]]:
    """Every single tail, then every pair; `second` None: the lead has a contact on one end only."""
    yield from ((tail,) for tail in dict.fromkeys((*first, *(second or ()))))
    if second is not None:
        yield from combinations_with_replacement(first, 2) if ends[0] == ends[1] else product(first, second)


def _can_be_cut(tail: Tail, piece: StockLead, cutting: Cutting) -> bool:
    """Whether this piece of the stock is long enough, and its wire goes into the contacts of the lead's other ends."""
    if tail.family not in tail.want.plugs:
        return False
    others = _others(tail.want, tail.family)
    gauge_awg = piece.gauge_awg if tail.want.gauge_awg is None else tail.want.gauge_awg
    length_mm = cut_mm(tail.want, tail.family, cutting)
    return (
        length_mm is not None
        and length_mm <= piece.length_mm
        and all(can_crimp(other, gauge_awg) for other in others)
        and _takes_insulation(others, gauge_awg, piece.od_mm)
    )


def _cut_length_mm(tail: Tail, cutting: Cutting) -> float:
    """Of a tail whose length is known."""
    length_mm = cut_mm(tail.want, tail.family, cutting)
    if length_mm is None:
        raise AssertionError(tail)
    return length_mm


def _takes_insulation(plugs: Iterable[str], gauge_awg: int | None, od_mm: float | None) -> bool:
    """Whether contacts that are crimped on here may hold this insulation; what is not known does not forbid it."""
    if od_mm is None or gauge_awg is None:
        return True
    return all(insulation_range(family, gauge_awg).holds(od_mm) for family in plugs)


def _counted(tails: Iterable[Tail]) -> dict[Thing, float]:
    return {tail: float(count) for tail, count in Counter(tails).items()}


def _pieces_of_wire(want: Want, settings: CraftSettings, leads: int) -> Iterator[Making]:
    """Wire bought at the length needed, or cut from the stock's."""
    made: dict[Thing, float] = {WirePiece(want): 1.0}
    length_mm = cut_mm(want, None, settings.cutting)
    price = Work(money=settings.costs.wire_price * (length_mm or 0.0) / 1000, tie=PURCHASE)
    yield making(settings.costs, BuyWire(want), price, {}, made)
    if length_mm is None:
        return
    for n, wire in enumerate(settings.stock_wire):
        fits = _same_wire(wire, want) and _takes_insulation(want.plugs, want.gauge_awg, wire.od_mm)
        if fits and length_mm <= wire.length_mm:
            for piece in range(pieces_of_wire(settings, ListedWire(n), leads)):
                takes: dict[Thing, float] = {OpenedWire(n, piece): length_mm}
                yield making(settings.costs, CutWire(n, piece, want), _colour(wire, want, settings.costs), takes, made)


def _opened_wires(settings: CraftSettings, leads: int) -> Iterator[Making]:
    """A piece of wire that is cut into at all; as few as possible are."""
    for n, wire in enumerate(settings.stock_wire):
        for piece in range(pieces_of_wire(settings, ListedWire(n), leads)):
            makes: dict[Thing, float] = {OpenedWire(n, piece): wire.length_mm}
            # Pieces of one wire are alike: of two that could be cut into, the first is.
            least = Work(tie=_PIECE * (1 + piece / 1000))
            yield making(settings.costs, OpenWire(n, piece), least, {ListedWire(n): 1.0}, makes, most=1)


def _contacts(needed: Iterable[str], settings: CraftSettings) -> Iterator[Making]:
    """Contacts bought by the pack: at the craft file's prices, else one by one at the usual one."""
    for family in dict.fromkeys(needed):
        priced = [(entry.pack, entry.price) for entry in settings.stock_contacts if entry.family == family]
        for pack, price in cheapest(priced) or [(1, settings.costs.contact_price)]:
            work = Work(money=price, tie=PURCHASE)
            yield making(settings.costs, BuyContacts(family, pack), work, {}, {LooseContact(family): float(pack)})


def cheapest(offers: Iterable[tuple[int, float | None]]) -> list[tuple[int, float]]:
    """(pack, price) by pack, the cheapest of each size; entries without a price are not for sale."""
    found: dict[int, float] = {}
    for pack, price in offers:
        if price is not None:
            found[pack] = min(price, found.get(pack, price))
    return sorted(found.items())
