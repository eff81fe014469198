"""Which cables meet a pack: they are made after all that never do.  Logic; packs are live: common practice."""

import pytest

from crafts.craft_kit import captive, craft, pads, plug, two_pin
from tabside.analysis.joined.lead_ends import how_leads_are_made
from tabside.make.needs.cable_jobs import cable_jobs
from tabside.make.needs.live_leads import meets_pack
from tabside.make.needs.working_order import in_working_order

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


def test_what_meets_a_pack_is_made_after_all_else_and_its_own_leads_minus_first():
    """A plug that mates with the pack's is soldered while the pack is away; one that only goes in comes last of all."""
    made = craft(
        captive("X1", "B G", board="pack 1", signals="VBAT, GND", gives="VBAT 30A"),
        two_pin("F1", "B", "FED", value="30A"),
        pads("P1", "FED G", board="hub", signals="VBAT, GND"),
        captive("X3", "B3 G3", board="pack 3", signals="VBAT, GND", gives="VBAT 30A", family="XT60"),
        pads("P3", "B3 G3", board="lamp", signals="VBAT, GND"),
        captive("X4", "B4 G4", board="pack 4", signals="VBAT, GND", gives="VBAT 30A", family="XT60"),
        plug("J4", "B4 G4", board="heater", signals="VBAT, GND", family="XT60"),
        *CAMERA,
    )
    jobs = cable_jobs(made, how_leads_are_made(made))
    for start in range(len(jobs)):
        turned = [*jobs[start:], *jobs[:start]]
        for listed in (turned, turned[::-1]):
            order = [set(job.terminations) for job in in_working_order(made, listed)]
            away = [order.index({"F1", "P1"}), order.index({"X2", "P2"})]
            assert sorted(away) == [0, 1]
            assert order[2:] == [{"X3", "P3"}, {"X1", "P1"}, {"X1", "F1"}, {"X4", "J4"}]
