"""The cheapest assignment, held against trying everything, and named cases that a greedy choice loses."""

import itertools

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tabside.make.assignment import Activity, Job, Offer, assign


def tried_out(jobs, activities, there, times=4):
    """The cheapest of all combinations, each activity up to `times` times; None when none is possible."""
    best = None
    for offers in itertools.product(*(job.offers for job in jobs)):
        for counts in itertools.product(range(times), repeat=len(activities)):
            left = dict(there)
            for takes, count in [(offer.takes, 1) for offer in offers] + [
                (each.takes, count) for each, count in zip(activities, counts, strict=True)
            ]:
                for resource, amount in takes.items():
                    left[resource] = left.get(resource, 0) - amount * count
            for each, count in zip(activities, counts, strict=True):
                for resource, amount in each.makes.items():
                    left[resource] = left.get(resource, 0) + amount * count
            if min(left.values(), default=0) >= 0:
                cost = sum(o.cost for o in offers) + sum(
                    each.cost * n for each, n in zip(activities, counts, strict=True)
                )
                best = cost if best is None else min(best, cost)
    return best


RESOURCES = st.dictionaries(st.sampled_from("abc"), st.integers(1, 3), max_size=2)
OFFERS = st.tuples(st.integers(0, 9), RESOURCES)
CRAFTS = st.tuples(
    st.lists(st.lists(OFFERS, min_size=1, max_size=3), min_size=1, max_size=3),
    st.lists(st.tuples(st.integers(1, 9), RESOURCES), max_size=2),
    st.dictionaries(st.sampled_from("abc"), st.integers(0, 4)),
)


@settings(deadline=None, max_examples=120)
@given(CRAFTS)
def test_nothing_is_cheaper_than_the_assignment(small):
    offers, made, there = small
    jobs = [
        Job(f"C{n}", tuple(Offer(k, cost, takes) for k, (cost, takes) in enumerate(each)))
        for n, each in enumerate(offers)
    ]
    # An activity that takes nothing is a purchase; the same takes no more than three here.
    activities = [Activity(n, cost, {}, makes, most=3) for n, (cost, makes) in enumerate(made)]
    found, best = assign(jobs, activities, there), tried_out(jobs, activities, there)
    assert (found is None) == (best is None)
    if found is not None:
        assert found.optimal and found.cost == pytest.approx(best) and found.bound == pytest.approx(best)


def test_the_first_cable_leaves_the_short_one_to_the_cable_that_needs_it():
    """Greedy: C1 takes the only stock cable, saving 2, and C2 must be crimped for 20.  Best: C1 buys for 3."""
    jobs = [
        Job("C1", (Offer("stock", 1, {"cable": 1}), Offer("buy", 3))),
        Job("C2", (Offer("stock", 1, {"cable": 1}), Offer("crimp", 20))),
    ]
    found = assign(jobs, [], {"cable": 1})
    assert ([offer.way for offer in found.offers], found.cost) == (["buy", "stock"], 4)


def test_the_longest_first_wastes_a_lead_that_two_tails_could_share():
    """Leads of 150 mm, tails of 90, 80, 70 and 60 mm: 90 + 60 and 80 + 70 need two leads; 90 + 70 would not fit."""
    lengths = (90, 80, 70, 60)
    jobs = [Job(f"W{length}", (Offer("tail", 0, {length: 1}),)) for length in lengths]
    cuts = [Activity((a,), 1, {"lead": 1}, {a: 1}) for a in lengths]
    cuts += [
        Activity((a, b), 1, {"lead": 1}, {a: 1, b: 1}) for a, b in itertools.combinations(lengths, 2) if a + b <= 150
    ]
    found = assign(jobs, cuts, {"lead": 9})
    assert found.cost == 2 and set(found.times) == {(90, 60), (80, 70)}


def test_packs_are_bought_whole():
    jobs = [Job(f"C{n}", (Offer("assemble", 0, {"housing": 1}), Offer("crimp", 3))) for n in range(3)]
    found = assign(jobs, [Activity("pack of 10", 5, {}, {"housing": 10})], {})
    assert (found.cost, found.times) == (5, {"pack of 10": 1})


def test_what_cannot_be_done_is_none():
    assert assign([Job("C1", (Offer("stock", 1, {"cable": 1}),))], [], {}) is None


def test_the_master_rolls_of_a_published_cutting_stock_problem():
    """Rolls 5600 mm wide, thirteen widths: 73 rolls, the optimum of the well-known paper mill example (from memory).

    The 219 pieces are 407,160 mm, which alone needs 72.7 rolls, so that 73 is the least there can be.
    """
    demand = {
        1380: 22,
        1520: 25,
        1560: 12,
        1710: 14,
        1820: 18,
        1880: 18,
        1930: 20,
        2000: 10,
        2050: 12,
        2100: 14,
        2140: 16,
        2150: 18,
        2200: 20,
    }
    patterns = [
        {width: cut.count(width) for width in cut}
        for size in range(1, 5)
        for cut in itertools.combinations_with_replacement(demand, size)
        if sum(cut) <= 5600
    ]
    jobs = [Job("all", (Offer("all", 0, demand),))]
    activities = [Activity(n, 1, {}, pattern) for n, pattern in enumerate(patterns)]
    found = assign(jobs, activities, {}, seconds=60)
    assert (sum(demand.values()), sum(width * count for width, count in demand.items())) == (219, 407160)
    assert found.optimal and found.cost == 73


def test_a_tie_never_outweighs_a_price():
    """A thousandth of money decides against any tie; only at the same price the tie does."""
    dear = Offer("dear", 1.001, {}, 0.0)
    cheap = Offer("cheap", 1.0, {}, 1e6)
    assert [offer.way for offer in assign([Job("C1", (dear, cheap))], [], {}).offers] == ["cheap"]
    same = Offer("same", 1.0, {}, 2.0)
    less = Offer("less", 1.0, {}, 1.0)
    assert [offer.way for offer in assign([Job("C1", (same, less))], [], {}).offers] == ["less"]


def test_what_is_bought_for_nothing_is_bought_as_seldom_as_it_must():
    job = Job("C1", (Offer("only", 0.0, {"wire": 2.0}),))
    packs = [Activity("pack", 0.0, {}, {"wire": 1.0}, 10_000, 1.0)]
    assert assign([job], packs, {}).times == {"pack": 2}
