"""How each cable of a craft is made: the cheapest choice over stock, purchases, minutes and risk, all at once."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence

from msgspec.structs import replace

from tabside.analysis.joined.lead_ends import MadeLead
from tabside.errors import TabsideError
from tabside.make.assignment import Job, Offer, assign
from tabside.make.needs.allowances import allowance_mm
from tabside.make.needs.cable_jobs import CableJob, cable_jobs, want_of
from tabside.make.options.activities import (
    BuyContacts,
    BuyHousings,
    BuyKit,
    BuyListed,
    BuyTails,
    BuyWhole,
    BuyWire,
    Deed,
)
from tabside.make.options.kept_cables import why_not_used
from tabside.make.options.lead_options import can_be_made, contacts_spent, lead_options
from tabside.make.options.ready_cables import ReadyWay, ready_ways
from tabside.make.options.supply import buying, what_is_there
from tabside.make.options.things import EmptyHousing, FinishedLead, ListedCable, SpareHousing, Thing
from tabside.make.options.work import Making, Work
from tabside.make.solve.choice import CableChoice, CraftChoice, Otherwise, Solved, Way
from tabside.make.solve.handing_out import LeadSource, hand_out
from tabside.make.solve.housings import housing_options, housings_of, own_contacts, own_housings
from tabside.model.craft import Craft

_BOUGHT = BuyWhole | BuyTails | BuyWire | BuyContacts | BuyHousings | BuyListed | BuyKit


def choose(craft: Craft, leads: Iterable[MadeLead]) -> CraftChoice:
    """The best choice for the whole craft.

    Raises: TabsideError when the solver found none in its time.
    """
    jobs = cable_jobs(craft, leads)
    makings = list(_all_makings(jobs, craft))
    asked = _asked(jobs, makings, craft)
    activities = [making.activity for making in makings]
    solved = assign(asked, activities, what_is_there(craft.settings), craft.settings.costs.solve_seconds)
    if solved is None:
        raise TabsideError("no plan was found in time; raise costs.solve_seconds in the craft file")
    work = {making.activity.deed: making.work for making in makings}
    cables = tuple(_cable_choices(craft, jobs, solved, work))
    allowances = _allowances(cables, craft)
    return CraftChoice(
        cables=cables,
        solved=solved,
        bought={deed: count for deed, count in solved.times.items() if isinstance(deed, _BOUGHT)},
        work=work,
        makes={making.activity.deed: making.activity.makes for making in makings},
        cut_mm={
            lead.mark: None if lead.length_mm is None else lead.length_mm + allowances[lead.mark]
            for lead in craft.leads
        },
        allowance_mm=allowances,
    )


def _all_makings(jobs: Sequence[CableJob], craft: Craft) -> Iterator[Making]:
    wants = Counter(want_of(made) for job in jobs for made in job.new)
    own = [family for job in jobs for family in own_contacts(job)]
    yield from lead_options(wants, own, craft.settings)
    yield from housing_options(jobs, craft)
    yield from buying(craft.settings)


def _asked(jobs: Sequence[CableJob], makings: Sequence[Making], craft: Craft) -> list[Job[Way, Thing]]:
    offers = {job.label: list(_offers(job, craft)) for job in jobs if job.new}
    costs = [offer.cost for listed in offers.values() for offer in listed]
    dearest = max([0.0, *costs, *(making.activity.cost for making in makings)])
    for job in jobs:
        if not all(can_be_made(want_of(made)) for made in job.new):
            # A lead that nothing makes stops its own cable, not the whole plan.
            offers[job.label].append(Offer(Otherwise.STOPPED, 1000 + 100 * dearest))
    asked = [Job(label, tuple(listed)) for label, listed in offers.items()]
    own = [Job(f"{job.label}: own leads", (_own_offer(job, craft),)) for job in jobs if own_contacts(job)]
    return [*asked, *own]


def _offers(job: CableJob, craft: Craft) -> Iterator[Offer[Way, Thing]]:
    ways = ready_ways(job, craft)
    for way in ways:
        yield Offer(way, way.work.cost(craft.settings.costs), _taken_by(way), way.work.tie)
    if not any(way.kept for way in ways):  # a cable that is kept for this place is used here
        takes: Counter[Thing] = Counter(FinishedLead(want_of(made)) for made in job.new)
        takes.update(EmptyHousing(*plug) for plug in housings_of(job))
        yield Offer(Otherwise.LEAD_BY_LEAD, 0.0, {thing: float(count) for thing, count in takes.items()})


def _taken_by(way: ReadyWay) -> dict[Thing, float]:
    takes: dict[Thing, float] = {}
    if way.stock is not None:
        takes[ListedCable(way.stock)] = 1.0
    if way.housing is not None:
        takes[SpareHousing(*way.housing)] = 1.0
    return takes


def _own_offer(job: CableJob, craft: Craft) -> Offer[Way, Thing]:
    takes = contacts_spent(own_contacts(job), craft.settings.costs)
    for plug, count in Counter(own_housings(job)).items():
        takes[EmptyHousing(*plug)] = float(count)
    return Offer(Otherwise.OWN_LEADS, 0.0, takes)


def _cable_choices(
    craft: Craft, jobs: Sequence[CableJob], solved: Solved, work: Mapping[Deed, Work]
) -> Iterator[CableChoice]:
    ways = dict(zip((job.label for job in jobs if job.new), (offer.way for offer in solved.offers), strict=False))
    single = [job for job in jobs if ways.get(job.label) is Otherwise.LEAD_BY_LEAD]
    sources = hand_out([made for job in single for made in job.new], solved.times, work, craft.settings)
    taken: Counter[int] = Counter()
    for job in jobs:
        way = ways.get(job.label)
        if isinstance(way, ReadyWay):
            yield _from_ready(job, way, taken, craft)
        elif way is Otherwise.STOPPED:
            marks = tuple(made.lead.mark for made in job.new if not can_be_made(want_of(made)))
            yield _with_notes(CableChoice(job, None, Work(), stopped=marks), craft)
        else:
            yield _with_notes(_lead_by_lead(job, sources if way is Otherwise.LEAD_BY_LEAD else {}), craft)


def _from_ready(job: CableJob, way: ReadyWay, taken: Counter[int], craft: Craft) -> CableChoice:
    """`taken`: how many of each entry of the stock's cables are gone; counted on here."""
    bought = way.stock is None or taken[way.stock] >= craft.settings.stock_cables[way.stock].count
    if way.stock is not None:
        taken[way.stock] += 1
    choice = CableChoice(job, way, way.work, {}, (way.housing,) if way.housing else (), bought)
    return _with_notes(choice, craft)


def _lead_by_lead(job: CableJob, sources: Mapping[str, LeadSource]) -> CableChoice:
    """`sources` empty: it has none but a part's own leads."""
    if not sources:
        return CableChoice(job, None, Work(), {}, own_housings(job))
    mine = {made.lead.mark: sources[made.lead.mark] for made in job.new}
    work = sum((source.work for source in mine.values()), Work())
    return CableChoice(job, None, work, mine, (*housings_of(job), *own_housings(job)))


def _with_notes(choice: CableChoice, craft: Craft) -> CableChoice:
    used = None if choice.ready is None else choice.ready.stock
    return replace(choice, not_used=tuple(why_not_used(choice.job, craft, used)))


def _allowances(cables: Sequence[CableChoice], craft: Craft) -> dict[str, float]:
    return {
        made.lead.mark: _allowance_mm(made, choice.sources.get(made.lead.mark), craft)
        for choice in cables
        for made in choice.job.leads
    }


def _allowance_mm(made: MadeLead, source: LeadSource | None, craft: Craft) -> float:
    if source is not None and source.is_whole:
        return 0.0  # it is used as it comes
    return allowance_mm(made, None if source is None else source.ready_family, craft.settings.cutting)
