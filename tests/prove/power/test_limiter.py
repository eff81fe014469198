"""A bench supply never meets a pack.  Logic: brute force along the wires, no source outside."""

import random
from collections import Counter

import pytest

from benches.shared import PLUG_ENDS
from crafts.craft_kit import captive, craft, plug, splice
from crafts.pack_crafts import craft_of, some_packs
from tabside.analysis.joined.lead_ends import EndKind, how_leads_are_made
from tabside.analysis.joined.part_plugs import packs
from tabside.model.craft import Kind
from tabside.model.groups import Groups
from tabside.prove.bench.world import World
from tabside.prove.power.limiter import limiter_of
from tabside.prove.power.supplies import Supplies


def packs_met(made, leads, reference):
    """Packs of which the craft's side of this plug reaches both poles when it is out.

    All else is in and on, and every board conducts from each contact to each other.
    """
    groups = Groups()
    for lead in leads:
        sites = [("cavity" if end.kind in PLUG_ENDS and end.key[0] == reference else "", end.key) for end in lead.ends]
        groups.join(*sites)
    for termination in made.terminations.values():
        if termination.kind in (Kind.INLINE, Kind.SPLICE):
            for contact in termination.contacts[1:]:
                groups.join(("", termination.contacts[0].key), ("", contact.key))
        elif termination.board not in packs(made):
            for contact in termination.contacts:
                groups.join(("", contact.key), ("inside", termination.board))
    is_mate = any(end.kind is EndKind.MATE and end.key[0] == reference for lead in leads for end in lead.ends)
    here = [("cavity" if is_mate else "", contact.key) for contact in made.terminations[reference].contacts]
    met = {("", contact.key): end.board for end in made.terminations.values() for contact in end.contacts}
    found = Counter(board for at, board in met.items() if any(groups.together(at, side) for side in here))
    return {board for board, poles in found.items() if board in packs(made) and poles > 1}


def limited(made):
    leads = how_leads_are_made(made)
    return leads, limiter_of(Supplies(World(made, leads, None)))


@pytest.mark.parametrize("begin", range(0, 400, 100))
def test_a_bench_supply_is_offered_only_where_it_meets_no_pack(begin):
    offered = 0
    for seed in range(begin, begin + 100):
        made = craft_of(some_packs(random.Random(seed)))
        leads, limiter = limited(made)
        if limiter.bench_supply:
            offered += 1
            (into,) = limiter.into
            assert limiter.smoke_stopper and not packs_met(made, leads, into.rpartition("/")[2]), (seed, into)
    assert offered > 10


def test_a_pack_that_is_soldered_behind_the_plug_of_another_stays_so_no_bench_supply_goes_in_there():
    made = craft(
        captive("J1", ["BAT", "MID"], board="pack", signals="BAT+, GND", gives="VBAT 45A", family="XT60"),
        captive("J8", ["MID", "GND"], board="pack two", signals="BAT+, GND", gives="VBAT 45A"),
        splice("X3", "MID"),
        splice("X4", "BAT"),
        plug("J2", ["BAT", "GND"], board="power", signals="BAT+, GND", family="XT60", takes="9-60V 1A"),
    )
    leads, limiter = limited(made)
    assert packs_met(made, leads, "J1") == {"pack two"}
    assert limiter.smoke_stopper and not limiter.bench_supply
