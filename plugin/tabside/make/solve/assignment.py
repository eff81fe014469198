"""The cheapest way to do all jobs at once, when what they take is not there for all of them.

Each job is done by one of its offers.  Offers take things; activities turn things into others (cut a lead in
two, buy a pack) any whole number of times.  Solved exactly as a mixed-integer linear program.
"""

from __future__ import annotations

from collections.abc import Hashable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Generic, TypeVar

from tabside.make.solve.highs import Row, least_cost

# What ways, deeds and things mean is the caller's.
WayT = TypeVar("WayT")
DeedT = TypeVar("DeedT", bound=Hashable)
ThingT = TypeVar("ThingT", bound=Hashable)


@dataclass(frozen=True, slots=True)
class Offer(Generic[WayT, ThingT]):
    """One way to do a job."""

    way: WayT
    cost: float
    takes: Mapping[ThingT, float] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Job(Generic[WayT, ThingT]):
    name: str
    offers: tuple[Offer[WayT, ThingT], ...]


@dataclass(frozen=True, slots=True)
class Activity(Generic[DeedT, ThingT]):
    """Something that may be done any number of times, up to `most`."""

    deed: DeedT
    cost: float
    takes: Mapping[ThingT, float] = field(default_factory=dict)
    makes: Mapping[ThingT, float] = field(default_factory=dict)
    most: int = 10_000


@dataclass(frozen=True, slots=True)
class Assignment(Generic[WayT, DeedT, ThingT]):
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
    columns: list[tuple[float, Mapping[ThingT, float], int]] = []
    for job in jobs:
        columns += [(offer.cost, {r: -a for r, a in offer.takes.items()}, 1) for offer in job.offers]
    first_activity = len(columns)
    for each in activities:
        net = {r: each.makes.get(r, 0.0) - each.takes.get(r, 0.0) for r in {**each.makes, **each.takes}}
        columns.append((each.cost, net, each.most))
    solved = least_cost(
        [column[0] for column in columns],
        [float(column[2]) for column in columns],
        _rows(jobs, columns, there),
        whole=True,
        seconds=seconds,
    )
    if solved is None:
        return None
    counts = [round(value) for value in solved.values]
    chosen: list[Offer[WayT, ThingT]] = []
    at = 0
    for job in jobs:
        chosen.append(job.offers[counts[at : at + len(job.offers)].index(1)])
        at += len(job.offers)
    times = {each.deed: count for each, count in zip(activities, counts[first_activity:], strict=True) if count}
    cost = sum(column[0] * count for column, count in zip(columns, counts, strict=True))
    bound = cost if solved.optimal else solved.bound
    return Assignment(tuple(chosen), times, cost, bound, solved.optimal)


def _rows(
    jobs: Sequence[Job[WayT, ThingT]],
    columns: Sequence[tuple[float, Mapping[ThingT, float], int]],
    there: Mapping[ThingT, float],
) -> list[Row]:
    """Each job is done once, and no thing is used up beyond what is there and what is made of it."""
    rows: list[Row] = []
    at = 0
    for job in jobs:
        rows.append(Row(1.0, 1.0, dict.fromkeys(range(at, at + len(job.offers)), 1.0)))
        at += len(job.offers)
    changes: dict[ThingT, dict[int, float]] = {}
    for column, (_, net, _) in enumerate(columns):
        for thing, amount in net.items():
            changes.setdefault(thing, {})[column] = amount
    rows += [Row(-there.get(thing, 0.0), float("inf"), by_column) for thing, by_column in changes.items()]
    return rows
