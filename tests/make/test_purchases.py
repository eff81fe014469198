"""What has to lie on the bench.

Part numbers are typed from the makers' documents as the tables cite them: JST SH datasheet (SHR-03V-S-B,
SSH-003T-P0.2-H), public repositories citing JST's GH, PH, XH pages (GHR-04V-S, SSHL-002T-P0.2, PHR-3, XHP-3 and their
contacts), Molex 51021 and 5005x/5007x terminals.  Counts are worked out by hand.
"""

import pytest
from msgspec.structs import replace

from crafts.craft_kit import captive, pads, plug, splice, two_pin
from crafts.small_craft import CAMERA, FUSED, GROUND, LIGHT, PACK, RADIO, SENSOR, small_craft
from tabside.documents.build import craft_build
from tabside.make.buy.part_purchases import other_parts
from tabside.model.craft import CraftSettings, Part
from tabside.model.stock import Costs, Cutting, StockCable, StockLead
from tabside.rules import check_craft

KNOWN = {"*": {"gauge_awg": 28, "colour": "BK", "length_mm": 85.0}}


def bought(craft, item=None, *, buy_ready=False):
    """No contact is spoiled, no wire added for the ends and, unless said, nothing ready-made is on sale."""
    costs = Costs(buy_ready=buy_ready, spoil=1, spoil_1_0=1, spoil_1_25=1)
    craft = replace(craft, settings=replace(craft.settings, costs=costs, cutting=Cutting(0.0, 0.0)))
    lines = craft_build(craft, check_craft(craft)).purchases
    return [line for line in lines if item is None or line.item == item]


def test_a_housing_for_each_plug_by_family_and_ways():
    lines = bought(small_craft(*RADIO, *SENSOR, *LIGHT, *CAMERA, *GROUND), "housing")
    assert [(line.part_number, line.family, line.ways, line.quantity, line.used_for) for line in lines] == [
        ("GHR-02V-S", "jst_gh", 2, 1, ("pilot/J5",)),
        ("GHR-04V-S", "jst_gh", 4, 2, ("pilot/J1", "radio/J3")),
        ("PHR-3", "jst_ph", 3, 1, ("sensor/J4",)),
        ("SHR-03V-S-B", "jst_sh", 3, 1, ("pilot/J2",)),
        ("XHP-3", "jst_xh", 3, 1, ("pilot/J7",)),
    ]
    assert lines[3].source.startswith('JST "SH CONNECTOR" datasheet')


def test_a_plug_has_the_ways_of_its_receptacle_and_not_only_those_used():
    craft = small_craft(plug("J1", "A - - - - -", board="a", family="JST GH"), pads("P1", "A", board="b"))
    (line,) = bought(craft, "housing")
    assert (line.part_number, line.ways) == ("GHR-06V-S", 6)


def test_a_family_without_a_known_housing_has_no_number():
    craft = small_craft(plug("J1", "A", board="a", family="pinheader_254"), pads("P1", "A", board="b"))
    (line,) = bought(craft, "housing")
    assert (line.part_number, line.family, line.source) == ("not known", "pinheader_254", "")


def test_a_family_that_is_not_known_is_said():
    craft = small_craft(plug("J1", "A", board="a"), pads("P1", "A", board="b"))
    (line,) = bought(craft, "plug")
    assert (line.part_number, line.family, line.note) == ("not known", None, "the drawing does not say the family")
    assert bought(craft, "contact") == []


def test_one_contact_that_takes_the_gauge_is_the_part():
    (line,) = bought(small_craft(*RADIO, leads=KNOWN), "contact")
    assert (line.part_number, line.quantity, line.used_for) == ("SSHL-002T-P0.2", 8, ("pilot/J1 (4)", "radio/J3 (4)"))


@pytest.mark.parametrize(
    ("family", "gauge", "number", "note"),
    [
        pytest.param("JST XH", 30, "SXH-002T-P0.6", "", id="only one of three takes 30 AWG"),
        pytest.param("Molex PicoBlade", 32, "50058-8000", "", id="only one of two takes 32 AWG"),
        pytest.param(
            "Molex PicoBlade",
            28,
            "50079-8000 or 50058-8000",
            "50079-8000 (26 to 28 AWG), 50058-8000 (28 to 32 AWG); choose one",
            id="both take 28 AWG",
        ),
        pytest.param(
            "Molex PicoBlade",
            None,
            "50079-8000 or 50058-8000",
            "50079-8000 (26 to 28 AWG), 50058-8000 (28 to 32 AWG); choose one: the gauge of the wire is not known",
            id="gauge not known",
        ),
        pytest.param(
            "JST GH",
            None,
            "SSHL-002T-P0.2",
            "SSHL-002T-P0.2 (26 to 30 AWG, insulation 0.76 to 1 mm); "
            "check the wire: the gauge of the wire is not known",
            id="one contact, gauge not known",
        ),
        pytest.param("JST EH", 24, "not known", "", id="no contact in the tables"),
    ],
)
def test_which_contact(family, gauge, number, note):
    craft = small_craft(
        plug("J1", "A", board="a", family=family), pads("P1", "A", board="b"), leads={"*": {"gauge_awg": gauge}}
    )
    (line,) = bought(craft, "contact")
    assert (line.part_number, line.note) == (number, note)


