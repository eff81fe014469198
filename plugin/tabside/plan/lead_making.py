"""Ways to make single leads: whole pre-crimped ones, tails cut from them, wire crimped or soldered here.

Each is an activity over resources: `("made", want)` is a finished lead, `("tail", family, want)` a piece with a contact
on one end, `("wire", want)` a piece of wire, `("contact", family)`, `("housing", family, ways)`,
`("spare housing", family, ways)` an empty one of the stock, which only it can be re-housed into, `("lead", n)` the
n-th entry of the stock's leads, `("roll", n, k)` the k-th piece of the n-th wire, in mm.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations_with_replacement

from ..facts import colours, contacts, families
from ..model.craft import CraftSettings, StockLead
from ..model.stock import Costs, StockWire
from .assignment import Activity
from .shapes import Want, releasable
from .work import Work

STOPPED_COST = 1e5
_MOST_ROLLS = 20  # pieces of one wire that are told apart
# What comes from stock is free, but the fewest pieces are cut, and those with the least left over: these weights decide
# only between ways that cost the same.
_PIECE, _OFFCUT = 0.01, 1e-5


@dataclass(frozen=True, slots=True)
class Making:
    """One activity with what it means."""

    activity: Activity
    work: Work


def makings(wants: Sequence[Want], settings: CraftSettings) -> Iterator[Making]:
    """All activities that could help to make these leads."""
    for want in wants:
        # So that a lead which nothing makes stops its own cable, not the whole plan.
        stopped = Activity(("stopped", want), STOPPED_COST, {}, {("made", want): 1.0})
        yield Making(stopped, Work())
        yield from _leads(want, settings)
        yield from _wire(want, settings)
    yield from _tails(wants, settings)
    yield from _rolls(settings)
    yield from _contacts(wants, settings)


def _making(settings: CraftSettings, key: tuple[object, ...], work: Work, takes: object, makes: object) -> Making:
    return Making(Activity(key, work.cost(settings.costs), dict(takes), dict(makes)), work)  # type: ignore[call-overload]


def _leads(want: Want, settings: CraftSettings) -> Iterator[Making]:
    costs, made = settings.costs, {("made", want): 1.0}
    finish = Work(minutes=costs.insert_minutes * (len(want.plugs) + want.other) + costs.solder_minutes * want.joints)
    if len(want.plugs) == 2:
        for n, piece in enumerate(settings.stock_leads):
            if sorted(piece.ends) == list(want.plugs) and piece.count and _whole_fits(piece, want, costs):
                slack = Work(weight=costs.slack_price * (piece.length_mm - (want.length_mm or piece.length_mm)) / 100)
                yield _making(settings, ("whole", n, want), finish + slack, {("lead", n): 1.0}, made)
        if _sold(want.plugs, want.gauge_awg, costs):
            yield _making(settings, ("buy whole", want), finish + Work(money=costs.lead_price), {}, made)
    cut = Work(minutes=costs.cut_minutes)
    crimp = Work(minutes=costs.crimp_minutes)
    for family in dict.fromkeys(want.plugs):
        others = list(want.plugs)
        others.remove(family)
        if all(can_crimp(each, want.gauge_awg) for each in others):
            takes = {("tail", family, want): 1.0} | _spent(others, costs)
            yield _making(settings, ("tail", family, want), finish + cut + crimp.times(len(others)), takes, made)
    if all(can_crimp(each, want.gauge_awg) for each in want.plugs):
        ends = len(want.plugs) + want.other
        takes = {("wire", want): 1.0} | _spent(want.plugs, costs)
        yield _making(settings, ("wire", want), finish + cut.times(2) + crimp.times(ends), takes, made)


def _spent(plugs: Iterable[str], costs: Costs) -> dict[tuple[object, ...], float]:
    """Contacts that crimping takes, spoiled ones among them."""
    spent: dict[tuple[object, ...], float] = {}
    for family in plugs:
        key = ("contact", family)
        spent[key] = spent.get(key, 0.0) + costs.spoil_factor(families.family(family).pitch_mm)
    return spent


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
    """Gauge as drawn, and colour where the drawing says one.  A gauge that the stock does not say fits none."""
    if want.gauge_awg is not None and piece.gauge_awg != want.gauge_awg:
        return False
    if want.colour is None:
        return True
    return piece.colour is not None and colours.colour_code(piece.colour) == colours.colour_code(want.colour)


def _tails(wants: Sequence[Want], settings: CraftSettings) -> Iterator[Making]:
    """A pre-crimped lead gives one tail, or two when both fit into its length."""
    need = [want for want in wants if want.plugs]
    for n, piece in enumerate(settings.stock_leads):
        if not piece.count:
            continue
        fit = [want for want in need if _same_wire(piece, want) and _no_longer(want, piece)]
        for wants_cut in _cuts(piece.ends, fit, piece.length_mm):
            offcut_mm = piece.length_mm - sum(want.length_mm or 0.0 for _, want in wants_cut)
            least = Work(weight=_PIECE + _OFFCUT * offcut_mm)
            yield _making(settings, ("cut", n, wants_cut), least, {("lead", n): 1.0}, _made_of(wants_cut))
    price = Work(money=settings.costs.lead_price)
    for family in dict.fromkeys(family for want in need for family in want.plugs):
        fit = [want for want in need if family in want.plugs and _sold((family,), want.gauge_awg, settings.costs)]
        for pair in _cuts((family, family), fit, None):
            if len({(want.gauge_awg, want.colour) for _, want in pair}) == 1:
                yield _making(settings, ("buy cut", pair), price, {}, _made_of(pair))


def _no_longer(want: Want, piece: StockLead) -> bool:
    return want.length_mm is not None and want.length_mm <= piece.length_mm


def _cuts(ends: Sequence[str], fit: Sequence[Want], length_mm: float | None) -> Iterator[tuple[tuple[str, Want], ...]]:
    """Tails (family, want) that one lead gives; `length_mm` None: it is bought at the length needed."""
    first = [(ends[0], want) for want in fit if ends[0] in want.plugs]
    second = [(ends[1], want) for want in fit if ends[1] in want.plugs] if len(ends) == 2 else []
    yield from ((tail,) for tail in dict.fromkeys((*first, *second)))
    if len(ends) == 2:
        pairs = (
            combinations_with_replacement(first, 2)
            if ends[0] == ends[1]
            else ((one, other) for one in first for other in second)
        )
        for one, other in pairs:
            if length_mm is None or (one[1].length_mm or 0.0) + (other[1].length_mm or 0.0) <= length_mm:
                yield (one, other)


def _made_of(tails: Iterable[tuple[str, Want]]) -> dict[tuple[object, ...], float]:
    made: dict[tuple[object, ...], float] = {}
    for family, want in tails:
        made["tail", family, want] = made.get(("tail", family, want), 0.0) + 1.0
    return made


def _wire(want: Want, settings: CraftSettings) -> Iterator[Making]:
    made = {("wire", want): 1.0}
    price = Work(money=settings.costs.wire_price * (want.length_mm or 0.0) / 1000)
    yield _making(settings, ("buy wire", want), price, {}, made)
    if want.length_mm is None:
        return
    for n, roll in enumerate(settings.stock_wire):
        if _same_wire(roll, want) and want.length_mm <= roll.length_mm:
            for k in range(min(roll.count, _MOST_ROLLS)):
                yield _making(settings, ("roll", n, k, want), Work(), {("roll", n, k): want.length_mm}, made)


def _rolls(settings: CraftSettings) -> Iterator[Making]:
    """A piece of wire that is cut into at all; as few as possible are."""
    for n, roll in enumerate(settings.stock_wire):
        for k in range(min(roll.count, _MOST_ROLLS)):
            takes, makes = {("whole roll", n, k): 1.0}, {("roll", n, k): roll.length_mm}
            yield _making(settings, ("open roll", n, k), Work(weight=_PIECE * (1 + k / 1000)), takes, makes)


def _contacts(wants: Sequence[Want], settings: CraftSettings) -> Iterator[Making]:
    """Contacts bought by the pack."""
    for family in dict.fromkeys(family for want in wants for family in want.plugs):
        offer = next(
            (each for each in settings.stock_contacts if each.family == family and each.price is not None), None
        )
        pack, price = (offer.pack, offer.price or 0.0) if offer else (1, settings.costs.contact_price)
        yield _making(
            settings, ("buy contacts", family, pack), Work(money=price), {}, {("contact", family): float(pack)}
        )


def what_is_there(settings: CraftSettings) -> dict[tuple[object, ...], float]:
    """The stock as resources."""
    there: dict[tuple[object, ...], float] = {}

    def add(key: tuple[object, ...], amount: float) -> None:
        there[key] = there.get(key, 0.0) + amount

    for n, cable in enumerate(settings.stock_cables):
        add(("cable", n), cable.count)
    for n, lead in enumerate(settings.stock_leads):
        add(("lead", n), lead.count)
    for housing in settings.stock_housings:
        add(("spare housing", housing.family, housing.ways), housing.count)
    for contact in settings.stock_contacts:
        add(("contact", contact.family), contact.count)
    for n, roll in enumerate(settings.stock_wire):
        for k in range(min(roll.count, _MOST_ROLLS)):
            add(("whole roll", n, k), 1.0)
    return there
