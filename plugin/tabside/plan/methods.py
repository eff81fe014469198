"""How each cable of a craft is made: the cheapest choice over stock, purchases, minutes and risk, all at once."""

from __future__ import annotations

from collections import Counter
from collections.abc import Hashable, Iterator, Mapping
from dataclasses import dataclass, field

from ..errors import TabsideError
from ..model.craft import Craft
from .allowances import allowance_mm
from .assignment import Activity, Assignment, Job, Offer, assign
from .lead_ends import EndKind, MadeLead
from .lead_making import Making, makings
from .ready_cables import ReadyWay, ready_ways
from .shapes import Shape, Want, shapes_of, want_of
from .stock_supply import buying, what_is_there
from .work import Work

LOOSE = "lead by lead"


@dataclass(frozen=True, slots=True)
class LeadSource:
    """What one lead is made of."""

    key: tuple[object, ...]  # of the activity that makes it: ("whole", n, want), ("tail", family, want), ...
    work: Work
    cut_from: tuple[object, ...] | None = None  # of the activity that gives its tail or its wire
    cut_number: int = 0  # leads with the same `cut_from` and number come from one piece


@dataclass(frozen=True, slots=True)
class Choice:
    """How one shape is made."""

    shape: Shape
    ready: ReadyWay | None  # None: lead by lead, or nothing to choose
    work: Work
    sources: Mapping[str, LeadSource] = field(default_factory=dict)  # by lead mark
    housings: tuple[tuple[str, int], ...] = ()  # empty ones that it takes


@dataclass(frozen=True, slots=True)
class Choices:
    """How everything is made."""

    each: tuple[Choice, ...]
    assignment: Assignment
    bought: Mapping[tuple[object, ...], int]  # activities that buy, and how often
    work: Mapping[Hashable, Work]  # of one of each activity
    cut_mm: Mapping[str, float | None]  # by lead mark: the length to cut it to; None: not known
    allowance_mm: Mapping[str, float]  # what of it is no part of the lead's length


def choose(craft: Craft) -> Choices:
    """The best choice for the whole craft.

    Raises: TabsideError when the solver found none in its time.
    """
    shapes = shapes_of(craft)
    open_shapes = [shape for shape in shapes if shape.new]
    ways = {shape.label: ready_ways(shape, craft) for shape in open_shapes}
    wants = tuple(dict.fromkeys(want_of(made) for shape in open_shapes for made in shape.new))
    made = [*makings(wants, craft.settings), *_housings(open_shapes, craft)]
    made += [Making(activity, work) for activity, work in buying(craft.settings)]
    jobs = [Job(shape.label, tuple(_offers(shape, ways[shape.label], craft))) for shape in open_shapes]
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
    found: dict[str, tuple[str, int]] = {}
    for made in shape.new:
        for end in made.ends:
            if end.kind is EndKind.CONTACT and end.family is not None and end.ways is not None:
                found[end.key[0]] = (end.family, end.ways)
    return tuple(found.values())


def _housings(shapes: list[Shape], craft: Craft) -> Iterator[Making]:
    """Housings bought by the pack; one that re-housing takes is in stock, or it is no re-housing."""
    needed = Counter(each for shape in shapes for each in housings_of(shape))
    for family, ways in needed:
        priced = [
            each
            for each in craft.settings.stock_housings
            if (each.family, each.ways) == (family, ways) and each.price is not None
        ]
        pack, price = (priced[0].pack, priced[0].price or 0.0) if priced else (1, craft.settings.costs.housing_price)
        work = Work(money=price)
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
    loose = [shape for shape, offer in zip(open_shapes, solved.offers, strict=True) if offer.key == LOOSE]
    sources = _sources([each for shape in loose for each in shape.new], solved, work)
    offers = {shape.label: offer for shape, offer in zip(open_shapes, solved.offers, strict=True)}
    each: list[Choice] = []
    for shape in shapes:
        offer = offers.get(shape.label)
        if offer is None:
            each.append(Choice(shape, None, Work()))
        elif offer.key == LOOSE:
            mine = {one.lead.mark: sources[one.lead.mark] for one in shape.new}
            total = sum((source.work for source in mine.values()), Work())
            each.append(Choice(shape, None, total, mine, housings_of(shape)))
        else:
            way = ways[shape.label][int(str(offer.key))]
            each.append(Choice(shape, way, way.work, {}, (way.housing,) if way.housing else ()))
    buys = {
        key: count for key, count in solved.times.items() if isinstance(key, tuple) and str(key[0]).startswith("buy")
    }
    more = {
        made.lead.mark: _allowance(made, choice.sources.get(made.lead.mark), craft)
        for choice in each
        for made in choice.shape.leads
    }
    cut = {lead.mark: None if lead.length_mm is None else lead.length_mm + more[lead.mark] for lead in craft.leads}
    return Choices(tuple(each), solved, buys, work, cut, more)


def _allowance(made: MadeLead, source: LeadSource | None, craft: Craft) -> float:
    if source is not None and source.key[0] in ("whole", "buy whole"):
        return 0.0  # it is used as it comes
    ready = str(source.key[1]) if source is not None and source.key[0] == "tail" else None
    return allowance_mm(made, ready, craft.settings.cutting)


def _sources(leads: list[MadeLead], solved: Assignment, work: Mapping[Hashable, Work]) -> dict[str, LeadSource]:
    """Hands what the activities make to the leads, in mark order."""
    waiting: dict[Want, list[MadeLead]] = {}
    for lead in leads:
        waiting.setdefault(want_of(lead), []).append(lead)
    pieces = _pieces(solved)
    sources: dict[str, LeadSource] = {}
    for key, count in solved.times.items():
        if not isinstance(key, tuple) or key[0] not in ("whole", "buy whole", "tail", "wire", "stopped"):
            continue
        want = key[-1]
        for _ in range(count):
            if not waiting.get(want):
                break  # made, though nobody needs it: a solver may do so when it costs nothing
            lead = waiting[want].pop(0)
            piece = pieces[key].pop(0) if pieces.get(key) else None
            spent = work[key] + (Work() if piece is None else work[piece[0]].times(piece[2]))
            sources[lead.lead.mark] = LeadSource(key, spent, *(piece[:2] if piece else (None, 0)))
    return sources


def _pieces(solved: Assignment) -> dict[tuple[object, ...], list[tuple[tuple[object, ...], int, float]]]:
    """Tails and wire by what they are for: (the cut that gives it, which of these cuts, its share of the cut)."""
    pieces: dict[tuple[object, ...], list[tuple[tuple[object, ...], int, float]]] = {}
    for key, count in solved.times.items():
        if not isinstance(key, tuple):
            continue
        for number in range(count):
            if key[0] in ("cut", "buy cut"):
                tails = key[-1]
                for family, want in tails:
                    pieces.setdefault(("tail", family, want), []).append((key, number, 1 / len(tails)))
            elif key[0] in ("roll", "buy wire"):
                pieces.setdefault(("wire", key[-1]), []).append((key, number, 1.0))
    return pieces
