"""Values just inside a limit and just beyond it, and what must stay open; each limit is named beside its case."""

import pytest

from crafts.craft_kit import captive, craft, how, pads, plug, power
from crafts.finding_kit import findings_of
from tabside.analysis.joined.lead_ends import how_leads_are_made
from tabside.analysis.judgement import Judgement
from tabside.analysis.meeting.outcome import Cause
from tabside.make.needs.allowances import allowance_mm, cut_mm
from tabside.make.needs.cable_jobs import Want
from tabside.model.craft import CraftSettings
from tabside.model.stock import Cutting, StockCable
from tabside.rules.no_return import no_return
from tabside.rules.slack import slack


def packs(first, second):
    return craft(
        captive("X1", "A G", board="front pack", signals="VBAT, GND", gives=f"{first} 30A"),
        captive("X2", "B H", board="rear pack", signals="VBAT, GND", gives=f"{second} 30A"),
        pads("P1", "A G", board="front drive", signals="VBAT, GND"),
        pads("P2", "B H", board="rear drive", signals="VBAT, GND"),
    )


def test_two_different_packs_leave_open_what_the_battery_reaches():
    assert Judgement(packs("3S", "6S")).pack is None
    assert Judgement(packs("6S", "3S")).pack is None
    alike = Judgement(packs("4S", "4S")).pack
    assert alike is not None and alike.high == pytest.approx(16.8)  # 4 cells of 4.2 V


def met(first, second):
    """How a source of one rail and a source of another agree."""
    made = craft(
        pads("P1", "A", board="a", signals="VCC", gives=f"{first} 1A"),
        pads("P2", "A", board="b", signals="VCC", gives=f"{second} 1A"),
    )
    (found,) = Judgement(made).outcomes.values()
    return found


@pytest.mark.parametrize(("volts", "clashes"), [("5V", False), ("5.55V", False), ("5.6V", True), ("5.65V", True)])
def test_named_rails_may_be_ten_per_cent_apart(volts, clashes):
    """Of the higher one; common practice, no source.  5.55 V may differ by 0.555 V, 5.6 V by 0.56 V."""
    assert met("5V", volts).clashes is clashes


@pytest.mark.parametrize(("pack", "cause"), [("1S", Cause.CLASSES), ("4S", Cause.OVER)])
def test_a_pack_on_a_regulated_rail_says_whether_its_volts_are_too_many(pack, cause):
    """One cell reaches 4.2 V, below the rail of 9 V; four reach 16.8 V."""
    found = met("9V", pack)
    assert found.clashes and found.cause is cause


@pytest.mark.parametrize(("length_mm", "too_short"), [(99.96, False), (99.94, True), (99.5, True)])
def test_a_kept_cable_may_lack_less_than_half_a_tenth_of_a_millimetre(length_mm, too_short):
    cable = StockCable(
        "spare", (("jst_sh", 2), ("jst_sh", 2)), ((1, 1), (2, 2)), "straight", length_mm, 1, reserved=("J1", "J2")
    )
    settings = CraftSettings(stock_cables=(cable,), lengths_mm={("J1", "J2"): 100.0})
    found = findings_of(
        slack,
        plug("J1", "V G", board="pilot", family="JST SH", signals="5V GND"),
        plug("J2", "V G", board="radio", family="JST SH", signals="5V GND"),
        settings=settings,
    )
    assert bool(found) is too_short


def test_a_wire_with_two_soldered_ends_is_cut_longer_for_both():
    """Worked out by hand: 2 mm bare and 5 mm to make it again, at each of two ends."""
    made = craft(pads("P1", "A", board="a", signals="TX"), pads("P2", "A", board="b", signals="RX"))
    (lead,) = how_leads_are_made(made)
    assert allowance_mm(lead, None, Cutting(strip_mm=2.0, again_mm=5.0)) == 14.0


def test_nothing_is_added_at_the_end_that_begins_inside_a_part():
    """Worked out by hand: 2.4 mm for the contact of XH (its row of the table) and 5 mm to make it again."""
    made = craft(captive("X1", "A", board="a", signals="TX"), plug("J2", "A", board="b", signals="RX", family="JST XH"))
    (lead,) = how_leads_are_made(made)
    assert allowance_mm(lead, None, Cutting(strip_mm=3.0, again_mm=5.0)) == pytest.approx(7.4)


@pytest.mark.parametrize(
    ("plugs", "joints", "ready", "length_mm"),
    [
        pytest.param((), 2, None, 114.0, id="both ends soldered"),
        pytest.param(("jst_xh",), 1, None, 114.4, id="a crimped end and a soldered one"),
        pytest.param(("jst_xh", "jst_xh"), 0, "jst_xh", 107.4, id="one end has its contact already"),
    ],
)
def test_what_is_bought_and_chosen_is_as_long_as_what_is_cut(plugs, joints, ready, length_mm):
    """Worked out by hand: 2 mm bare, 2.4 mm for the contact of XH (its row of the table), 5 mm to make it again."""
    want = Want(plugs, joints, 0, 28, None, 100.0)
    assert cut_mm(want, ready, Cutting(strip_mm=None if plugs else 2.0, again_mm=5.0)) == pytest.approx(length_mm)


def test_the_best_wire_between_two_connectors_says_who_is_served_first():
    """J3 has a supply behind J2's, and a signal: the signal counts."""
    made = craft(
        plug("J1", "V W S G", board="pilot", signals="5V, 5V, TX, GND"),
        plug("J2", "V G", board="lamp", signals="5V, GND"),
        plug("J3", "W S G", board="radio", signals="5V, RX, GND"),
    )
    assert how(made)["J1:4 - J3:3"] == "beside"


def test_the_partner_over_a_signal_gets_the_only_ground_before_one_over_a_supply():
    """J1 has one ground contact; J2 comes first by its reference, J3 carries the signal."""
    made = craft(
        plug("J1", "V S G", board="pilot", signals="5V, TX, GND"),
        plug("J2", "V G", board="lamp", signals="5V, GND"),
        plug("J3", "S G", board="radio", signals="RX, GND"),
    )
    assert how(made)["J1:3 - J3:2"] == "beside"


def with_ground_over_the_pack(*symbols):
    """The boards pilot and radio have a ground in common over other wires than these."""
    return (
        *symbols,
        pads("TP1", "GND", board="pilot", signals="GND"),
        pads("TP2", "GND", board="radio", signals="GND"),
        captive("X1", "GND", board="pack", signals="GND", kind="captive"),
        power("GND"),
    )


def test_a_ground_that_went_astray_is_told_by_its_clash_alone():
    """The ground of J1 is drawn to a TX of a third board: that is told, not a missing ground beside J1's signal."""
    pilot, radio = plug("J1", "A B", board="pilot", signals="TX, GND"), plug("J2", "A", board="radio", signals="RX")
    lamp = plug("J3", "B", board="lamp", signals="TX")
    assert not findings_of(no_return, *with_ground_over_the_pack(pilot, radio, lamp))
    bare = plug("J1", "A", board="pilot", signals="TX")
    assert findings_of(no_return, *with_ground_over_the_pack(bare, radio))
