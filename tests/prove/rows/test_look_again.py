"""The look at plugs that fit into each other's connectors, on a rebuilt craft: only where hands plug something in.

Logic, no source outside.
"""

from __future__ import annotations

import pytest

from crafts.craft_kit import craft, plug
from tabside.analysis.joined.lead_ends import how_leads_are_made
from tabside.analysis.judgement import Judgement
from tabside.prove.continuity import prove_craft
from tabside.prove.measurement import Section
from tabside.prove.rows.eye import look_again

BUS, SERIAL = "5V, SDA, SCL, GND", "5V, TX1, RX1, GND"


@pytest.fixture(scope="module")
def proof():
    """Two like connectors of one pilot for different things, whose own connectors are of other families."""
    made = craft(
        plug("J1", "V1 A1 B1 G1", board="pilot", family="JST GH", signals=BUS),
        plug("J2", "V2 A2 B2 G2", board="pilot", family="JST GH", signals=SERIAL),
        plug("J3", "V1 A1 B1 G1", board="baro", family="JST SH", signals=BUS),
        plug("J4", "V2 B2 A2 G2", board="radio", family="JST ZH", signals="5V, TX, RX, GND"),
    )
    return prove_craft(made, how_leads_are_made(made), Judgement(made).pack)


@pytest.fixture(scope="module")
def look(proof):
    """One row for both like connectors, under the name of the first."""
    (row,) = (row for row in proof.rows if row.group is Section.PLUGGING)
    assert row.where.termination == "J1" and len(row.leads) == 8
    return row


def test_it_is_at_those_alone_that_are_plugged_in(proof, look):
    second = look_again(proof.world, look, {"J2"})
    assert second.where.termination == "J2" and second.look_at == "pilot/J2"
    assert second.expect.endswith("other plugs fit in there as well")
    assert {proof.world.made[mark].lead.cable for mark in second.leads} == {"C2"}
    both = look_again(proof.world, look, {"J1", "J2"})
    assert both.expect.endswith("so at pilot/J2: one plug fits all") and both.leads == look.leads


def test_it_stays_where_the_other_end_of_such_a_cable_is_plugged_in(proof, look):
    assert look_again(proof.world, look, {"J4"}) == look


def test_there_is_none_where_nothing_of_these_cables_is_plugged_in(proof, look):
    assert look_again(proof.world, look, {"J9"}) is None


def test_other_rows_stay_as_they_are(proof):
    others = [row for row in proof.rows if row.group is not Section.PLUGGING]
    assert others and all(look_again(proof.world, row, set()) == row for row in others)
