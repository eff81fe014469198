"""How each cable of a craft is made: the cheapest choice over stock, purchases, minutes and risk, all at once."""

from __future__ import annotations

from collections import Counter
from collections.abc import Hashable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace

from tabside.analysis.lead_ends import EndKind, MadeLead, WireFrom
from tabside.errors import TabsideError
from tabside.make.needs.allowances import allowance_mm
from tabside.make.needs.shapes import Shape, shapes_of, want_of
from tabside.make.options.kept_cables import why_not_used
from tabside.make.options.lead_making import Making, can_be_made, cheapest, makings, spent
from tabside.make.options.ready_cables import ReadyWay, ready_ways
from tabside.make.options.stock_supply import buying, what_is_there
from tabside.make.options.work import PURCHASE, Work
from tabside.make.solve.assignment import Activity, Assignment, Job, Offer, assign
from tabside.make.solve.handing_out import LeadSource, hand_out
from tabside.model.craft import Craft

LOOSE = "lead by lead"
STOPPED = "not made"
OWN = "a part's own leads"


@dataclass(frozen=True, slots=True)
class Choice:
    """How one shape is made."""

    shape: Shape
    ready: ReadyWay | None  # None: lead by lead, or nothing to choose
    work: Work
    sources: Mapping[str, LeadSource] = field(default_factory=dict)  # by lead mark
    housings: tuple[tuple[str, int], ...] = ()  # empty ones that it takes
    bought: bool = False  # the ready-made cable is bought, whether the stock's list names it or not
    stopped: tuple[str, ...] = ()  # leads that nothing makes; then none of it is made
    not_used: tuple[str, ...] = ()  # why cables that are kept for this place are not used


@dataclass(frozen=True, slots=True)
class Choices:
    """How everything is made."""

    each: tuple[Choice, ...]
    assignment: Assignment
    bought: Mapping[tuple[object, ...], int]  # activities that buy, and how often
    work: Mapping[Hashable, Work]  # of one of each activity
    makes: Mapping[Hashable, Mapping[object, float]]  # what one of each activity makes
    cut_mm: Mapping[str, float | None]  # by lead mark: the length to cut it to; None: not known
    allowance_mm: Mapping[str, float]  # what of it is no part of the lead's length

    def sources(self) -> Iterator[tuple[str, LeadSource]]:
        """What each lead that is made singly is made of, by its mark."""
        for choice in self.each:
            yield from choice.sources.items()


def choose(craft: Craft) -> Choices:
    """The best choice for the whole craft.

    Raises: TabsideError when the solver found none in its time.
    """
    shapes = shapes_of(craft)
    open_shapes = [shape for shape in shapes if shape.new]
    ways = {shape.label: ready_ways(shape, craft) for shape in open_shapes}
    wants = Counter(want_of(made) for shape in open_shapes for made in shape.new)
    own = [family for shape in shapes for family in own_contacts(shape)]
    made = [*makings(wants, own, craft.settings), *_housings(shapes, craft)]
    made += [Making(activity, work) for activity, work in buying(craft.settings)]
    offers = {shape.label: list(_offers(shape, ways[shape.label], craft)) for shape in open_shapes}
    dearest = max((each.cost for listed in offers.values() for each in listed), default=0.0)
    dearest = max([dearest, *(each.activity.cost for each in made)])
    for shape in open_shapes:
        if not all(can_be_made(want_of(each)) for each in shape.new):
            # A lead that nothing makes stops its own cable, not the whole plan.
            offers[shape.label].append(Offer(STOPPED, 1000 + 100 * dearest))
    jobs = [Job(label, tuple(listed)) for label, listed in offers.items()]
    jobs += [Job(f"{shape.label}: own leads", (_own_offer(shape, craft),)) for shape in shapes if own_contacts(shape)]
    activities = [each.activity for each in made]
    solved = assign(jobs, activities, what_is_there(craft.settings), craft.settings.costs.solve_seconds)
    if solved is None:
        raise TabsideError("no plan was found in time; raise costs.solve_seconds in the craft file")
    return _choices(craft, shapes, open_shapes, ways, made, solved)


def _offers(shape: Shape, ways: tuple[ReadyWay, ...], craft: Craft) -> Iterator[Offer]:
    for n, way in enumerate(ways):
        takes: dict[tuple[object, ...], float] = {}
        if way.stock is not None:
            takes["cable", way.stock] = 1.0
        if way.housing is not None:
            takes["spare housing", *way.housing] = 1.0
        yield Offer(n, way.work.cost(craft.settings.costs), takes)
    loose: Counter[tuple[object, ...]] = Counter(("made", want_of(made)) for made in shape.new)
    loose.update(("housing", *each) for each in housings_of(shape))
    if not any(way.kept for way in ways):  # a cable that is kept for this place is used here
        yield Offer(LOOSE, 0.0, {key: float(count) for key, count in loose.items()})


def housings_of(shape: Shape) -> tuple[tuple[str, int], ...]:
    """Empty housings for its new leads: one for each plug whose contacts are crimped."""
    return tuple(_housings_for(shape.new).values())


