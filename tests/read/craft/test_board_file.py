"""Board files: what they say, and what a wrong one is told."""

import pytest

from tabside.errors import TabsideError
from tabside.read.craft.board_file import LARGEST_BOARD_FILE, board_from_text, read_board_file

PILOT = """
[board]
name = "pilot"
title = "autopilot"
held = true
ground_point = "minus pad"
[[plugs]]
name = "TELEM"
family = "JST GH"
signals = "5V, TX, RX, GND"
seen_from = "printed"
contact_1 = "left"
level = 3.3
leads_max = 1
"""


def board(text, name="pilot.board.toml"):
    return board_from_text(text.encode(), name)


def plug(text):
    return board(f'[board]\n[[plugs]]\nname = "A"\n{text}').plugs[0]


def test_a_plug_speaks_in_the_words_of_the_schematics_fields():
    found = board(PILOT)
    assert (found.name, found.title, found.held, found.ground_point) == ("pilot", "autopilot", True, "minus pad")
    assert found.plugs[0].name == "TELEM" and found.plugs[0].ways == 4
    assert found.plugs[0].fields == {
        "Family": "JST GH",
        "Signals": "5V, TX, RX, GND",
        "Seen from": "printed",
        "Contact 1": "left",
        "Level": "3.3",
        "Leads max": "1",
    }


def test_a_board_without_a_name_has_that_of_its_file():
    assert board('[board]\n[[plugs]]\nname = "A"\nsignals = "5V GND"\n', "drive.board.toml").name == "drive"


@pytest.mark.parametrize(
    ("signals", "ways"),
    [('"5V TX RX GND"', 4), ('"5V, TX, RX, GND,"', 4), ('"I2C SCL, GND"', 2), ('["5V", "I2C SCL"]', 2), ('["a b"]', 1)],
)
def test_signals_are_a_text_or_a_list(signals, ways):
    assert plug(f"signals = {signals}").ways == ways


def test_a_port_of_the_guideline_brings_family_rails_and_level():
    found = plug('like = "telemetry"')
    assert found.like == "telemetry" and found.ways == 6
    assert found.fields["Family"] == "jst_gh" and found.fields["Gives"] == "1:5V" and found.fields["Level"] == "3.3"


def test_what_the_file_says_outranks_the_port():
    assert plug('like = "telemetry"\nfamily = "JST SH"\ngives = "5V 1A"').fields["Gives"] == "5V 1A"


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("[board", "pilot.board.toml:1"),
        ('[board]\nnam = "x"', "board.nam: no such key; did you mean `name`?"),
        ("[bord]", "bord: no such key; did you mean `board`?"),
        ("[board]", "the key `plugs` is missing"),
        ("plugs = []\n[board]", "plugs: expected a list of at least 1"),
        ('[board]\n[[plugs]]\nsignals = "A B"', "plugs[0]: the key `name` is missing"),
        ('[board]\n[[plugs]]\nname = "A"\nfamly = "JST GH"', "plugs[0].famly: no such key; did you mean `family`?"),
        ('[board]\n[[plugs]]\nname = "A"\nsignals = 5', "plugs[0].signals: expected text or a list"),
        ('[board]\n[[plugs]]\nname = "A"\nsignals = " "', "plugs[0].signals: is empty"),
        ('[board]\n[[plugs]]\nname = "A"\nsignals = ["a,b"]', 'plugs[0].signals: "a,b" has a comma'),
        ('[board]\n[[plugs]]\nname = "A"\nfamily = "JST GHH"\nsignals = "a b"', "did you mean `jst_gh`?"),
        ('[board]\n[[plugs]]\nname = "A"\nlike = "telemetri"', 'plugs[0].like: "telemetri" is no port'),
        ('[board]\n[[plugs]]\nname = "A"', 'plugs[0] ("A"): what its contacts are is missing; add `signals`'),
        ('[board]\n[[plugs]]\nname = "A"\nlike = "can"\nsignals = "a b"', "has `signals` and `like`; keep one"),
        ('[board]\n[[plugs]]\nname = "A"\nreference = "J1"', "goes with `drawn_in`"),
        ('[board]\n[[plugs]]\nname = "A"\nlike = "can"\nseen_from = "tabs"', "by contact number"),
        ('[board]\n[[plugs]]\nname = "A"\nsignals = "a"\n[[plugs]]\nname = "a"\nsignals = "b"', "plugs[0], too"),
        ('[board]\n[[plugs]]\nname = "A"\nsignals = "a"\nleads_max = 0', "plugs[0].leads_max: expected"),
        ('[board]\n[[plugs]]\nname = "A"\nsignals = "a"\nlevel = -3', "plugs[0].level: expected"),
    ],
)
def test_a_wrong_file_is_told_in_one_line_with_file_and_key(text, said):
    with pytest.raises(TabsideError) as error:
        board(text)
    assert said in str(error.value) and str(error.value).startswith("pilot.board.toml:")
    assert "\n" not in str(error.value)


def test_other_bytes_than_text_are_told_with_their_line():
    with pytest.raises(TabsideError, match="2: is not UTF-8"):
        board_from_text(b"[board]\nname = '\xff'\n", "x.board.toml")


def test_a_huge_file_is_not_read(tmp_path):
    path = tmp_path / "big.board.toml"
    path.write_bytes(b"#" * (LARGEST_BOARD_FILE + 1))
    with pytest.raises(TabsideError, match="larger than"):
        read_board_file(path)


def test_a_file_that_is_not_there_is_told(tmp_path):
    with pytest.raises(TabsideError, match="no such file"):
        read_board_file(tmp_path / "no.board.toml")


def test_a_key_of_thousands_of_parts_is_refused_at_once():
    """The parser's time grows with the square of them."""
    with pytest.raises(TabsideError, match="more than a hundred parts") as error:
        board_from_text(b"# a\n" + b"a." * 100_000 + b"a = 1", "x.board.toml")
    assert error.value.line == 2
