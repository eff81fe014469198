"""Leads of power that nothing decides, and the verdict that they leave.  Logic."""

from __future__ import annotations

import pytest

from crafts.craft_kit import captive, craft, plug, power
from crafts.finding_kit import at, findings_of
from tabside.model.craft import Acceptance, CraftSettings
from tabside.model.findings import Outcome
from tabside.model.roles import Volts
from tabside.rules import check_craft
from tabside.rules.not_judged import not_judged

UNKNOWN = (
    plug("J1", "A B G", board="one", signals="12V, FOO, GND"),
    plug("J2", "A B G", board="two", signals="FROB, BAR, GND"),
)


def test_one_finding_with_the_leads_of_power_alone():
    found = findings_of(not_judged, *UNKNOWN)
    assert len(found) == 1 and at(found[0]) == {"J1:1", "J2:1"}


def test_a_net_named_after_a_rail_counts():
    found = findings_of(
        not_judged,
        plug("J1", "+12V G", board="one", signals="FOO, GND"),
        plug("J2", "+12V G", board="two", signals="BAR, GND"),
        power("+12V"),
    )
    assert at(found[0]) == {"J1:1", "J2:1"}


def test_the_verdict_is_not_decided_until_each_lead_is_accepted():
    two = (plug("J1", "A B G", signals="12V, 5V, GND"), plug("J2", "A B G", signals="FROB, NIX, GND"))
    accept = [Acceptance("not-judged", ((("J1", n)), (("J2", n))), "looked up in the manual") for n in ("1", "2")]
    for some, outcome in ((accept[:1], Outcome.NOT_DECIDED), (accept, Outcome.CLEAR), ([], Outcome.NOT_DECIDED)):
        verdict = check_craft(craft(*two, settings=CraftSettings(accept=tuple(some))))
        assert verdict.outcome is outcome


def test_all_leads_that_are_not_judged_are_named():
    verdict = check_craft(craft(*UNKNOWN))
    assert [(each.ends[0].contact, each.ends[1].contact) for each in verdict.not_judged] == [("1", "1"), ("2", "2")]


PACK = (
    captive("X1", "A B", board="pack", family="amass_xt60", signals="VBAT, GND", gives="VBAT 30A"),
    plug("J1", "A B", board="camera", family="JST PH", signals="VIN, GND", takes="7-17V 0.3A"),
)


def test_a_range_on_a_pack_of_unknown_volts_is_not_decided():
    (found,) = findings_of(not_judged, *PACK)
    assert at(found) == {"X1:1", "J1:1"} and 'battery = "4S"' in found.fix
    assert check_craft(craft(*PACK)).outcome is Outcome.NOT_DECIDED


def test_nothing_is_open_when_the_pack_is_known():
    assert not findings_of(not_judged, *PACK, settings=CraftSettings(battery=Volts(12.0, 16.8)))


def test_leads_of_a_pack_that_have_no_names_are_live():
    main = captive("X1", "P G", board="pack", signals="BAT+, BAT-", gives="4S 30A")
    board = plug("J1", "P G", board="esc", signals="VBAT, GND")
    taps = captive("X2", "A B C D", board="pack", family="JST XH")
    charger = plug("J2", "D C B A", board="charger", family="JST XH")
    (found,) = findings_of(not_judged, main, board, taps, charger)
    assert found.undecided == 4
    assert check_craft(craft(main, board, taps, charger)).outcome is Outcome.NOT_DECIDED


def in_series(gives=""):
    return (
        captive("X1", "M G", board="lower", signals="BAT+, BAT-", gives=gives),
        captive("X2", "A M", board="upper", signals="BAT+, BAT-", gives=gives),
        plug("J1", "A G", board="driver", signals="VBAT, GND", takes="10-26V 20A"),
    )


def test_packs_in_series_that_say_nothing_are_not_decided_by_the_craft_file():
    """It may say what each of them has, or all together: 16.8 V or 33.6 V on this input.  Logic."""
    four = CraftSettings(battery=Volts(12.0, 16.8))
    (found,) = findings_of(not_judged, *in_series(), settings=four)
    assert "X1 and X2 are packs in series" in found.fix or "X2 and X1 are packs in series" in found.fix
    assert check_craft(craft(*in_series(), settings=four)).outcome is Outcome.NOT_DECIDED
    assert not findings_of(not_judged, *in_series("2S 60A"), settings=four)


@pytest.mark.parametrize(
    ("signals", "own", "outcome"),
    [
        pytest.param("PWM1, GND", "A G", Outcome.CLEAR, id="a signal and ground"),
        pytest.param("GND, PWM1", "A G", Outcome.CLEAR, id="ground and a signal"),
        pytest.param("5V, GND", "A G", Outcome.NOT_DECIDED, id="a supply and ground"),
        pytest.param("FOO, GND", "A G", Outcome.NOT_DECIDED, id="what nobody knows and ground"),
        pytest.param("PWM1, GND", "A G -", Outcome.NOT_DECIDED, id="one of three"),
    ],
)
def test_a_switch_on_two_leads_without_names_carries_no_power(signals, own, outcome):
    made = craft(
        plug("J1", "A G", board="pilot", family="JST GH", signals=signals), captive("X1", own, board="limit switch")
    )
    assert check_craft(made).outcome is outcome