def _housings_for(leads: Iterable[MadeLead]) -> dict[str, tuple[str, int]]:
    """(family, ways) by termination."""
    found: dict[str, tuple[str, int]] = {}
    for made in leads:
        for end in made.ends:
            if end.kind is EndKind.CONTACT and end.family is not None and end.ways is not None:
                found[end.key[0]] = (end.family, end.ways)
    return found


def own_contacts(shape: Shape) -> tuple[str, ...]:
    """Families of the contacts that a part's own leads get here: there is nothing to choose, but parts are taken."""
    return tuple(
        end.family
        for made in shape.leads
        if made.wire_from is WireFrom.CAPTIVE
        for end in made.ends
        if end.kind is EndKind.CONTACT and end.family is not None
    )


def own_housings(shape: Shape) -> tuple[tuple[str, int], ...]:
    """Housings that only a part's own leads go into."""
    new = _housings_for(shape.new)
    own = _housings_for(made for made in shape.leads if made.wire_from is WireFrom.CAPTIVE)
    return tuple(plug for reference, plug in own.items() if reference not in new)


def _own_offer(shape: Shape, craft: Craft) -> Offer:
    takes: dict[tuple[object, ...], float] = spent(own_contacts(shape), craft.settings.costs)
    for plug in own_housings(shape):
        takes["housing", *plug] = takes.get(("housing", *plug), 0.0) + 1.0
    return Offer(OWN, 0.0, takes)


def _housings(shapes: Iterable[Shape], craft: Craft) -> Iterator[Making]:
    """Housings bought by the pack; one that re-housing takes is in stock, or it is no re-housing."""
    needed = dict.fromkeys(each for shape in shapes for each in (*housings_of(shape), *own_housings(shape)))
    for family, ways in needed:
        listed = [e for e in craft.settings.stock_housings if (e.family, e.ways) == (family, ways)]
        offers = cheapest((each.pack, each.price) for each in listed)
        for pack, price in offers or [(1, craft.settings.costs.housing_price)]:
            work = Work(money=price, weight=PURCHASE)
            key = ("buy housings", family, ways, pack)
            makes = {("housing", family, ways): float(pack)}
            yield Making(Activity(key, work.cost(craft.settings.costs), {}, makes), work)
        one = {("housing", family, ways): 1.0}
        yield Making(Activity(("housing", family, ways), 0.0, {("spare housing", family, ways): 1.0}, one), Work())


def _choices(
    craft: Craft,
    shapes: tuple[Shape, ...],
    open_shapes: list[Shape],
    ways: Mapping[str, tuple[ReadyWay, ...]],
    made: list[Making],
    solved: Assignment,
) -> Choices:
    work = {each.activity.key: each.work for each in made}
    offers = {shape.label: offer for shape, offer in zip(open_shapes, solved.offers, strict=False)}
    loose = [shape for shape in open_shapes if offers[shape.label].key == LOOSE]
    sources = hand_out([each for shape in loose for each in shape.new], solved, work, craft.settings)
    each: list[Choice] = []
    taken: Counter[int] = Counter()
    for shape in shapes:
        offer, way = offers.get(shape.label), None
        own = own_housings(shape)
        if offer is None:
            choice = Choice(shape, None, Work(), {}, own)
        elif offer.key == STOPPED:
            marks = tuple(one.lead.mark for one in shape.new if not can_be_made(want_of(one)))
            choice = Choice(shape, None, Work(), stopped=marks)
        elif offer.key == LOOSE:
            mine = {one.lead.mark: sources[one.lead.mark] for one in shape.new}
            total = sum((source.work for source in mine.values()), Work())
            choice = Choice(shape, None, total, mine, (*housings_of(shape), *own))
        else:
            way = ways[shape.label][int(str(offer.key))]
            bought = way.stock is None or taken[way.stock] >= craft.settings.stock_cables[way.stock].count
            if way.stock is not None:
                taken[way.stock] += 1
            choice = Choice(shape, way, way.work, {}, (way.housing,) if way.housing else (), bought)
        each.append(replace(choice, not_used=tuple(why_not_used(shape, craft, None if way is None else way.stock))))
    buys = {
        key: count for key, count in solved.times.items() if isinstance(key, tuple) and str(key[0]).startswith("buy")
    }
    more = {
        made.lead.mark: _allowance(made, choice.sources.get(made.lead.mark), craft)
        for choice in each
        for made in choice.shape.leads
    }
    cut = {lead.mark: None if lead.length_mm is None else lead.length_mm + more[lead.mark] for lead in craft.leads}
    makes = {one.activity.key: one.activity.makes for one in made}
    return Choices(tuple(each), solved, buys, work, makes, cut, more)


def _allowance(made: MadeLead, source: LeadSource | None, craft: Craft) -> float:
    if source is not None and source.key[0] in ("whole", "buy whole"):
        return 0.0  # it is used as it comes
    ready = str(source.key[1]) if source is not None and source.key[0] == "tail" else None
    return allowance_mm(made, ready, craft.settings.cutting)
