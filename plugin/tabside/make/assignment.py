"""The cheapest way to do all jobs at once, when what they take is not there for all of them.

Each job is done by one of its offers.  Offers take things; activities turn things into others (cut a lead in
two, buy a pack) any whole number of times.  Solved exactly as a mixed-integer linear program.
"""

from __future__ import annotations

from collections.abc import Hashable, Mapping, Sequence
from typing import Generic, TypeVar

from msgspec import Struct, field

from tabside.highs import Row, Solution, least_cost

# What ways, deeds and things mean is the caller's.
WayT = TypeVar("WayT")
DeedT = TypeVar("DeedT", bound=Hashable)
ThingT = TypeVar("ThingT", bound=Hashable)
_SAME = 1e-7  # of money: sums of the same prices in another order differ by less


class Offer(Struct, Generic[WayT, ThingT], frozen=True):
    """One way to do a job."""

    way: WayT
    cost: float
    takes: Mapping[ThingT, float] = field(default_factory=dict)
    tie: float = 0.0  # decides between assignments that cost the same


class Job(Struct, Generic[WayT, ThingT], frozen=True):
    name: str
    offers: tuple[Offer[WayT, ThingT], ...]


class Activity(Struct, Generic[DeedT, ThingT], frozen=True):
    """Something that may be done any number of times, up to `most`."""

    deed: DeedT
    cost: float
    takes: Mapping[ThingT, float] = field(default_factory=dict)
    makes: Mapping[ThingT, float] = field(default_factory=dict)
    most: int = 10_000
    tie: float = 0.0


class _Column(Struct, Generic[ThingT], frozen=True):
    """One unknown number of the program."""

    cost: float
    tie: float
    net: Mapping[ThingT, float]  # what it makes, less what it takes
    most: int


class Assignment(Struct, Generic[WayT, DeedT, ThingT], frozen=True):
    """One offer for each job, in the order of the jobs, and how often each activity is done."""

    offers: tuple[Offer[WayT, ThingT], ...]
    times: Mapping[DeedT, int]  # activities that are done, by deed
    cost: float
    bound: float  # no way is cheaper than this
    optimal: bool


def assign(
    jobs: Sequence[Job[WayT, ThingT]],
    activities: Sequence[Activity[DeedT, ThingT]],
    there: Mapping[ThingT, float],
    seconds: float = 10.0,
) -> Assignment[WayT, DeedT, ThingT] | None:
    """The cheapest assignment; when `seconds` run out the best found so far, with its bound.

    `there` is what lies ready of each thing; what it does not name is not there.  None: no assignment exists, or
    none was found in time.
    """
    if not jobs:
        return Assignment((), {}, 0.0, 0.0, True)
    columns = _columns(jobs, activities)
    solved = _solved(columns, _rows(jobs, columns, there), seconds)
    if solved is None:
        return None
    counts = [round(value) for value in solved.values]
    chosen: list[Offer[WayT, ThingT]] = []
    at = 0
    for job in jobs:
        chosen.append(job.offers[counts[at : at + len(job.offers)].index(1)])
        at += len(job.offers)
    times = {activity.deed: count for activity, count in zip(activities, counts[at:], strict=True) if count}
    cost = sum(column.cost * count for column, count in zip(columns, counts, strict=True))
    bound = cost if solved.optimal else solved.bound
    return Assignment(tuple(chosen), times, cost, bound, solved.optimal)


def _columns(jobs: Sequence[Job[WayT, ThingT]], activities: Sequence[Activity[DeedT, ThingT]]) -> list[_Column[ThingT]]:
    """The offers of all jobs, then the activities."""
    columns = [
        _Column(offer.cost, offer.tie, {thing: -amount for thing, amount in offer.takes.items()}, 1)
        for job in jobs
        for offer in job.offers
    ]
    for activity in activities:
        things = {**activity.makes, **activity.takes}
        net = {thing: activity.makes.get(thing, 0.0) - activity.takes.get(thing, 0.0) for thing in things}
        columns.append(_Column(activity.cost, activity.tie, net, activity.most))
    return columns


def _solved(columns: Sequence[_Column[ThingT]], rows: list[Row], seconds: float) -> Solution | None:
    """The cheapest; of those that cost the same, the one with the least ties."""
    limits = [float(column.most) for column in columns]
    costs, ties = [column.cost for column in columns], [column.tie for column in columns]
    cheapest = least_cost(costs, limits, rows, whole=True, seconds=seconds)
    if cheapest is None or not cheapest.optimal or not any(ties):
        return cheapest
    cost = sum(one * round(value) for one, value in zip(costs, cheapest.values, strict=True))
    no_dearer = Row(float("-inf"), cost + _SAME, {n: one for n, one in enumerate(costs) if one})
    tied = least_cost(ties, limits, [*rows, no_dearer], whole=True, seconds=seconds)
    return cheapest if tied is None else Solution(tied.values, True, cheapest.bound)


def _rows(
    jobs: Sequence[Job[WayT, ThingT]], columns: Sequence[_Column[ThingT]], there: Mapping[ThingT, float]
) -> list[Row]:
    """Each job is done once, and no thing is used up beyond what is there and what is made of it."""
    rows: list[Row] = []
    at = 0
    for job in jobs:
        rows.append(Row(1.0, 1.0, dict.fromkeys(range(at, at + len(job.offers)), 1.0)))
        at += len(job.offers)
    changes: dict[ThingT, dict[int, float]] = {}
    for number, column in enumerate(columns):
        for thing, amount in column.net.items():
            changes.setdefault(thing, {})[number] = amount
    rows += [Row(-there.get(thing, 0.0), float("inf"), by_column) for thing, by_column in changes.items()]
    return rows
