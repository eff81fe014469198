"""Which leads would have done as well, held against all trees of a small net (brute force)."""

from __future__ import annotations

import random
from itertools import combinations

import pytest

from tabside.model.groups import Groups
from tabside.wiring.leads.alternatives import MOST_SHOWN, Weights, others_as_good
from tabside.wiring.leads.joining import join_islands
from tabside.wiring.leads.lead_tree import Spot, ends_of, pair_of


def random_net(dice):
    spots = []
    for island in range(dice.randint(2, 4)):
        for n in range(dice.randint(1, 2)):
            reference = f"J{island * 2 + n + 1}"
            spots += [Spot((reference, str(k)), island, 1) for k in range(1, dice.randint(1, 2) + 1)]
    pairs = [pair_of(a.key[0], b.key[0]) for a, b in combinations(spots, 2) if a.island != b.island]
    joined = {pair for pair in pairs if dice.random() < 0.3}
    return spots, joined, {pair for pair in joined if dice.random() < 0.5}


def all_trees(spots):
    leads = [(a, b) for a, b in combinations(spots, 2) if a.island != b.island]
    count = len({spot.island for spot in spots})
    for chosen in combinations(leads, count - 1):
        keys = [spot.key for pair in chosen for spot in pair]
        pieces = Groups([("island", str(n)) for n in range(count)])
        fits = len(set(keys)) == len(keys)
        for a, b in chosen:
            ends = ("island", str(a.island)), ("island", str(b.island))
            fits = fits and not pieces.together(*ends)
            pieces.join(*ends)
        if fits:
            yield [ends_of(a.key, b.key) for a, b in chosen]


@pytest.mark.parametrize("seed", range(120))
def test_what_is_named_is_in_a_tree_as_good(seed):
    spots, joined, wanting = random_net(random.Random(seed))
    found = join_islands(spots, joined=joined, wanting=wanting)
    if found is None or len({spot.island for spot in spots}) < 2:
        return
    weights = Weights(joined, wanting)
    best = weights.of(found.leads)
    as_good = [tree for tree in all_trees(spots) if weights.of(tree) == best]
    others = others_as_good(spots, found.leads, weights)
    for lead, named in others.items():
        assert len(named) <= MOST_SHOWN
        for other in named:
            assert any(other in tree and lead not in tree for tree in as_good)
    assert bool(others) == (len(as_good) > 1)
