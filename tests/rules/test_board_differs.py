"""Drawn boards held against their board files."""

import pytest

from crafts.craft_kit import drawing, pads, plug
from tabside.analysis.judgement import Judgement
from tabside.model.craft import CraftSettings
from tabside.read.craft.board_file import board_from_text
from tabside.rules.board_differs import board_differs
from tabside.wiring import build_craft
from tabside.wiring.board_plugs import held_board

PILOT = """
[board]
name = "pilot"
held = true
[[plugs]]
name = "TELEM"
family = "JST GH"
signals = "5V, TX, RX, GND"
contact_1 = "left"
entry = "side"
tabs = "board"
gives = "5V 1A"
[[plugs]]
name = "ESC"
family = "JST SH"
signals = "VBAT, GND, M1, M2, nc"
[[plugs]]
name = "BAT"
kind = "pad"
signals = "VBAT, GND"
"""


def findings(*symbols, text=PILOT, boards=True):
    held = [held_board(board_from_text(text.encode(), "pilot.board.toml"))] if boards else []
    return list(board_differs(Judgement(build_craft(drawing(*symbols), CraftSettings(), held))))


def telem(signals="5V, TX, RX, GND", nets="A B C D", **more):
    fields = {"board": "pilot", "value": "TELEM", "family": "JST GH", "signals": signals} | more
    return plug("J1", nets, **fields)


def esc(signals="VBAT, GND, M1, M2, nc", nets="A B C D E", **more):
    return plug("J2", nets, **({"board": "pilot", "value": "ESC", "family": "JST SH", "signals": signals} | more))


@pytest.mark.parametrize(
    "symbols",
    [
        [telem()],
        [telem("5V, tx, RX, G")],
        [telem("+5V, TX1, RX1, GND")],
        [telem(value="telem")],
        [telem(contact_1="left", entry="side", tabs="board", gives="5V 1A")],
        [esc()],
        [esc("BAT, GND, M1, M2, nc")],
        [pads("J3", "A B", board="pilot", value="BAT", signals="VBAT GND")],
        [pads("J3", "A", board="pilot", value="BAT", signals="VBAT")],  # only one of its pads is used
        [plug("J4", "A B", board="other", value="TELEM", signals="a b")],
    ],
    ids=range(10),
)
def test_a_board_drawn_as_its_file_says_is_quiet(symbols):
    assert findings(*symbols) == []


@pytest.mark.parametrize(
    ("symbol", "said"),
    [
        (
            telem("5V, RX, TX, GND"),
            "contact 2 is RX, the board file says TX and contact 3 is TX, the board file says RX",
        ),
        (telem("GND, TX, RX, 5V"), "contact 1 is GND, the board file says 5V"),
        (telem("3V3, TX, RX, GND"), "contact 1 is 3V3, the board file says 5V"),
        (telem(family="JST SH"), "Family is JST SH, the board file says JST GH"),
        (telem(kind="captive"), "Kind is captive, the board file says receptacle"),
        (telem("5V, TX, RX, CTS, RTS, GND", "A B C D E F"), "it is drawn with 6 contacts, the board file has 4"),
        (telem("5V, TX, RX", "A B C"), "it is drawn with 3 contacts, the board file has 4"),
        (esc("VBAT, GND, M2, M1, nc"), "contact 3 is M2, the board file says M1"),
        (esc("VBAT, GND, M1, M2, CUR"), "contact 5 is CUR, the board file says not used"),
        (pads("J3", "A B C", board="pilot", value="BAT", signals="VBAT GND GND"), "contact 3 is not in the board file"),
    ],
)
def test_another_signal_family_kind_or_size_is_an_error(symbol, said):
    (found,) = findings(symbol)
    assert found.severity == "error" and said in found.message and "pilot.board.toml" in found.message


@pytest.mark.parametrize(
    ("symbol", "said"),
    [
        (telem(value="TELEM2"), "has no plug of that name; did you mean TELEM?"),
        (telem(value="Conn_01x04"), "it has TELEM, ESC and BAT"),
        (telem("VCC, TX, RX, GND"), "contact 1 is called VCC, in the board file 5V"),
        (telem(contact_1="right"), "Contact 1 is right, the board file says left"),
        (telem(gives="5V 2A"), "Gives is 5V 2A, the board file says 5V 1A"),
        (plug("J1", "A B C D", board="pilot", value="TELEM", family="JST GH"), "contact 1 has no name"),
    ],
)
def test_what_is_missing_or_only_differs_in_facts_is_a_warning(symbol, said):
    (found,) = findings(symbol)
    assert found.severity == "warning" and said in found.message


def test_a_port_of_another_number_is_another_port():
    text = PILOT.replace("5V, TX, RX, GND", "5V, TX1, RX1, GND")
    (found,) = findings(telem("5V, TX2, RX2, GND"), text=text)
    assert "contact 2 is TX2, the board file says TX1" in found.message
    assert findings(telem("5V, TX, RX, GND"), text=text) == []


