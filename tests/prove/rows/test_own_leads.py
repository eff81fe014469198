"""Which of a part's own leads goes where: told at the cut and looked at in the end, as no meter tells them apart.

What is expected is the drawing: a buzzer or a lamp has a plus and a minus of its own, whatever its pads are called.
"""

import pytest

from crafts.craft_kit import captive, pads, plug, two_pin
from crafts.small_craft import small_craft
from tabside.analysis.joined.lead_ends import how_leads_are_made
from tabside.documents.build import craft_build
from tabside.prove.continuity import prove_craft
from tabside.prove.measurement import RowKind
from tabside.rules import check_craft

FACTS = {"*": {"length_mm": 100.0, "gauge_awg": 26}}


def looks_of(*symbols, **facts):
    craft = small_craft(*symbols, leads={"*": FACTS["*"] | facts})
    rows = prove_craft(craft, how_leads_are_made(craft), None).rows
    return craft, [row.words for row in rows if row.kind is RowKind.LOOK]


@pytest.mark.parametrize("drawn", [["P1", "P2"], ["P2", "P1"]])
def test_the_eye_row_says_which_lead_of_the_buzzer_is_on_which_pad(drawn):
    """Pads whose names say nothing of polarity."""
    pads_there = pads("TP1", ["P1", "P2"], board="fc", signals="AUX1, AUX2")
    craft, looks = looks_of(pads_there, captive("J2", drawn, board="buzzer", signals="+, -"))
    name = {"P1": "AUX1", "P2": "AUX2"}
    told = " ".join(looks)
    for number, net in enumerate(drawn, 1):
        assert f"is buzzer/J2 lead {number} ({'+-'[number - 1]}), on {net[1]} ({name[net]})" in told
    words = [step.words for cable in craft_build(craft, check_craft(craft)).plan.cables for step in cable.steps]
    for number, net in enumerate(drawn, 1):
        lead = f"cut buzzer/J2 lead {number} ({'+-'[number - 1]}) "
        assert any(f"({name[net]})" in each and lead in each for each in words)


@pytest.mark.parametrize("colours", [{}, {"colour": "RD"}])
def test_leads_of_a_lamp_that_part_are_told_at_both_places(colours):
    """The plus goes to a switch, the minus to a pad: two places, one part."""
    lamp = captive("J3", ["SWITCHED", "GND"], board="lamp", signals="VBAT, GND", takes="9-26V 1A")
    there = (pads("TP1", ["VBAT", "GND"], board="power", signals="VBAT, GND"), two_pin("SW1", "VBAT", "SWITCHED"))
    _, looks = looks_of(lamp, *there, **colours)
    assert any("Look at power/TP1" in look and "is lamp/J3 lead 2 (GND), on 2 (GND)" in look for look in looks)
    assert any("Look at SW1" in look and "is lamp/J3 lead 1 (VBAT +)" in look for look in looks)


def test_own_leads_that_get_a_plug_are_told_too():
    _, looks = looks_of(plug("J1", ["A", "B"], family="JST GH"), captive("J2", ["B", "A"], board="fan", signals="+, -"))
    assert any("is fan/J2 lead 1 (+), on 2" in look and "is fan/J2 lead 2 (-), on 1" in look for look in looks)


def test_motor_phases_may_change_places_and_a_pack_s_volts_tell_its_leads():
    motor = captive("J2", ["A", "B", "C"], board="motor", signals="A, B, C")
    pack = captive("J3", ["PLUS", "MINUS"], board="pack", signals="BAT+, BAT-", gives="VBAT 10A")
    there = pads("TP1", ["A", "B", "C"], board="esc", signals="M1A, M1B, M1C")
    _, looks = looks_of(motor, pack, there, plug("J4", ["PLUS", "MINUS"], board="hub", family="XT60"))
    assert not any(" lead " in look for look in looks)
