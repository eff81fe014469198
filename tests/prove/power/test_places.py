"""Where a board is measured before power: at its own contacts.  Logic."""

import pytest

from crafts.craft_kit import captive, craft, pads, plug
from tabside.analysis.joined.lead_ends import how_leads_are_made
from tabside.model.roles import Volts
from tabside.prove.bench.world import World
from tabside.prove.power.places import Places
from tabside.prove.power.supplies import Supplies


def test_what_is_left_on_a_board_is_seen_at_its_own_contacts():
    """The pads of the other board would be easier to reach, and stand on the same net."""
    made = craft(
        captive("X1", "B G", board="pack", signals="VBAT, GND", gives="VBAT 30A"),
        pads("P1", "B G", board="hub", signals="VBAT, GND", leads_max=4),
        plug("J2", "B G", board="lamp", family="JST GH", signals="VBAT, GND", takes="9-26V 1A"),
    )
    places = Places(Supplies(World(made, how_leads_are_made(made), None)))
    ((lamp, short),) = places.rail(made.contact(("J2", "1"))).items()
    assert "between lamp/J2:1" in lamp and short.startswith("lamp/J2:1")
    assert "between hub/P1:1" in next(iter(places.rail(made.contact(("P1", "1")))))


@pytest.mark.parametrize(
    ("label", "gives", "volts"),
    [
        pytest.param("VOUT", "", (4.75, 5.25), id="an output without volts: what the load's contact says"),
        pytest.param("VOUT", "5V 2A", (4.75, 5.25), id="stated"),
        pytest.param("VBAT", "", (None, 16.8), id="the pack's, less what the limiter drops"),
    ],
)
def test_volts_that_are_promised_at_a_load(label, gives, volts):
    """5 %: common practice, no source.  A pack's own volts are never expected behind a regulator."""
    made = craft(
        captive("X1", "B G", board="pack", signals="VBAT, GND", gives="4S 30A"),
        pads("P1", "B G", board="hub", signals="VBAT, GND"),
        plug("J1", "V G", board="hub", family="JST GH", signals=f"{label}, GND", gives=gives),
        plug("J2", "V G", board="lamp", family="JST GH", signals="5V, GND"),
    )
    places = Places(Supplies(World(made, how_leads_are_made(made), Volts(12.0, 16.8))))
    assert places.promised(made.contact(("J1", "1")), made.contact(("J2", "1"))) == volts
