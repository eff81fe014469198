"""Names of contacts, and the faces off which they are copied."""

import pytest

from crafts.craft_kit import contact, craft, plug
from tabside.wiring.terminations.signals import numbered_otherwise, repeats_number, split_signals


@pytest.mark.parametrize(
    ("text", "names"),
    [
        ("5V,TX,RX,GND", ("5V", "TX", "RX", "GND")),
        ("5V, UART TX ,GND", ("5V", "UART TX", "GND")),
        ("5V TX  RX GND", ("5V", "TX", "RX", "GND")),
        ("VCC, nc, GND,", ("VCC", "nc", "GND")),
        ("VCC,,GND", ("VCC", "", "GND")),
    ],
)
def test_signals_are_parted_by_commas_or_by_blanks(text, names):
    assert split_signals(text) == names


@pytest.mark.parametrize(
    ("name", "number", "repeats"),
    [
        ("Pin_1", "1", True),
        ("1", "1", True),
        ("~", "3", True),
        ("", "3", True),
        ("Pin_2", "1", False),
        ("TX1", "1", False),
        ("5V", "5", False),
        ("A", "1", False),
    ],
)
def test_a_pin_name_that_only_repeats_its_number_is_no_label(name, number, repeats):
    assert repeats_number(name, number) is repeats


@pytest.mark.parametrize(
    ("names", "first"),
    [
        ("4:5V, 3:TX, 2:RX, 1:GND", "4:5V"),
        ("4 5V, 3 TX, 2 RX, 1 GND", "4 5V"),
        ("2. GND, 1. 5V", "2. GND"),
        ("2=GND, 1=5V", "2=GND"),
        ("1:5V, 2:TX, 3:GND", ""),  # each in its place
        ("12 V, 5 V", ""),
        ("3.3V, 5.0V", ""),
        ("2S, 1S", ""),
        ("5V, 3V3, GND", ""),
    ],
)
def test_names_with_a_number_that_is_not_that_of_their_place(names, first):
    assert numbered_otherwise(split_signals(names)) == first


def test_such_names_are_put_to_no_contact_and_told():
    made = craft(plug("J1", "a b c d", signals="4:5V, 3:TX, 2:RX, 1:GND"))
    assert labels(made) == [""] * 4
    (oddity,) = made.oddities
    assert oddity.what == "field" and '"4:5V" in another place' in oddity.message


def labels(made):
    return [each.label for each in made.terminations["J1"].contacts]


def test_names_copied_off_a_face_go_to_their_contacts():
    made = craft(
        plug("J1", "a b c d", signals="5V TX RX GND", seen_from="tabs", contact_1="left", entry="side", tabs="board")
    )
    assert labels(made) == ["GND", "RX", "TX", "5V"]
    assert contact(made, "J1:4").role.name == "power_5v"


def test_the_footprint_tells_the_side_of_contact_1():
    # KiCad 9.0.8: contact 1 of the side-entry SH receptacle lies left when its opening is towards the reader.
    made = craft(
        plug(
            "J1",
            "a b c d",
            footprint="Connector_JST:JST_SH_SM04B-SRSS-TB_1x04-1MP_P1.00mm_Horizontal",
            signals="5V TX RX GND",
            seen_from="opening-up",
        )
    )
    assert labels(made) == ["GND", "RX", "TX", "5V"]


def test_names_off_a_face_that_is_not_known_stay_unknown_and_are_told():
    made = craft(plug("J1", "a b c d", signals="5V TX RX GND", seen_from="tabs", contact_1="left", entry="side"))
    assert labels(made) == [""] * 4
    (oddity,) = made.oddities
    assert oddity.what == "view" and "Tabs" in oddity.message


def test_one_contact_needs_no_face():
    assert labels(craft(plug("J1", "a", signals="GND", seen_from="tabs"))) == ["GND"]


def test_too_few_names_off_the_far_end_are_put_nowhere():
    made = craft(plug("J1", "a b c d", signals="5V TX GND", seen_from="opening-up", contact_1="right"))
    assert labels(made) == [""] * 4
    assert made.terminations["J1"].signals_count == 3


def test_contacts_that_are_not_drawn_keep_their_names():
    made = craft(plug("J1", {1: "a", 4: "b"}, signals="5V TX RX GND"))
    assert labels(made) == ["5V", "GND"]


def test_nc_marks_a_contact_that_stays_empty_and_is_no_label():
    made = craft(plug("J1", "a - c", signals="5V nc GND"))
    assert [(each.label, each.flagged_empty) for each in made.terminations["J1"].contacts] == [
        ("5V", False),
        ("", True),
        ("GND", False),
    ]


def test_pin_names_are_labels_when_there_is_no_signals_field():
    made = craft(plug("J1", "a b c", names=["VCC", "~", "Pin_3"]))
    assert labels(made) == ["VCC", "", ""]
