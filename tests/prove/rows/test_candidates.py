"""From where a row may begin.  Logic: a probe reaches a ground on a board, and none inside a part."""

from crafts.craft_kit import captive, craft, pads
from tabside.analysis.joined.lead_ends import how_leads_are_made
from tabside.prove.bench.world import World
from tabside.prove.measurement import At
from tabside.prove.rows.candidates import Candidates


def test_no_row_begins_at_a_ground_of_a_part_that_brings_its_own_plug():
    made = craft(
        pads("P1", "V G", board="driver", signals="VBAT, GND", gives="VBAT 5A"),
        captive("X1", "V G", board="pump", family="XT30", signals="VBAT, GND", takes="9-26V 5A"),
    )
    world = World(made, how_leads_are_made(made), None)
    grounds = [row.where.board for row in Candidates(world).all() if row.where.at is At.GROUND]
    assert set(grounds) == {"driver"}
