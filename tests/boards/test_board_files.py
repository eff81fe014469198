"""`board_files` in the craft file: which files are read, and what a wrong name is told."""

import json

import pytest

from drawing.drawing_kit import Sheet, connector
from tabside.cli import main
from tabside.craft_reading import read_craft
from tabside.errors import TabsideError

BOARD = """
[board]
name = "pilot"
held = true
[[plugs]]
name = "TELEM"
family = "JST GH"
signals = "5V, TX, RX, GND"
"""


@pytest.fixture
def drawn(tmp_path):
    """A function that writes a drawing with one pilot, its craft file and its board file; returns the root."""

    def write(board_files, names=("5V", "TX", "RX", "GND"), folder="boards"):
        root = Sheet("boat")
        fields = {"Board": "pilot", "Family": "JST GH"}
        root.place(connector(list(names)), (50.8, 50.8), reference="J1", value="TELEM", fields=fields)
        path = root.write(tmp_path)
        (tmp_path / folder).mkdir(exist_ok=True)
        (tmp_path / folder / "pilot.board.toml").write_text(BOARD)
        listed = ", ".join(f'"{name}"' for name in board_files)
        (tmp_path / "boat.craft.toml").write_text(f"[craft]\nboard_files = [{listed}]\n")
        return path

    return write


@pytest.mark.parametrize(
    "name", ["boards/*.board.toml", "boards/pilot.board.toml", "**/*.board.toml", "./boards/*.toml"]
)
def test_a_drawn_board_is_held_against_its_file(drawn, name, capsys):
    root = drawn([name], names=("5V", "RX", "TX", "GND"))
    assert main(["check", str(root), "--json"]) == 1
    (found,) = [each for each in json.loads(capsys.readouterr().out)["findings"] if each["rule"] == "board-differs"]
    assert found["severity"] == "error" and [where["contact"] for where in found["where"]] == [2, 3]


def test_a_board_drawn_as_in_its_file_gives_no_finding(drawn):
    craft = read_craft(drawn(["boards/*.board.toml", "boards/pilot.board.toml"]))
    assert [held.board.name for held in craft.board_files] == ["pilot"] and set(craft.held_boards) == {"pilot"}


def test_a_changed_board_file_changes_the_craft(drawn, tmp_path):
    root = drawn(["boards/*.board.toml"])
    before = read_craft(root).drawing_hash
    (tmp_path / "boards" / "pilot.board.toml").write_text(BOARD + 'level = "3.3"\n')
    assert read_craft(root).drawing_hash != before


@pytest.mark.parametrize(
    ("name", "said"),
    [
        (
            "bords/*.board.toml",
            'craft.board_files[0]: "bords/*.board.toml" fits no file; did you mean "boards/pilot.board.toml"',
        ),
        ("boat.kicad_sch", '"boat.kicad_sch" is no board file; its name ends in .board.toml'),
        ("", "craft.board_files[0]: expected text of at least 1"),
    ],
)
def test_a_name_that_fits_no_board_file_is_told(drawn, name, said):
    with pytest.raises(TabsideError) as error:
        read_craft(drawn([name]))
    assert said in str(error.value) and str(error.value).startswith("boat.craft.toml: ")
