"""`tabside boards`: what it writes, prints and refuses."""

import json
import os

import pytest

from tabside.cli import main

TEXT = """
[board]
name = "pilot"
picture = "pilot.png"
[[plugs]]
name = "TELEM"
like = "telemetry"
contact_1 = "left"
entry = "side"
tabs = "board"
"""
PIXEL = bytes.fromhex("89504e470d0a1a0a0000000d49484452")


@pytest.fixture
def pilot(tmp_path):
    path = tmp_path / "pilot.board.toml"
    path.write_text(TEXT)
    return path


def test_a_begun_file_can_be_shown_at_once(tmp_path, capsys):
    assert main(["boards", "new", str(tmp_path / "drive")]) == 0
    assert main(["boards", "show", str(tmp_path / "drive.board.toml")]) == 0
    assert "TELEM: board connector for a JST GH cable plug, 6-way" in capsys.readouterr().out


def test_a_file_that_is_there_is_replaced_with_force_only(pilot, capsys):
    name = str(pilot.with_name("pilot"))
    assert main(["boards", "new", name]) == 2
    assert pilot.read_text() == TEXT and "is there already" in capsys.readouterr().err
    assert main(["boards", "new", name, "--force"]) == 0
    assert pilot.read_text() != TEXT


@pytest.mark.parametrize("name", ["a:b", ".hidden", "a*b", "-x", ""])
def test_a_name_that_cannot_be_a_files_is_refused(tmp_path, name, capsys, monkeypatch):
    monkeypatch.chdir(tmp_path)
    assert main(["boards", "new", "--", name]) == 2
    assert list(tmp_path.iterdir()) == []


def test_the_terminal_shows_both_views(pilot, capsys):
    assert main(["boards", "show", str(pilot)]) == 0
    said = capsys.readouterr().out
    assert "[1]  2   3   4    5    6" in said and "6    5    4    3   2   [1]" in said
    assert "Check: Contact 1, at the left when the opening faces you, is VCC;" in said


def test_one_board_is_one_object_and_several_are_one_too(pilot, tmp_path, capsys):
    assert main(["boards", "show", str(pilot), "--json"]) == 0
    one = json.loads(capsys.readouterr().out)
    assert one["format"] == "tabside/board/1" and one["plugs"][0]["tabs"][0] == "GND"
    other = tmp_path / "drive.board.toml"
    other.write_text(TEXT.replace('"pilot"', '"drive"'))
    assert main(["boards", "show", str(pilot), str(other), "--json"]) == 0
    assert [each["board"] for each in json.loads(capsys.readouterr().out)["boards"]] == ["drive", "pilot"]


def test_two_files_with_one_name_are_refused(pilot, tmp_path, capsys):
    (tmp_path / "copy.board.toml").write_text(TEXT)
    assert main(["boards", "show", str(pilot), str(tmp_path / "copy.board.toml")]) == 2
    assert 'board.name: "pilot" is the name in pilot.board.toml, too' in capsys.readouterr().err


def test_the_page_has_the_picture_beside_the_plugs(pilot, tmp_path, capsys):
    (tmp_path / "pilot.png").write_bytes(PIXEL)
    assert main(["boards", "show", str(pilot), "--to", str(tmp_path / "page.html")]) == 0
    page = (tmp_path / "page.html").read_text()
    assert "data:image/png;base64," in page and page.count('<svg class="plug"') == 3


def test_another_file_is_no_picture(pilot, tmp_path, capsys):
    (tmp_path / "pilot.png").write_text("<svg/>")
    assert main(["boards", "show", str(pilot), "--to", str(tmp_path / "page.html")]) == 0
    page = (tmp_path / "page.html").read_text()
    assert "data:" not in page.replace("img-src data:", "") and "is no PNG, JPEG or GIF picture" in page


def test_names_are_escaped(tmp_path, capsys):
    path = tmp_path / "x.board.toml"
    path.write_text('[board]\nname = "<b>x"\n[[plugs]]\nname = "<i>"\nsignals = "<u> b"\n')
    assert main(["boards", "show", str(path), "--to", str(tmp_path / "page.html")]) == 0
    page = (tmp_path / "page.html").read_text()
    assert "<b>x" not in page and "<i>" not in page and "<u>" not in page


def test_no_file_is_one_line(capsys):
    assert main(["boards", "show", "nothing.board.toml"]) == 2
    assert capsys.readouterr().err == "tabside: nothing.board.toml: cannot be read: no such file or directory\n"


@pytest.mark.parametrize("linked", [False, True])
def test_what_is_no_ordinary_file_is_not_written_over(linked, tmp_path, capsys):
    os.mkfifo(tmp_path / "pipe")
    target = tmp_path / ("link" if linked else "pipe")
    if linked:
        target.symlink_to("pipe")
    assert main(["boards", "show", "--enter", "--to", str(target)]) == 2
    assert f"{target}: is not an ordinary file; nothing was written" in capsys.readouterr().err
    assert (tmp_path / "pipe").is_fifo()


def test_the_page_to_enter_a_pinout_is_one_file(tmp_path, capsys):
    assert main(["boards", "show", "--enter", "--to", str(tmp_path / "enter.html"), "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["file"] == str(tmp_path / "enter.html")
    page = (tmp_path / "enter.html").read_text()
    assert "http://" not in page.replace("http://www.w3.org/2000/svg", "") and "https://" not in page
    assert " src=" not in page and "@import" not in page


def test_a_picture_that_is_no_file_is_told_and_does_not_hang(pilot, tmp_path, capsys):
    os.mkfifo(tmp_path / "pilot.png")
    assert main(["boards", "show", str(pilot), "--to", str(tmp_path / "page.html")]) == 0
    assert "The picture is not shown: pilot.png: is not an ordinary file." in (tmp_path / "page.html").read_text()


def test_a_pattern_that_no_shell_fills_in_means_the_files_that_fit(tmp_path, capsys):
    """On Windows the command gets `boards/*.board.toml` as it is typed."""
    for name in ("a", "b"):
        (tmp_path / f"{name}.board.toml").write_text(f'[board]\nname = "{name}"\n[[plugs]]\nname = "P"\nlike = "gps"\n')
    assert main(["boards", "show", str(tmp_path / "*.board.toml")]) == 0
    assert capsys.readouterr().out.count("P: board connector") == 2
    assert main(["boards", "show", str(tmp_path / "x*.board.toml")]) == 2


def test_what_somebody_wrote_is_not_written_over_by_a_page(pilot, tmp_path, capsys):
    for said in (["boards", "show", str(pilot), "--to", str(pilot)], ["boards", "show", "--enter", "--to", str(pilot)]):
        assert main(said) == 2
        assert "is there already and is no page of Tabside's" in capsys.readouterr().err
    assert main(["manual", "--to", str(pilot)]) == 2 and pilot.read_text() == TEXT
    for _ in range(2):  # a page of ours is made again
        assert main(["boards", "show", "--enter", "--to", str(tmp_path / "enter.html")]) == 0
        assert main(["manual", "--to", str(tmp_path / "manual.html")]) == 0
        assert main(["boards", "show", str(pilot), "--to", str(tmp_path / "pilot.html")]) == 0


def test_a_table_is_not_written_over_by_the_board_that_is_read_from_it(tmp_path, capsys):
    table = tmp_path / "t.csv"
    table.write_text("1,5V\n2,GND\n")
    assert main(["boards", "read", str(table), "--to", str(table), "--force"]) == 2
    assert "is the table itself" in capsys.readouterr().err and table.read_text() == "1,5V\n2,GND\n"
