"""Empty housings and contacts that cables take, whatever their leads are made of."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from tabside.analysis.joined.lead_ends import EndKind, MadeLead, WireFrom
from tabside.make.needs.cable_jobs import CableJob
from tabside.make.options.activities import BuyHousings, UseSpareHousing
from tabside.make.options.lead_options import cheapest
from tabside.make.options.things import EmptyHousing, SpareHousing
from tabside.make.options.work import PURCHASE, Making, Work, making
from tabside.model.craft import Craft


def housings_of(job: CableJob) -> tuple[tuple[str, int], ...]:
    """Empty housings (family, ways) for its new leads: one for each plug whose contacts are crimped."""
    return tuple(_housings_for(job.new).values())


def own_housings(job: CableJob) -> tuple[tuple[str, int], ...]:
    """Housings that only a part's own leads go into."""
    new = _housings_for(job.new)
    own = _housings_for(made for made in job.leads if made.wire_from is WireFrom.CAPTIVE)
    return tuple(plug for reference, plug in own.items() if reference not in new)


def own_contacts(job: CableJob) -> tuple[str, ...]:
    """Families of the contacts that a part's own leads get here: there is nothing to choose, but parts are taken."""
    return tuple(
        end.family
        for made in job.leads
        if made.wire_from is WireFrom.CAPTIVE
        for end in made.ends
        if end.kind is EndKind.CONTACT and end.family is not None
    )


def housing_options(jobs: Iterable[CableJob], craft: Craft) -> Iterator[Making]:
    """Housings bought by the pack; one that re-housing takes is in stock, or it is no re-housing."""
    costs = craft.settings.costs
    needed = dict.fromkeys(plug for job in jobs for plug in (*housings_of(job), *own_housings(job)))
    for family, ways in needed:
        empty = EmptyHousing(family, ways)
        listed = [entry for entry in craft.settings.stock_housings if (entry.family, entry.ways) == (family, ways)]
        offers = cheapest((entry.pack, entry.price) for entry in listed)
        for pack, price in offers or [(1, costs.housing_price)]:
            work = Work(money=price, tie=PURCHASE)
            yield making(costs, BuyHousings(family, ways, pack), work, {}, {empty: float(pack)})
        yield making(costs, UseSpareHousing(family, ways), Work(), {SpareHousing(family, ways): 1.0}, {empty: 1.0})


def _housings_for(leads: Iterable[MadeLead]) -> dict[str, tuple[str, int]]:
    """(family, ways) by termination."""
    return {
        end.key[0]: (end.family, end.ways)
        for made in leads
        for end in made.ends
        if end.kind is EndKind.CONTACT and end.family is not None and end.ways is not None
    }
