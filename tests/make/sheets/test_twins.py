"""Which cables one sheet serves.  Logic."""

from __future__ import annotations

from crafts.craft_kit import captive, craft, plug
from tabside.analysis.judgement import Judgement
from tabside.documents.build import craft_build
from tabside.rules import check_judgement


def same_as(*symbols):
    judgement = Judgement(craft(*symbols))
    build = craft_build(judgement.craft, check_judgement(judgement), judgement=judgement)
    return [cable.same_as for cable in build.plan.cables]


def controller(number, nets):
    return (
        captive(f"X{number}", nets, board=f"esc{number}", family="pinheader_254", signals="SIG, 5V, GND"),
        plug(f"J{number}", nets, board="pilot", family="pinheader_254", signals=f"S{number}, 5V, GND"),
    )


def test_two_leads_of_speed_controllers_are_alike():
    first, second = same_as(*controller(1, "A V G"), *controller(2, "B W H"))
    assert first is None and second


def test_one_with_a_wire_pulled_is_not():
    assert same_as(*controller(1, "A V G"), *controller(2, "B - H")) == [None, None]