def test_leads_of_one_family_are_crimped_when_nothing_is_on_sale():
    lines = [(line.item, line.quantity, line.unit) for line in bought(small_craft(*RADIO, leads=KNOWN))]
    assert lines == [
        ("housing", 2, "pieces"),
        ("contact", 8, "pieces"),
        ("wire", 352, "mm"),
        ("board pilot", 1, "pieces"),
        ("board radio", 1, "pieces"),
    ]


def test_leads_between_two_families_can_only_be_crimped():
    """Pre-crimped leads are on sale with the same family on both ends only."""
    lines = bought(small_craft(*SENSOR, *GROUND, leads=KNOWN))
    assert "pre-crimped lead" not in {line.item for line in lines}


def test_two_leads_with_one_plug_are_the_tails_of_one_pre_crimped_lead():
    (line,) = bought(small_craft(*LIGHT, leads=KNOWN), "pre-crimped lead", buy_ready=True)
    assert (line.family, line.quantity, line.note) == ("jst_gh", 1, "JST GH both ends, at least 170 mm")


def test_wire_is_added_up_by_gauge_and_colour_and_rounded_up():
    craft = small_craft(
        *SENSOR,
        *GROUND,
        leads={
            "*": {"gauge_awg": 28},
            "J2:1 - J4:1": {"colour": "RD", "length_mm": 100.2},
            "J2:2 - J4:2": {"colour": "RD", "length_mm": 100.3},
            "J2:3 - J4:3": {"colour": "BK", "length_mm": None},
        },
    )
    lines = bought(craft, "wire")
    assert [(line.gauge_awg, line.colour, line.quantity, line.to_buy, line.note) for line in lines] == [
        (28, "BK", None, None, "1 piece, length not known for 1"),
        (28, "RD", 209, 209, "2 pieces, 0.3 m"),
    ]


def test_wire_of_unknown_length_is_not_in_the_sum_and_said():
    craft = small_craft(*LIGHT, leads={"*": {"gauge_awg": 28}, "J5:1 - P2:1": {"length_mm": 1200.0}})
    (line,) = bought(craft, "wire")
    assert (line.quantity, line.note) == (1202, "2 pieces, 1.3 m, length not known for 1, not in the sum")


def test_a_captive_part_brings_its_own_leads_and_plug():
    lines = bought(small_craft(*PACK))
    assert [line.item for line in lines] == ["part with its own leads: pack", "board power"]


def test_a_captive_part_s_bare_leads_need_contacts_and_housing_but_no_wire():
    lines = bought(small_craft(*CAMERA, *GROUND))
    assert [(line.item, line.quantity) for line in lines] == [
        ("housing", 1),
        ("contact", 3),
        ("part with its own leads: camera", 1),
        ("board pilot", 1),
    ]


def test_a_pack_whose_plug_goes_to_pads_needs_the_mate_and_wire():
    craft = small_craft(
        captive("J1", "A B", board="pack", family="XT60", signals="GND, VBAT"),
        pads("P1", "A B", board="power"),
        leads={"*": {"gauge_awg": 12, "length_mm": 60.0}},
    )
    lines = bought(craft)
    assert [(line.item, line.family, line.quantity, line.used_for) for line in lines[:3]] == [
        ("mating plug", "amass_xt60", 1, ("pack/J1",)),
        ("wire", "", 60, ("W1",)),  # black, and red: no colour is drawn
        ("wire", "", 60, ("W2",)),
    ]


def test_a_soldered_plug_has_no_contacts():
    craft = small_craft(plug("J1", "A B", board="a", family="XT60"), pads("P1", "A B", board="b"))
    lines = bought(craft)
    assert [(line.item, line.part_number, line.family) for line in lines[:2]] == [
        ("solder-cup plug", "not known", "amass_xt60"),
        ("wire", "", ""),
    ]


def test_coax_is_bought_whole():
    craft = small_craft(plug("J1", "A B", board="a", family="U.FL"), plug("J2", "A B", board="b", family="U.FL"))
    lines = bought(craft)
    assert [line.item for line in lines] == ["ready-made cable", "board a", "board b"]
    assert (lines[0].family, lines[0].quantity, lines[0].used_for) == ("coax_ufl", 1, ("a/J1", "b/J2"))


def test_in_line_parts_and_splices_are_counted_by_value():
    craft = small_craft(
        *FUSED,
        *GROUND,
        pads("P7", "X", board="x"),
        two_pin("F2", "X", "Y", value="10 A"),
        two_pin("F3", "Y", "Z", value="2 A", mpn="FUSE-2A"),
        pads("P8", "Z", board="y"),
        splice("P9", "Z", board="z"),
        pads("P6", "Z", board="w"),
    )
    lines = {line.item: line for line in bought(craft) if line.item.startswith(("in-line", "splice"))}
    assert (lines["in-line part: 10 A"].quantity, lines["in-line part: 10 A"].used_for) == (2, ("F1", "F2"))
    assert lines["in-line part: 10 A"].part_number == "not known"
    assert lines["in-line part: 2 A"].part_number == "FUSE-2A"
    assert lines["in-line part: 2 A"].source == "drawing, field Mpn"
    assert [line.quantity for name, line in lines.items() if name.startswith("splice")] == [1]


