"""Ways to make single leads: whole pre-crimped ones, tails cut from them, wire crimped or soldered here.

Each is an activity over resources: `("made", want)` is a finished lead, `("tail", family, want)` a piece with a contact
on one end, `("wire", want)` a piece of wire, `("contact", family)`, `("housing", family, ways)`,
`("spare housing", family, ways)` an empty one of the stock, which only it can be re-housed into, `("lead", n)` the
n-th entry of the stock's leads, `("whole roll", n)` an uncut piece of the n-th wire, `("roll", n, k)` its k-th piece
that is cut into, in mm.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import combinations_with_replacement
from typing import Any

from tabside.analysis.current.contact_ranges import insulation_range
from tabside.facts import colours, contacts, families
from tabside.make.needs.allowances import cut_mm
from tabside.make.needs.shapes import Want, releasable
from tabside.make.options.stock_supply import can_be_had, pieces_of_wire
from tabside.make.options.work import PURCHASE, Work
from tabside.make.solve.assignment import Activity
from tabside.model.craft import CraftSettings
from tabside.model.stock import Costs, StockLead, StockWire

# What comes from stock is free, but the fewest pieces are cut, and those with the least left over: these weights decide
# only between ways that cost the same.
_PIECE, _OFFCUT = 0.01, 1e-5


Amounts = Mapping[Any, float]


@dataclass(frozen=True, slots=True)
class Making:
    """One activity with what it means."""

    activity: Activity
    work: Work


def makings(wants: Mapping[Want, int], own: Iterable[str], settings: CraftSettings) -> Iterator[Making]:
    """All activities that could help to make so many of these leads; `own`: families that a part's own leads take."""
    leads = sum(wants.values())
    for want in wants:
        yield from _leads(want, settings)
        yield from _wire(want, settings, leads)
    yield from _tails(list(wants), settings)
    yield from _rolls(settings, leads)
    yield from _contacts([*(family for want in wants for family in want.plugs), *own], settings)


def can_be_made(want: Want) -> bool:
    """Whether new wire and contacts make it: no contact is known to refuse its gauge."""
    return all(can_crimp(family, want.gauge_awg) for family in want.plugs)


def _making(
    settings: CraftSettings, key: tuple[object, ...], work: Work, takes: Amounts, makes: Amounts, most: int = 10_000
) -> Making:
    return Making(Activity(key, work.cost(settings.costs), dict(takes), dict(makes), most), work)


def _leads(want: Want, settings: CraftSettings) -> Iterator[Making]:
    costs, made = settings.costs, {("made", want): 1.0}
    finish = Work(minutes=costs.insert_minutes * (len(want.plugs) + want.other) + costs.solder_minutes * want.joints)
    if len(want.plugs) == 2:
        for n, piece in enumerate(settings.stock_leads):
            had = can_be_had(settings, "lead", n)
            if sorted(piece.ends) == list(want.plugs) and had and _whole_fits(piece, want, costs):
                slack = Work(weight=costs.slack_price * (piece.length_mm - (want.length_mm or piece.length_mm)) / 100)
                yield _making(settings, ("whole", n, want), finish + slack, {("lead", n): 1.0}, made)
        if _sold(want.plugs, want.gauge_awg, costs):
            yield _making(
                settings, ("buy whole", want), finish + Work(money=costs.lead_price, weight=PURCHASE), {}, made
            )
    cut = Work(minutes=costs.cut_minutes)
    crimp = Work(minutes=costs.crimp_minutes)
    for family in dict.fromkeys(want.plugs):
        others = list(want.plugs)
        others.remove(family)
        if all(can_crimp(each, want.gauge_awg) for each in others):
            takes = {("tail", family, want): 1.0} | spent(others, costs)
            yield _making(settings, ("tail", family, want), finish + cut + crimp.times(len(others)), takes, made)
    if can_be_made(want):
        ends = len(want.plugs) + want.other
        takes = {("wire", want): 1.0} | spent(want.plugs, costs)
        yield _making(settings, ("wire", want), finish + cut.times(2) + crimp.times(ends), takes, made)


def spent(plugs: Iterable[str], costs: Costs) -> dict[tuple[object, ...], float]:
    """Contacts that crimping takes, spoiled ones among them."""
    found: dict[tuple[object, ...], float] = {}
    for family in plugs:
        key = ("contact", family)
        found[key] = found.get(key, 0.0) + costs.spoil_factor(families.family(family).pitch_mm)
    return found


def can_crimp(family: str, gauge_awg: int | None) -> bool:
    """Whether a contact of the family may take this gauge; a range that is not known does not forbid it."""
    known = contacts.contact_parts(family)
    return gauge_awg is None or not known or any(each.takes(gauge_awg) is not False for each in known)


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


