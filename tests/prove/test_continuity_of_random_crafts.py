"""What holds for the continuity sheet of any craft, on crafts drawn by dice; seeds are in the test's name."""

import pytest

from random_crafts import faults_of, sound_plan
from tabside.documents.build import build_plan
from tabside.model.findings import Judged, Verdict
from tabside.prove.continuity import continuity
from tabside.prove.measurement import Test as Kind

SEEDS = range(1, 41)


def crafts(seed):
    plan = sound_plan(seed)
    yield plan.craft()
    yield from (fault.plan.craft() for fault in faults_of(plan, seed))


def measured(craft):
    return continuity(build_plan(craft, Verdict((), Judged(len(craft.leads), 0, 0, 0, 0))))


@pytest.mark.parametrize("seed", SEEDS)
def test_each_lead_is_measured_or_looked_at_once(seed):
    for craft in crafts(seed):
        rows = measured(craft)
        seen = [mark for each in rows if each.test in (Kind.LEAD, Kind.EYE) for mark in each.leads]
        of_packs = {lead.mark for lead in craft.leads if {"X1"} & set(lead.link)}
        assert sorted(seen) == sorted({lead.mark for lead in craft.leads} - of_packs)


@pytest.mark.parametrize("seed", SEEDS)
def test_what_must_be_open_is_never_joined_and_never_more_than_the_plugs_have_room_for(seed):
    for craft in crafts(seed):
        nets = {lead.mark: lead.net_id for lead in craft.leads}
        rows = [each for each in measured(craft) if each.test is Kind.OPEN]
        for each in rows:
            a, b = each.leads
            assert nets[a] != nets[b], each
        assert len({frozenset(each.leads) for each in rows}) == len(rows)
        cavities = sum(len(termination.contacts) for termination in craft.terminations.values())
        assert len(rows) <= 2 * cavities


@pytest.mark.parametrize("seed", SEEDS)
def test_only_volts_are_measured_on_a_pack(seed):
    for craft in crafts(seed):
        for each in measured(craft):
            if each.test is not Kind.VOLTS:
                assert "pack/X1" not in f"{each.start} {each.end}", each
