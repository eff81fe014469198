"""Plugs drawn back: as printed on the board, and as the cable plug lies in the hand."""

import pytest

from tabside.boards.board_json import boards_json
from tabside.boards.views import board_view
from tabside.errors import TabsideError
from tabside.read.craft.board_file import board_from_text
from tabside.wiring.board_plugs import held_board


def view(text):
    return board_view(held_board(board_from_text(f"[board]\n{text}".encode(), "pilot.board.toml")))


def plug(text, family="JST GH"):
    return view(f'[[plugs]]\nname = "A"\nfamily = "{family}"\nsignals = "5V, TX, RX, GND"\n{text}').plugs[0]


ROW = ("5V", "TX", "RX", "GND")


@pytest.mark.parametrize(
    ("entry", "tabs", "same"),
    # The table of faces: the plug turned in space (computed there from rotations, and tested by hand on a real plug).
    [("side", "away", True), ("side", "board", False), ("top", "near", False), ("top", "far", True)],
)
@pytest.mark.parametrize("contact_1", ["left", "right"])
def test_a_plug_is_drawn_as_printed_and_as_in_the_hand(entry, tabs, same, contact_1):
    found = plug(f'contact_1 = "{contact_1}"\nentry = "{entry}"\ntabs = "{tabs}"')
    printed = ROW if contact_1 == "left" else ROW[::-1]
    assert found.printed == printed
    assert found.in_hand == (printed if same else printed[::-1])


def test_names_read_off_the_printed_picture_go_to_contacts():
    found = plug('contact_1 = "right"\nseen_from = "printed"')
    assert found.contacts[0] == ("1", "GND") and found.printed == ROW
    assert found.sentence == "Contact 1, at the right when the opening faces you, is GND; the other end is 5V."


def test_what_is_not_known_is_not_drawn():
    found = plug("")
    assert found.printed is None and found.in_hand is None and found.contact_1 is None
    assert any("contact_1, entry, tabs not given" in note for note in found.notes)


def test_names_off_a_picture_without_its_contact_1_belong_to_no_contact():
    found = plug('seen_from = "printed"')
    assert [signal for _, signal in found.contacts] == ["", "", "", ""]
    assert any("needs contact_1" in note for note in found.notes)


def test_a_size_that_no_table_has_is_told():
    found = view('[[plugs]]\nname = "A"\nfamily = "JST GH"\nsignals = "' + "x " * 27 + '"').plugs[0]
    assert any("No JST GH with 27 ways" in note for note in found.notes)


def test_a_power_plug_has_no_side_in_the_hand():
    assert plug('contact_1 = "left"\nentry = "side"\ntabs = "away"', "XT60").in_hand is None


def test_two_rows_have_no_left_and_right():
    found = view('[[plugs]]\nname = "A"\nfamily = "Mini-Fit Jr"\nsignals = "a b c d"\ncontact_1 = "left"').plugs[0]
    assert found.printed is None


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ('entry = "sideways"', "Entry"),
        ('tabs = "left"', "Tabs"),
        ('seen_from = "opening-down-under"', "Seen from"),
        ('takes = "5Q"', "Takes"),
        ('level = "high"', "Level"),
        ('kind = "plug"', "Kind"),
    ],
)
def test_a_value_that_cannot_be_read_names_file_and_plug(text, said):
    with pytest.raises(TabsideError) as error:
        plug(text)
    assert str(error.value).startswith("pilot.board.toml: plugs[0]: A: ") and said in str(error.value)


def test_json_keeps_its_keys():
    found = boards_json([view('[[plugs]]\nname = "A"\nkind = "pad"\nsignals = "VBAT, nc, GND"')])
    assert found["format"] == "tabside/board/1" and found["board"] == "pilot"
    assert found["plugs"][0]["contacts"] == [
        {"contact": 1, "signal": "VBAT"},
        {"contact": 2, "signal": "nc"},
        {"contact": 3, "signal": "GND"},
    ]
    assert found["plugs"][0]["printed"] is None and found["plugs"][0]["tabs"] is None


def test_pads_go_by_the_names_that_are_printed_there():
    found = view('[[plugs]]\nname = "BAT"\nkind = "pad"\nsignals = "VBAT, GND"\n').plugs[0]
    assert found.sentence == "Printed at the pads: 1 VBAT, 2 GND; solder by these names, not by the order."
