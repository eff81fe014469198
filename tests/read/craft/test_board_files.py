"""Which files `board_files` names; Python's own glob is the judge."""

import glob
import os
from pathlib import Path

import pytest

from tabside.board_reading import read_boards
from tabside.errors import TabsideError
from tabside.read.craft import board_files
from tabside.read.craft.board_files import board_paths

FILES = (
    "a.board.toml",
    "boards/b.board.toml",
    "boards/deep/c.board.toml",
    "boards/.hidden.board.toml",
    ".d/x.board.toml",
)


@pytest.fixture
def folder(tmp_path):
    for name in FILES:
        path = tmp_path / "craft" / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text('[board]\n[[plugs]]\nname = "A"\nlike = "gps"\n')
    (tmp_path / "other.board.toml").write_text("")
    (tmp_path / "craft" / "boards" / "round").symlink_to(tmp_path / "craft")
    return tmp_path / "craft"


PATTERNS = """
*.board.toml           boards/*.board.toml    */*.board.toml      ../*.board.toml       [ab].board.toml
boards/?.board.toml    ./a.board.toml         boards/../a.board.toml    .d/*.board.toml       boards/.*.board.toml
"""


@pytest.mark.parametrize("pattern", PATTERNS.split())
def test_a_pattern_means_what_it_means_elsewhere(folder, pattern):
    found = {os.path.normpath(path) for path in board_paths([pattern], folder / "x.craft.toml")}
    assert found == {os.path.normpath(folder / name) for name in glob.glob(pattern, root_dir=folder)} and found


def test_two_stars_go_down_but_follow_no_link(folder):
    found = [
        Path(path).relative_to(folder).as_posix() for path in board_paths(["**/*.board.toml"], folder / "x.craft.toml")
    ]
    assert found == ["a.board.toml", "boards/b.board.toml", "boards/deep/c.board.toml"]


def test_each_file_once_and_an_absolute_one(folder):
    patterns = ["boards/*.board.toml", str(folder / "boards" / "b.board.toml")]
    assert [os.path.basename(path) for path in board_paths(patterns, folder / "x.craft.toml")] == ["b.board.toml"]


@pytest.mark.parametrize("pattern", ["/**/*.board.toml", "/*/*/*/*/*/*.board.toml", "../**/**/**/x.board.toml"])
def test_a_pattern_that_looks_through_everything_ends(folder, pattern, monkeypatch):
    monkeypatch.setattr(board_files, "MOST_LOOKED_AT", 20)
    with pytest.raises(TabsideError, match="name the folder"):
        board_paths([pattern], folder / "x.craft.toml")


@pytest.mark.parametrize("pattern", ["boards/*.board.toml", "boards/bad.board.toml", "**/*.board.toml"])
def test_what_has_the_name_of_a_board_file_and_is_none_is_not_passed_over(folder, pattern):
    """The same as of a craft file: with it in silence, a board would not be held against its file."""
    (folder / "boards" / "bad.board.toml").symlink_to("nowhere")
    with pytest.raises(TabsideError, match="cannot be read"):
        read_boards(board_paths([pattern], folder / "x.craft.toml"))


@pytest.mark.parametrize("pattern", ["", "x\0y.board.toml", "\0/*.board.toml", "none/*.board.toml", "boards", ".", "/"])
def test_what_fits_nothing_is_one_line(folder, pattern):
    with pytest.raises(TabsideError, match="fits no file"):
        board_paths([pattern], folder / "x.craft.toml")


@pytest.mark.parametrize(
    ("named", "said"),
    [
        ("boards/pilto.board.toml", 'did you mean "boards/pilot.board.toml"'),
        ("pilot.board.toml", 'did you mean "boards/pilot.board.toml"'),
        ("boards/power.board.toml", 'there are "boards/pilot.board.toml" and "boards/sounder.board.toml"'),
    ],
)
def test_a_missing_file_is_compared_by_its_name_and_a_far_one_is_not_meant(tmp_path, named, said):
    """Folder and ending are the same for all: they make no two names alike."""
    (tmp_path / "boards").mkdir()
    for name in ("pilot", "sounder"):
        (tmp_path / "boards" / f"{name}.board.toml").write_text("")
    with pytest.raises(TabsideError) as error:
        board_paths([named], tmp_path / "x.craft.toml")
    assert said in str(error.value)
