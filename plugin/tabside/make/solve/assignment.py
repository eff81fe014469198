"""The cheapest way to do all jobs at once, when what they take is not there for all of them.

Each job is done by one of its offers.  Offers take resources; activities turn resources into others (cut a lead in
two, buy a pack) any whole number of times.  Solved exactly as a mixed-integer linear program.
"""

from __future__ import annotations

from collections.abc import Hashable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from tabside.make.solve.highs import Row, least_cost

Resource = Any  # anything hashable: what it means is the caller's


@dataclass(frozen=True, slots=True)
class Offer:
    """One way to do a job."""

    key: Hashable
    cost: float
    takes: Mapping[Resource, float] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Job:
    name: str
    offers: tuple[Offer, ...]


@dataclass(frozen=True, slots=True)
class Activity:
    """Something that may be done any number of times, up to `most`."""

    key: Hashable
    cost: float
    takes: Mapping[Resource, float] = field(default_factory=dict)
    makes: Mapping[Resource, float] = field(default_factory=dict)
    most: int = 10_000


@dataclass(frozen=True, slots=True)
class Assignment:
    """One offer for each job, in the order of the jobs, and how often each activity is done."""

    offers: tuple[Offer, ...]
    times: Mapping[Hashable, int]  # activities that are done, by key
    cost: float
    bound: float  # no way is cheaper than this
    optimal: bool


def assign(
    jobs: Sequence[Job], activities: Sequence[Activity], there: Mapping[Resource, float], seconds: float = 10.0
) -> Assignment | None:
    """The cheapest assignment; when `seconds` run out the best found so far, with its bound.

    `there` is what lies ready of each resource; what it does not name is not there.  None: no assignment exists, or
    none was found in time.
    """
    if not jobs:
        return Assignment((), {}, 0.0, 0.0, True)
    columns: list[tuple[float, Mapping[Resource, float], int]] = []
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
    chosen: list[Offer] = []
    at = 0
    for job in jobs:
        chosen.append(job.offers[counts[at : at + len(job.offers)].index(1)])
        at += len(job.offers)
    times = {each.key: count for each, count in zip(activities, counts[first_activity:], strict=True) if count}
    cost = sum(column[0] * count for column, count in zip(columns, counts, strict=True))
    bound = cost if solved.optimal else solved.bound
    return Assignment(tuple(chosen), times, cost, bound, solved.optimal)


def _rows(
    jobs: Sequence[Job], columns: Sequence[tuple[float, Mapping[Resource, float], int]], there: Mapping[Resource, float]
) -> list[Row]:
    """Each job is done once, and no resource is used up beyond what is there and what is made of it."""
    rows: list[Row] = []
    at = 0
    for job in jobs:
        rows.append(Row(1.0, 1.0, dict.fromkeys(range(at, at + len(job.offers)), 1.0)))
        at += len(job.offers)
    changes: dict[Resource, dict[int, float]] = {}
    for column, (_, net, _) in enumerate(columns):
        for resource, amount in net.items():
            changes.setdefault(resource, {})[column] = amount
    rows += [Row(-there.get(resource, 0.0), float("inf"), by_column) for resource, by_column in changes.items()]
    return rows