def _tails(wants: Sequence[Want], settings: CraftSettings) -> Iterator[Making]:
    """A pre-crimped lead gives one tail, or two when both fit into its length."""
    need = [want for want in wants if want.plugs]
    for n, piece in enumerate(settings.stock_leads):
        if not can_be_had(settings, "lead", n):
            continue
        fit = [want for want in need if _same_wire(piece, want)]
        for wants_cut in _cuts(piece.ends, fit, settings, piece):
            offcut_mm = piece.length_mm - sum(cut_mm(want, end, settings.cutting) or 0.0 for end, want in wants_cut)
            least = Work(weight=_PIECE + _OFFCUT * offcut_mm)
            yield _making(settings, ("cut", n, wants_cut), least, {("lead", n): 1.0}, _made_of(wants_cut))
    price = Work(money=settings.costs.lead_price, weight=PURCHASE)
    for family in dict.fromkeys(family for want in need for family in want.plugs):
        fit = [want for want in need if family in want.plugs and _sold((family,), want.gauge_awg, settings.costs)]
        for pair in _cuts((family, family), fit, settings, None):
            if len({(want.gauge_awg, want.colour) for _, want in pair}) == 1:
                yield _making(settings, ("buy cut", pair), price, {}, _made_of(pair))


def _cuts(
    ends: Sequence[str], fit: Sequence[Want], settings: CraftSettings, piece: StockLead | None
) -> Iterator[tuple[tuple[str, Want], ...]]:
    """Tails (family, want) that one lead gives; `piece` None: it is bought at the length needed."""

    def goes(tail: tuple[str, Want]) -> bool:
        family, want = tail
        others = list(want.plugs)
        if family not in others:
            return False
        others.remove(family)
        if piece is None:
            return True
        gauge_awg = piece.gauge_awg if want.gauge_awg is None else want.gauge_awg
        return (
            all(can_crimp(each, gauge_awg) for each in others)
            and _takes_insulation(others, gauge_awg, piece.od_mm)
            and (length := cut_mm(want, family, settings.cutting)) is not None
            and length <= piece.length_mm
        )

    first = [tail for want in fit if goes(tail := (ends[0], want))]
    second = [tail for want in fit if goes(tail := (ends[1], want))] if len(ends) == 2 else []
    yield from ((tail,) for tail in dict.fromkeys((*first, *second)))
    if len(ends) == 2:
        pairs = (
            combinations_with_replacement(first, 2)
            if ends[0] == ends[1]
            else ((one, other) for one in first for other in second)
        )
        for pair in pairs:
            together = sum(cut_mm(want, family, settings.cutting) or 0.0 for family, want in pair)
            if piece is None or together <= piece.length_mm:
                yield pair


def _takes_insulation(plugs: Iterable[str], gauge_awg: int | None, od_mm: float | None) -> bool:
    """Whether contacts that are crimped on here may hold this insulation; what is not known does not forbid it."""
    if od_mm is None or gauge_awg is None:
        return True
    return all(insulation_range(family, gauge_awg).holds(od_mm) for family in plugs)


def _made_of(tails: Iterable[tuple[str, Want]]) -> dict[tuple[object, ...], float]:
    made: dict[tuple[object, ...], float] = {}
    for family, want in tails:
        made["tail", family, want] = made.get(("tail", family, want), 0.0) + 1.0
    return made


def _wire(want: Want, settings: CraftSettings, leads: int) -> Iterator[Making]:
    made = {("wire", want): 1.0}
    length_mm = cut_mm(want, None, settings.cutting)
    price = Work(money=settings.costs.wire_price * (length_mm or 0.0) / 1000, weight=PURCHASE)
    yield _making(settings, ("buy wire", want), price, {}, made)
    if length_mm is None:
        return
    for n, roll in enumerate(settings.stock_wire):
        fits = _same_wire(roll, want) and _takes_insulation(want.plugs, want.gauge_awg, roll.od_mm)
        if fits and length_mm <= roll.length_mm:
            for k in range(pieces_of_wire(settings, n, leads)):
                yield _making(settings, ("roll", n, k, want), Work(), {("roll", n, k): length_mm}, made)


def _rolls(settings: CraftSettings, leads: int) -> Iterator[Making]:
    """A piece of wire that is cut into at all; as few as possible are."""
    for n, roll in enumerate(settings.stock_wire):
        for k in range(pieces_of_wire(settings, n, leads)):
            takes, makes = {("whole roll", n): 1.0}, {("roll", n, k): roll.length_mm}
            # Pieces of one wire are alike: of two that could be cut into, the first is.
            weight = Work(weight=_PIECE * (1 + k / 1000))
            yield _making(settings, ("open roll", n, k), weight, takes, makes, most=1)


def _contacts(needed: Iterable[str], settings: CraftSettings) -> Iterator[Making]:
    """Contacts bought by the pack: at the craft file's prices, else one by one at the usual one."""
    for family in dict.fromkeys(needed):
        priced = [(each.pack, each.price) for each in settings.stock_contacts if each.family == family]
        for pack, price in cheapest(priced) or [(1, settings.costs.contact_price)]:
            work = Work(money=price, weight=PURCHASE)
            yield _making(settings, ("buy contacts", family, pack), work, {}, {("contact", family): float(pack)})


def cheapest(offers: Iterable[tuple[int, float | None]]) -> list[tuple[int, float]]:
    """(pack, price) by pack, the cheapest of each size; entries without a price are not for sale."""
    found: dict[int, float] = {}
    for pack, price in offers:
        if price is not None:
            found[pack] = min(price, found.get(pack, price))
    return sorted(found.items())
