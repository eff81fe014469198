"""What packs reach on the rails that they feed.

Volts of a lithium cell: 3.0 empty, 4.2 full (trade guides, grade C): two cells 6.0 to 8.4 V.
"""

from __future__ import annotations

import pytest

from crafts.craft_kit import captive, contact, craft, pads
from tabside.analysis.judgement import Judgement
from tabside.model.roles import Volts


def reach(of, gives):
    made = craft(
        captive("X1", "MID GND", board="lower", signals="BAT+, BAT-", gives=gives),
        captive("X2", "V MID", board="upper", signals="BAT+, BAT-", gives=gives),
        pads("P1", "V GND", board="driver", signals="VBAT, GND"),
    )
    return Judgement(made).packs.reach_of(contact(made, of))


@pytest.mark.parametrize(
    ("of", "gives", "volts"),
    [
        pytest.param("P1:1", "2S 30A", Volts(12.0, 16.8), id="both together"),
        pytest.param("X1:1", "2S 30A", None, id="in the middle of the stack: no battery"),
        pytest.param("P1:1", "30A", None, id="packs that do not say their volts"),
    ],
)
def test_packs_in_series_reach_their_sum_where_it_comes_out(of, gives, volts):
    assert reach(of, gives) == volts
