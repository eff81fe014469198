"""Step 4 of a net's leads against a brute force that lists every set of leads.

The brute force shares nothing with the code under test but the natural order of text.  Source of the objective: the
order of criteria that the product defines for further leads.
"""

from __future__ import annotations

import itertools
import random

import pytest

from tabside.model.natural import natural
from tabside.wiring.leads.joining import join_islands
from tabside.wiring.leads.lead_tree import Spot


def connects(islands, leads):
    """Whether the leads make one piece of all islands."""
    pieces = {island: {island} for island in islands}
    for a, b in leads:
        merged = pieces[a] | pieces[b]
        for island in merged:
            pieces[island] = merged
    return all(len(piece) == len(pieces) for piece in pieces.values())


def brute_force(spots, joined, wanting, length_um):
    """(the best lead list, whether others are as good in all but length and order), or None."""
    by_key = {spot.key: spot for spot in spots}
    islands = {spot.island for spot in spots}

    def order(key):
        return (natural(key[0]), natural(key[1]))

    def pair(lead):
        return tuple(sorted((lead[0][0], lead[1][0]), key=natural))

    usable = [spot.key for spot in spots if spot.room is None or spot.room > 0]
    possible = [
        tuple(sorted((a, b), key=order))
        for a, b in itertools.combinations(usable, 2)
        if by_key[a].island != by_key[b].island
    ]
    possible.sort(key=lambda lead: (order(lead[0]), order(lead[1])))
    lengths = {lead: length_um(*pair(lead)) for lead in possible}
    known = None not in lengths.values()
    solutions = []
    for leads in itertools.combinations(possible, len(islands) - 1):
        used = {key: sum(key in lead for lead in leads) for key in by_key}
        if any(by_key[key].room is not None and used[key] > by_key[key].room for key in by_key if used[key]):
            continue
        if not connects(islands, [(by_key[a].island, by_key[b].island) for a, b in leads]):
            continue
        pairs = {pair(lead) for lead in leads}
        first = (len(pairs - joined), -len(pairs & wanting))
        length = sum(lengths[lead] for lead in leads) if known else 0
        solutions.append((first, length, [(order(a), order(b)) for a, b in leads], leads))
    if not solutions:
        return None
    best = min(solutions, key=lambda solution: solution[:3])
    return best[3], sum(solution[0] == best[0] for solution in solutions) > 1


def random_case(seed, contacts):
    """Contacts of a few terminations in a few islands, with pairs joined already, rooms and lengths of all kinds."""
    dice = random.Random(seed)
    references = [f"J{n}" for n in range(1, dice.randint(2, contacts) + 1)]
    if dice.random() < 0.5:
        references = [f"J{9 + n}" for n in range(len(references))]  # J9 before J10
    islands = dice.randint(2, contacts)
    keys = sorted({(dice.choice(references), str(dice.randint(1, 12))) for _ in range(contacts)})
    dice.shuffle(keys)
    rooms = dice.choice([[1], [1, 1, 2], [1, 2, 4], [0, 1, 2], [1, None], [2, 4]])
    spots = [Spot(key, dice.randrange(islands), dice.choice(rooms)) for key in keys]
    pairs = [tuple(sorted(pair, key=natural)) for pair in itertools.combinations(references, 2)]
    joined = {pair for pair in pairs if dice.random() < dice.choice([0, 0.3, 0.7])}
    wanting = {pair for pair in joined if dice.random() < 0.5}
    style = dice.randrange(4)
    lengths = {pair: dice.choice([10, 20, 20, 30]) if style != 1 else dice.randint(1, 10**6) for pair in pairs}
    lengths |= {(reference, reference): 5 for reference in references}
    if style == 2:
        lengths = dict.fromkeys(lengths)
    if style == 3 and pairs:
        lengths[dice.choice(pairs)] = None
    return spots, joined, wanting, lambda a, b: lengths[a, b]


@pytest.mark.parametrize("block", range(12))
@pytest.mark.parametrize("contacts", [2, 3, 4, 5, 6, 7])
def test_the_leads_are_those_that_brute_force_finds(contacts, block):
    for seed in range(block * 25, block * 25 + 25):
        spots, joined, wanting, length_um = random_case(f"{contacts} {seed}", contacts)
        found = join_islands(spots, joined=joined, wanting=wanting, length_um=length_um)
        if len({spot.island for spot in spots}) < 2:
            assert found is not None and found.leads == ()
            continue
        expected = brute_force(spots, joined, wanting, length_um)
        if expected is None:
            assert found is None, f"seed {contacts} {seed}"
            continue
        assert found is not None, f"seed {contacts} {seed}"
        assert (found.leads, found.chosen, found.note) == (*expected, ""), f"seed {contacts} {seed}"