def test_one_plug_drawn_twice_under_one_board_is_an_error():
    found = findings(
        telem(), plug("J9", "E F G H", board="pilot", value="TELEM", family="JST GH", signals="5V TX RX GND")
    )
    assert [each.severity for each in found] == ["error"] and "J1 and J9 are both drawn as it" in found[0].message


def test_several_boards_of_one_kind_share_a_file():
    symbols = [
        plug(
            f"J{n}",
            f"A{n} B{n} C{n} D{n}",
            value="TELEM",
            family="JST GH",
            signals="5V TX RX GND",
            fields={"Board": f"pilot {n}", "Board file": "pilot"},
        )
        for n in (1, 2)
    ]
    assert findings(*symbols) == []


def test_a_part_of_a_file_without_a_board_is_told():
    symbol = plug(
        "J1", "A B C D", value="TELEM", family="JST GH", signals="5V TX RX GND", fields={"Board file": "pilot"}
    )
    (found,) = findings(symbol)
    assert found.severity == "warning" and "it has no Board" in found.message


def test_a_file_that_the_craft_file_does_not_name_is_told():
    symbol = telem(fields={"Board file": "pilto"})
    assert any('did you mean "pilot"?' in each.message for each in findings(symbol))
    (found,) = findings(symbol, boards=False)
    assert found.severity == "warning" and "board_files" in found.fix


def test_a_file_not_held_against_the_real_board_is_one_note():
    found = findings(telem(), esc(), text=PILOT.replace("held = true", ""))
    assert [(each.severity, each.rule) for each in found] == [("note", "board-differs")]


def test_a_part_that_is_not_fitted_is_left_alone():
    assert findings(telem("a b c d", dnp=True)) == []


FROM_FILE = {"board_file": "pilot", "contact_1": "left", "entry": "side", "tabs": "board", "gives": "5V 1A"}


@pytest.mark.parametrize(
    ("change", "said"),
    [
        (('gives = "5V 1A"\n', ""), "Gives is 5V 1A, the board file says nothing"),
        (('gives = "5V 1A"\n', 'gives = "5V 1A"\ntakes = "5V 0.1A"\n'), "Takes is empty, the board file says 5V 0.1A"),
        (('contact_1 = "left"\n', ""), "Contact 1 is left, the board file says nothing"),
        (('tabs = "board"\n', ""), "Tabs is board, the board file says nothing"),
        (('gives = "5V 1A"\n', 'gives = "5V 1A"\nlevel = 3.3\n'), "Level is empty, the board file says 3.3"),
    ],
)
def test_a_board_file_that_was_changed_names_the_parts_made_of_it(change, said):
    assert findings(telem(**FROM_FILE)) == []
    (finding,) = findings(telem(**FROM_FILE), text=PILOT.replace(*change))
    assert said in finding.message and finding.severity == "warning" and "Update Symbols from Library" in finding.fix


def test_a_symbol_drawn_by_hand_need_not_say_all_that_the_file_says():
    assert findings(telem(board_file="")) == []


def test_a_board_named_nearly_as_a_file_that_nothing_uses_is_told():
    (found,) = findings(telem(board="Pilot 1"))
    assert found.rule == "board-differs" and "Pilot 1" in found.message and "Board file" in found.fix
    assert not findings(telem(), plug("J9", "A", board="pilot 2", signals="GND"))


def read_with_file(symbol, text):
    return build_craft(
        drawing(symbol), CraftSettings(), [held_board(board_from_text(text.encode(), "gnss.board.toml"))]
    )


GNSS = """
[board]
name = "gnss"
held = true
[[plugs]]
name = "PORT"
family = "JST GH"
signals = "VCC, RX, TX, GND"
takes = "1:3.0-3.6V 0.1A"
level_max = 3.6
"""


def test_what_the_drawing_leaves_out_the_file_says():
    """A plug drawn by hand without Takes and Level max is held to those of its file."""
    drawn = plug("J1", "A B C D", board="gnss", value="PORT", family="JST GH", signals="VCC, RX, TX, GND")
    contacts = read_with_file(drawn, GNSS).terminations["J1"].contacts
    assert [rail.text for rail in contacts[0].takes] == ["1:3.0-3.6V 0.1A"] and contacts[1].level_max_v == 3.6


def test_what_the_drawing_says_outranks_the_file():
    drawn = plug("J1", "A B C D", board="gnss", value="PORT", family="JST GH", signals="VCC, RX, TX, GND", takes="1:5V")
    assert read_with_file(drawn, GNSS).terminations["J1"].contacts[0].takes[0].text == "1:5V"
    other = plug("J1", "A B C D", board="gnss", value="PORT", family="JST GH", signals="5V, RX, TX, GND")
    assert not read_with_file(other, GNSS).terminations["J1"].contacts[0].takes
