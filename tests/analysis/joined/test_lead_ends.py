"""How the ends of leads are made.  Sources: the connector table (retention of XT60: solder cup; JST SR: insulation
displacement) and common practice, no source."""

import pytest

from crafts.craft_kit import captive, pads, plug, splice, two_pin
from crafts.small_craft import CAMERA, FUSED, GROUND, LIGHT, PACK, RADIO, small_craft
from tabside.analysis.joined.lead_ends import WireFrom, how_leads_are_made, is_polarised


def made(*symbols):
    """{"J1:1 - J3:1": (words of both ends, what the wire is)}"""
    return {
        " - ".join(":".join(end.key) for end in each.ends): (*(end.words for end in each.ends), each.wire_from)
        for each in how_leads_are_made(small_craft(*symbols))
    }


def test_plug_to_plug():
    assert made(*RADIO)["J1:2 - J3:3"] == ("JST GH plug, 4-way", "JST GH plug, 4-way", WireFrom.NEW)


def test_plug_to_pad():
    assert made(*LIGHT)["J5:1 - P2:1"] == ("JST GH plug, 2-way", "solder to pad", WireFrom.NEW)


def test_pad_through_a_fuse_to_pad():
    found = made(*FUSED, *GROUND)
    assert found["F1:1 - P3:1"] == ("solder to in-line part", "solder to pad", WireFrom.NEW)
    assert found["P1:2 - P3:2"] == ("solder to pad", "solder to pad", WireFrom.NEW)


def test_a_captive_part_s_bare_leads_get_a_plug_and_are_no_new_wire():
    assert made(*CAMERA, *GROUND)["J6:1 - J7:1"] == ("captive", "JST XH plug, 3-way", WireFrom.CAPTIVE)


def test_a_captive_part_s_own_plug_goes_in_as_it_is():
    assert made(*PACK)["J8:1 - J9:1"] == ("captive", "captive Amass XT60 plug, 2-way", WireFrom.CAPTIVE)


def test_a_captive_part_s_plug_of_another_family_is_cut_off_and_said_so():
    craft = small_craft(
        captive("J1", "A B", board="camera", family="JST SH"), plug("J2", "A B", board="pilot", family="JST GH")
    )
    for lead in how_leads_are_made(craft):
        assert lead.ends[1].words == "JST GH plug, 2-way"
        assert lead.notes == ("the JST SH plug of camera does not go here: cut it off",)


def test_a_captive_plug_whose_order_differs_is_to_be_re_pinned():
    craft = small_craft(
        captive("J1", "A B", board="camera", family="JST SH"), plug("J2", "B A", board="pilot", family="JST SH")
    )
    assert [lead.notes for lead in how_leads_are_made(craft)] == [
        ("re-pin the captive plug of J1: its contact 1 belongs in cavity 2 of J2",),
        ("re-pin the captive plug of J1: its contact 2 belongs in cavity 1 of J2",),
    ]


def test_the_live_plug_of_a_pack_is_never_re_pinned():
    craft = small_craft(
        captive("J1", "A B", board="pack", family="XT60", signals="GND, VBAT"),
        plug("J2", "B A", board="power", family="XT60"),
    )
    assert [lead.notes for lead in how_leads_are_made(craft)] == [
        ("contact 1 of the plug of J1 meets 2 of J2: change J2, not the plug",),
        ("contact 2 of the plug of J1 meets 1 of J2: change J2, not the plug",),
    ]


@pytest.mark.parametrize(
    ("family", "fields"),
    [
        pytest.param("XT60", {}, id="a plug for power"),
        pytest.param("JST PH", {"signals": "GND, VBAT"}, id="a battery by its signal"),
        pytest.param("JST PH", {"gives": "2:5V 3A"}, id="a part that gives power"),
    ],
)
def test_the_plug_of_a_pack_is_never_cut_off_but_gets_its_mate(family, fields):
    """Cutting through both leads of a pack shorts it."""
    craft = small_craft(captive("J1", "A B", board="pack", family=family, **fields), pads("P1", "A B", board="power"))
    for lead in how_leads_are_made(craft):
        assert lead.ends[0].words.startswith("mate of the captive ") and lead.ends[1].words == "solder to pad"
        assert lead.wire_from is WireFrom.NEW and lead.notes == ()