def test_parts_without_leads_are_listed_but_for_those_not_fitted_or_not_wanted():
    parts = (
        Part("C1", "470u 35V", "", True, False, ("VBAT", "GND"), {"MPN": "CAP-470-35"}),
        Part("C2", "470u 35V", "", True, False, ("VBAT", "GND"), {"MPN": "CAP-470-35"}),
        Part("R1", "120", "", True, False, ("CAN_H", "CAN_L")),
        Part("R2", "120", "", True, True, ("CAN_H", "CAN_L")),
        Part("R3", "120", "", False, False, ("CAN_H", "CAN_L")),
    )
    assert [
        (line.item, line.part_number, line.quantity, line.used_for, line.source) for line in other_parts(parts)
    ] == [
        ("part: 470u 35V", "CAP-470-35", 2, ("C1", "C2"), "drawing, field MPN"),
        ("part: 120", "not known", 1, ("R1",), ""),
    ]


def test_an_in_line_part_that_is_not_wanted_in_the_bom_is_left_out():
    craft = small_craft(pads("P1", "A", board="a"), two_pin("JP1", "A", "B", in_bom=False), pads("P2", "B", board="b"))
    assert [line.item for line in bought(craft) if line.item.startswith("in-line")] == []


def test_a_stock_cable_leaves_nothing_to_buy_for_its_leads():
    cable = StockCable(
        "GH crossed", (("jst_gh", 4), ("jst_gh", 4)), ((1, 1), (2, 3), (3, 2), (4, 4)), "map", 100.0, 3, True
    )
    craft = small_craft(*RADIO, settings=CraftSettings(stock_cables=(cable,)), leads={"*": {"length_mm": 85.0}})
    lines = bought(craft)
    assert [line.item for line in lines] == ["ready-made cable", "board pilot", "board radio"]
    assert (lines[0].quantity, lines[0].in_stock, lines[0].to_buy) == (1, 3, 0)
    assert lines[0].used_for == ("cable C1",)


def test_stock_leads_are_taken_off_contacts_and_wire_but_not_off_housings():
    piece = StockLead(("jst_gh", "jst_gh"), 100.0, 28, "BK", 1)
    lines = bought(small_craft(*RADIO, settings=CraftSettings(stock_leads=(piece,)), leads=KNOWN))
    assert [(line.item, line.quantity, line.in_stock, line.to_buy) for line in lines[:4]] == [
        ("housing", 2, 0, 2),
        ("contact", 6, 0, 6),
        ("pre-crimped lead", 1, 1, 0),
        ("wire", 264, 0, 264),
    ]


def test_a_captive_plug_that_goes_elsewhere_is_replaced():
    craft = small_craft(
        captive("J1", "A B", board="camera", family="JST SH"), plug("J2", "A B", board="pilot", family="JST GH")
    )
    assert [(line.item, line.quantity) for line in bought(craft)][:2] == [("housing", 1), ("contact", 2)]


def test_which_half_of_a_power_plug_belongs_on_the_pack():
    lines = bought(
        small_craft(
            captive("X1", "P GND", board="pack", signals="BAT+, BAT-", gives="4S 30A"),
            plug("J1", "P GND", board="hub", family="XT60", signals="BAT+, BAT-", takes="9-26V 9A"),
            pads("P1", "L GND", board="hub", signals="VBAT, GND"),
            plug("J2", "L GND", board="lamp", family="XT60", signals="VBAT, GND"),
        )
    )
    notes = {line.used_for: line.note for line in lines if line.family == "amass_xt60"}
    assert notes.keys() == {("hub/J1",), ("lamp/J2",)}
    assert "for the pack: the half without bare pins" in notes["hub/J1",] and "for the pack" not in notes["lamp/J2",]


@pytest.mark.parametrize(
    ("colours", "leads"),
    [(("RD", "RD"), [("W1", "W2")]), ((None, None), [("W1", "W2")]), (("RD", "BK"), [("W1",), ("W2",)])],
)
def test_a_bought_lead_gives_two_tails_of_one_colour_and_no_others(colours, leads):
    """Crimping takes so long here that leads with their contacts on are bought."""
    facts = {"gauge_awg": 28, "length_mm": 60.0}
    craft = small_craft(
        plug("J1", "A B", board="a", family="JST SH"),
        pads("P1", "A B", board="b"),
        settings=CraftSettings(costs=Costs(crimp_minutes=60.0)),
        leads={f"J1:{n} - P1:{n}": facts | {"colour": colour} for n, colour in enumerate(colours, 1)},
    )
    lines = craft_build(craft, check_craft(craft)).purchases
    assert [line.used_for for line in lines if line.item == "pre-crimped lead"] == leads
