"""What a sheet says of plugs about which the drawing contradicts itself."""

from crafts.craft_kit import plug
from crafts.small_craft import small_craft
from tabside.documents.build import craft_build
from tabside.rules import check_craft

GH_6 = "Connector_JST:JST_GH_SM06B-GHS-TB_1x06-1MP_P1.25mm_Horizontal"


def looks(**fields):
    names = list("ABCDEF")
    craft = small_craft(
        plug("J1", names, board="pilot", footprint=GH_6, tabs="away", **fields),
        plug("J2", names, board="radio", footprint=GH_6, tabs="away"),
        leads={"*": {"length_mm": 100.0, "gauge_awg": 28}},
    )
    (sheet,) = craft_build(craft, check_craft(craft)).plan.cables
    return [text for text in sheet.needs_one_look if text.startswith("pilot/J1")]


def test_a_family_that_is_not_the_footprint_s_is_said_on_the_sheet():
    """Who works from the paper alone would buy housings that do not fit."""
    (text,) = looks(family="JST SH")
    assert "Family is JST SH, but the footprint" in text and "is of JST GH" in text and "Look at the real part" in text
    assert "not stated" not in text  # the fields are there; they contradict each other


def test_an_end_of_contact_1_that_is_not_the_footprint_s_is_said_on_the_sheet():
    (text,) = looks(contact_1="right")
    assert "Contact 1 is right" in text and "count from there" in text


def test_a_plug_of_which_all_is_clear_wants_no_look():
    assert looks(family="JST GH", contact_1="left", entry="side") == []
