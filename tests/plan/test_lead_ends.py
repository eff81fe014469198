"""How the ends of leads are made.  Sources: the connector table (retention of XT60: solder cup; JST SR: insulation
displacement) and common practice, no source."""

import pytest

from craft_kit import captive, pads, plug, splice, two_pin
from small_craft import CAMERA, FUSED, GROUND, LIGHT, PACK, RADIO, small_craft
from tabside.plan.lead_ends import WireFrom, how_leads_are_made


def made(*symbols):
    """{"J1:1 - J3:1": (words of both ends, what the wire is)}"""
    return {
        " - ".join(":".join(end.key) for end in each.ends): (*(end.words for end in each.ends), each.wire_from)
        for each in how_leads_are_made(small_craft(*symbols))
    }


def test_plug_to_plug():
    assert made(*RADIO)["J1:2 - J3:3"] == ("plug jst_gh, 4 ways", "plug jst_gh, 4 ways", WireFrom.NEW)


def test_plug_to_pad():
    assert made(*LIGHT)["J5:1 - P2:1"] == ("plug jst_gh, 2 ways", "solder to pad", WireFrom.NEW)


def test_pad_through_a_fuse_to_pad():
    found = made(*FUSED, *GROUND)
    assert found["F1:1 - P3:1"] == ("solder to in-line part", "solder to pad", WireFrom.NEW)
    assert found["P1:2 - P3:2"] == ("solder to pad", "solder to pad", WireFrom.NEW)


def test_a_captive_part_s_bare_leads_get_a_plug_and_are_no_new_wire():
    assert made(*CAMERA, *GROUND)["J6:1 - J7:1"] == ("captive", "plug jst_xh, 3 ways", WireFrom.CAPTIVE)


def test_a_captive_part_s_own_plug_goes_in_as_it_is():
    assert made(*PACK)["J8:1 - J9:1"] == ("captive", "captive plug amass_xt60, 2 ways", WireFrom.CAPTIVE)


def test_a_captive_part_s_plug_of_another_family_is_cut_off_and_said_so():
    craft = small_craft(
        captive("J1", "A B", board="camera", family="JST SH"), plug("J2", "A B", board="pilot", family="JST GH")
    )
    for lead in how_leads_are_made(craft):
        assert lead.ends[1].words == "plug jst_gh, 2 ways"
        assert lead.notes == ("the plug jst_sh of camera does not go here: cut it off",)


def test_a_captive_plug_whose_order_differs_is_to_be_re_pinned():
    craft = small_craft(
        captive("J1", "A B", board="camera", family="JST SH"), plug("J2", "B A", board="pilot", family="JST SH")
    )
    assert [lead.notes for lead in how_leads_are_made(craft)] == [
        ("re-pin the captive plug: its contact 1 belongs in cavity 2",),
        ("re-pin the captive plug: its contact 2 belongs in cavity 1",),
    ]


def test_a_captive_plug_whose_leads_part_ways_mates_with_neither():
    found = made(
        captive("J1", "A B", board="camera", family="JST SH"),
        plug("J2", "A -", board="pilot", family="JST SH"),
        plug("J3", "- B", board="radio", family="JST SH"),
    )
    assert found["J1:1 - J2:1"][1] == "plug jst_sh, 2 ways"


@pytest.mark.parametrize(
    ("family", "words", "wire"),
    [
        ("XT60", "plug amass_xt60, 2 ways, soldered", WireFrom.NEW),
        ("JST SR", "plug jst_sr, 2 ways, insulation displacement", WireFrom.NEW),
        ("U.FL", "ready-made plug coax_ufl, 2 ways", WireFrom.MADE),
        ("usb_c", "ready-made plug usb_c, 2 ways", WireFrom.MADE),
        ("no such family", "plug of unknown family, 2 ways", WireFrom.NEW),
    ],
)
def test_plugs_that_are_not_crimped(family, words, wire):
    found = made(plug("J1", "A B", board="a", family=family), pads("P1", "A B", board="b"))
    assert found["J1:1 - P1:1"] == (words, "solder to pad", wire)


def test_splices_and_in_line_parts():
    found = made(
        pads("P1", "A", board="a"), splice("P2", "A", board="s"), two_pin("SW1", "B", "C"), pads("P3", "B", board="b")
    )
    assert found["P1:1 - P2:1"] == ("solder to pad", "splice", WireFrom.NEW)
    assert found["P3:1 - SW1:1"] == ("solder to pad", "solder to in-line part", WireFrom.NEW)
