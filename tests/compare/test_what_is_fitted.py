"""Boards and parts that are marked DNP, and board connectors of another footprint.

What nobody fits is nobody's work; common practice, no source.
"""

from __future__ import annotations

import pytest

from crafts.craft_kit import captive, craft, plug
from crafts.craft_kit import two_pin as part
from tabside.compare import compare_crafts

GH = "Connector_JST:JST_GH_SM04B-GHS-TB_1x04-1MP_P1.25mm_Horizontal"
SH = "Connector_JST:JST_SH_SM04B-SRSS-TB_1x04-1MP_P1.00mm_Horizontal"


def boat(**sounder):
    return craft(
        captive("J1", "BAT GND", board="pack", signals="BAT+, GND", family="XT60", gives="12-16V"),
        plug("J2", "BAT GND", board="pilot", signals="BAT+, GND", family="XT60"),
        plug("J12", "V TX RX GND", board="pilot", signals="5V, TX, RX, GND", family="JST GH"),
        plug("J18", "V TX RX GND", board="sounder", signals="5V, RX, TX, GND", family="JST GH", **sounder),
    )


def changes(old, new):
    return [(each.kind, each.subject, each.bench) for each in compare_crafts(old, new).changes]


def test_a_board_that_is_marked_dnp_leaves_the_craft_and_is_fitted_to_nothing():
    there, back = (changes(*pair) for pair in ((boat(), boat(dnp=True)), (boat(dnp=True), boat())))
    assert {subject for _, subject, _ in there} == {"board", "termination", "lead", "cable", "setting"}
    assert not any("J18" in bench or "Fit " in bench for _, _, bench in there)
    assert ("added", "board") in {each[:2] for each in back} and not {"part"} & {each[1] for each in back}


def test_a_part_that_is_marked_dnp_is_taken_out():
    def with_part(**more):
        return craft(
            plug("J1", "CANH CANL", board="pilot", signals="CANH, CANL", family="JST GH"),
            plug("J2", "CANH CANL", board="gps", signals="CANH, CANL", family="JST GH"),
            part("R1", "CANH", "CANL", value="120", **more),
        )

    (gone,) = changes(with_part(), with_part(dnp=True))
    assert gone[:2] == ("removed", "part") and gone[2].startswith("Take out 1")
    assert [each[:2] for each in changes(with_part(dnp=True), with_part())] == [("added", "part")]


@pytest.mark.parametrize(
    ("before", "after", "differs"),
    [
        pytest.param(SH, GH, True, id="another family"),
        pytest.param(SH, SH.replace("SM04B", "BM04B").replace("Horizontal", "Vertical"), True, id="top entry"),
        pytest.param(SH, SH.replace("Connector_JST", "my_parts"), False, id="the library alone"),
        pytest.param("", SH, False, id="stated now"),
    ],
)
def test_another_footprint_is_a_change(before, after, differs):
    def of(footprint):
        ends = (("J1", "pilot", ""), ("J2", "radio", footprint))
        more = {"signals": "5V A B GND", "family": "JST SH", "entry": "side", "contact_1": "left", "tabs": "away"}
        return craft(*(plug(r, "V A B GND", board=b, footprint=f, **more) for r, b, f in ends))

    found = compare_crafts(of(before), of(after))
    told = [each for each in found.changes if each.subject == "termination" and "footprint" in (each.after or "")]
    assert bool(told) is differs


@pytest.mark.parametrize(("draw", "told"), [(captive, True), (plug, False)], ids=["a part", "a connector"])
def test_the_value_of_a_part_with_its_own_wires_says_which_part_it_is(draw, told):
    """That of a connector's symbol is a name, which may be printed on the board."""

    def lit(value):
        return craft(
            plug("J1", "V GND", board="hub", signals="5V, GND", family="JST GH", gives="5V 1A"),
            draw("J2", "V GND", board="lamp", signals="5V, GND", family="JST GH", takes="5V 0.1A", value=value),
        )

    found = compare_crafts(lit("lamp, round"), lit("lamp, long")).changes
    (fact,) = [each for each in found if each.subject == "fact"]
    assert (fact.before, fact.after) == ("lamp, round", "lamp, long")
    assert fact.name.endswith(": value") is told
