"""In which order cables are worked on: packs last of all, and of their wires last the one that brings power.

Common practice of work at packs, no source outside.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from tabside.analysis.power_ways import Joint, PowerWays
from tabside.make.needs.cable_jobs import CableJob, soldered
from tabside.make.needs.live_leads import is_minus, live_leads, meets_pack, nets_through_parts
from tabside.model.craft import Craft, Kind, Lead

_PLUS = 3  # the turn of sheets on which a pack's plus is soldered


def in_working_order(craft: Craft, jobs: Iterable[CableJob]) -> list[CableJob]:
    """Whatever never meets a pack's own leads first; then the sheets with these, that of the minus first.

    What is made for the plug of a pack is made while the pack is away, before any pack is near.
    """
    listed = list(jobs)
    live = live_leads(craft, (made for job in listed for made in job.leads))
    ways = PowerWays(craft, (made for job in listed for made in job.leads))

    def order(job: CableJob) -> int:
        mine = [made for made in job.leads if made.lead.mark in live]
        if not mine:
            return (1 if job.new else 4) if meets_pack(craft, job) else 0
        minus = [made for made in mine if is_minus(craft, made)]
        brings = len(minus) < len(mine) and _brings_power(job, listed, ways)
        return 2 if minus and not brings else _PLUS

    turns = [(order(job), job) for job in listed]
    plus = [job for turn, job in turns if turn == _PLUS]
    others = [job for turn, job in turns if turn != _PLUS]
    return [
        *(job for turn, job in sorted(turns, key=lambda each: each[0]) if turn < _PLUS),
        *_power_last(craft, plus, others, live, ways),
        *(job for turn, job in turns if turn > _PLUS),
    ]


def _power_last(
    craft: Craft, plus: Sequence[CableJob], others: Sequence[CableJob], live: Mapping[str, str], ways: PowerWays
) -> Iterator[CableJob]:
    """First what brings no power yet, and of it what joins packs in series."""
    done = {joint for job in others for joint in _joints(job)}
    left = list(plus)
    while len(left) > 1:
        on = ways.on(done, ways.gates)
        turns = [
            (bool(ways.on(done | set(_joints(job)), ways.gates) - on), not _is_between(craft, job, live), n)
            for n, job in enumerate(left)
        ]
        job = left.pop(min(turns)[-1])
        done.update(_joints(job))
        yield job
    yield from left


def _brings_power(job: CableJob, jobs: Iterable[CableJob], ways: PowerWays) -> bool:
    """With all others made, and no fuse or switch between."""
    others = {joint for other in jobs if other is not job for joint in _joints(other)}
    return bool(ways.on(others | set(_joints(job)), ways.gates) - ways.on(others, ways.gates))


def _joints(job: CableJob) -> Iterator[Joint]:
    yield from ((made.lead.mark, end.key[0]) for made in job.leads for end in made.ends if soldered(end))


def _is_between(craft: Craft, job: CableJob, live: Mapping[str, str]) -> bool:
    """Whether a plus goes to the minus of another pack."""
    nets = nets_through_parts(craft)
    mine = {nets.root(made.lead.net_id): live[made.lead.mark] for made in job.leads if made.lead.mark in live}
    return any(
        mine.get(nets.root(lead.net_id), live[lead.mark]) != live[lead.mark] and _begins_at_minus(craft, lead)
        for lead in craft.leads
        if lead.mark in live
    )


def _begins_at_minus(craft: Craft, lead: Lead) -> bool:
    own = (key for key in lead.ends if craft.terminations[key[0]].kind is Kind.CAPTIVE)
    return any(craft.contact(key).role.is_ground for key in own)
