"""Which cables meet a pack: they are made after all that never do.  Logic; packs are live: common practice."""

import pytest

from crafts.craft_kit import captive, craft, pads, plug
from tabside.analysis.lead_ends import how_leads_are_made
from tabside.make.needs.cable_jobs import cable_jobs
from tabside.make.needs.live_leads import meets_pack

PACK = (
    captive("X1", "B G", board="pack", signals="VBAT, GND", gives="VBAT 30A"),
    pads("P1", "B G", board="hub", signals="VBAT, GND"),
)
CAMERA = (
    captive("X2", "V H", board="camera", signals="5V, GND"),
    pads("P2", "V H", board="hub", signals="5V, GND", gives="5V 2A"),
)
# The pack's own monitor: a socket on the pack itself, whose cable carries signals alone.
MONITOR = (
    plug("J1", "SDA SCL", board="pack", family="JST GH", signals="SDA, SCL"),
    plug("J2", "SDA SCL", board="hub", family="JST GH", signals="SDA, SCL"),
)


@pytest.mark.parametrize(
    ("symbols", "meets"),
    [
        pytest.param(PACK, {"X1": True}, id="a pack's own leads"),
        pytest.param(CAMERA, {"X2": False}, id="another part's own leads"),
        pytest.param((*PACK, *MONITOR), {"X1": True, "J1": False}, id="a socket on the pack"),
    ],
)
def test_a_cable_meets_a_pack_at_the_pack_s_own_leads(symbols, meets):
    made = craft(*symbols)
    jobs = cable_jobs(made, how_leads_are_made(made))
    assert {ref: meets_pack(made, job) for job in jobs for ref in job.terminations if ref in meets} == meets