def test_the_plug_of_a_camera_that_goes_to_pads_is_cut_off():
    craft = small_craft(
        captive("J1", "A B", board="camera", family="JST SH", signals="GND, VBAT", takes="7-26V 0.3A"),
        pads("P1", "A B", board="power"),
    )
    for lead in how_leads_are_made(craft):
        assert lead.wire_from is WireFrom.CAPTIVE
        assert lead.notes == ("the JST SH plug of camera does not go here: cut it off",)


def test_two_captive_plugs_of_one_family_mate_with_each_other():
    found = made(captive("J1", "A B", board="pack", family="XT60"), captive("J2", "A B", board="drive", family="XT60"))
    words = "captive Amass XT60 plug, 2-way"
    assert found["J1:1 - J2:1"] == (words, words, WireFrom.CAPTIVE)


def test_a_captive_plug_whose_leads_part_ways_mates_with_neither():
    found = made(
        captive("J1", "A B", board="camera", family="JST SH"),
        plug("J2", "A -", board="pilot", family="JST SH"),
        plug("J3", "- B", board="radio", family="JST SH"),
    )
    assert found["J1:1 - J2:1"][1] == "JST SH plug, 2-way"


@pytest.mark.parametrize(
    ("family", "words", "wire"),
    [
        ("XT60", "Amass XT60 plug, 2-way, soldered", WireFrom.NEW),
        ("JST SR", "JST SR (IDC) plug, 2-way, insulation displacement", WireFrom.NEW),
        ("U.FL", "ready-made Hirose (and IPEX MHF I, Molex MCRF) U.FL plug, 2-way", WireFrom.MADE),
        ("usb_c", "ready-made USB Type-C plug, 2-way", WireFrom.MADE),
        ("no such family", "plug of unknown family, 2-way", WireFrom.NEW),
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


def test_the_balance_plug_of_a_pack_stays_on_though_it_names_no_battery():
    """Its cells are as live as the main leads of the same pack: cutting through them shorts them."""
    craft = small_craft(
        captive("J1", "A B", board="pack", family="XT60", signals="GND, VBAT"),
        plug("J2", "A B", board="power", family="XT60"),
        captive("J3", "C D E", board="pack", family="JST XH", signals="a, b, c"),
        pads("P4", "C D E", board="monitor"),
    )
    found = [lead for lead in how_leads_are_made(craft) if "P4" in lead.lead.link]
    assert len(found) == 3
    for lead in found:
        assert lead.wire_from is WireFrom.NEW and lead.notes == ()
        assert lead.ends[0].words == "mate of the captive JST XH plug, 3-way"


def test_the_plug_of_a_part_that_gives_power_is_re_pinned_before_it_is_plugged_in_and_a_pack_s_never():
    """A step-down converter is no pack: without its battery nothing in its plug is live.  It says what it takes."""

    def notes(signals, gives):
        there = ", ".join(reversed(signals.split(", ")))
        crossed = (
            captive("J1", "A B", board="part", family="JST GH", signals=signals, gives=gives),
            plug("J2", "B A", board="pilot", family="JST GH", signals=there),
            *(() if "VBAT" in gives else (captive("J3", "V W", board="part", signals="VIN, GND", takes="7-26V 1A"),)),
        )
        return {note for made in how_leads_are_made(small_craft(*crossed)) for note in made.notes}

    assert all("re-pin the captive plug" in note for note in notes("5V, GND", "5V 3A"))
    assert all("change J2, not the plug" in note for note in notes("VBAT, GND", "VBAT 10A"))
    assert len(notes("5V, GND", "5V 3A")) == len(notes("VBAT, GND", "VBAT 10A")) == 2


@pytest.mark.parametrize(
    ("place", "polarised"),
    [
        pytest.param(plug("J1", "V G", board="hub", family="XT60", signals="VBAT, GND"), True, id="solder cups"),
        pytest.param(plug("J1", "V G", board="hub", family="XT60", signals="PHASE_A, PHASE_B"), False, id="no supply"),
        pytest.param(plug("J1", "V G", board="hub", family="JST XH", signals="VBAT, GND"), False, id="crimped"),
        pytest.param(pads("J1", "V G", board="hub", signals="VBAT, GND"), False, id="pads"),
    ],
)
def test_a_plug_with_cups_for_supply_and_ground_is_told_by_plus_and_minus(place, polarised):
    craft = small_craft(place, pads("P2", "V G", board="lamp", signals="VBAT, GND"))
    assert is_polarised(craft, "J1") is polarised
