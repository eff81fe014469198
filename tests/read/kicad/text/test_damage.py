"""Whatever is wrong with a file is one line with file, line and column, and never a traceback.

Lines and columns are counted by hand in the text below; common practice, no source, for where a damage is shown.
"""

from __future__ import annotations

import os
import random
import stat
from pathlib import Path

import pytest

from drawing.schematic_text import FULL
from tabside.errors import TabsideError
from tabside.read import load_hierarchy

SOUND = """\
(kicad_sch
	(version 20250114)
	(uuid "r")
	(junction
		(at 1 2)
	)
	(wire
		(pts
			(xy 1 2) (xy 3 4)
		)
	)
	(symbol
		(lib_id "P")
		(at 10 10 0)
		(unit 1)
		(property "Reference" "J1")
	)
	(label "A"
		(at 1 2 0)
	)
)
"""


def said(path: Path | str) -> str:
    with pytest.raises(TabsideError) as raised:
        load_hierarchy(path)
    line = str(raised.value)
    assert "\n" not in line
    return line


def changed(old: str, new: str) -> str:
    assert SOUND.count(old) == 1
    return SOUND.replace(old, new)


def test_the_sound_file_is_read(tmp_path: Path):
    file = tmp_path / "boat.kicad_sch"
    file.write_text(SOUND)
    assert len(load_hierarchy(file).sheets[0].file.wires) == 1


@pytest.mark.parametrize(
    ("text", "place", "words"),
    [
        pytest.param("", "1:1", "empty", id="empty"),
        pytest.param(" \n\n ", "1:1", "empty", id="blank"),
        pytest.param("hello", "1:1", "begins with (kicad_sch", id="no list"),
        pytest.param("(kicad_pcb (version 20250114))", "1:1", "(kicad_pcb", id="a board"),
        pytest.param("EESchema Schematic File Version 4\n", "1:1", "KiCad 5", id="KiCad 5"),
        pytest.param(changed('"A"', '"A'), "18:9", "not closed on its line", id="quote not closed"),
        pytest.param(changed('"A"', '"A\nB"'), "18:9", "not closed on its line", id="line break in quotes"),
        pytest.param(SOUND[:-40], "16:24", "ends before (property of line 16", id="cut off"),
        pytest.param(changed("\t\t)\n\t)\n\t(symbol", "\t\t)\n\t(symbol"), "7:2", "(wire", id="wire not closed"),
        pytest.param(changed("4)\n\t\t)", "4)"), "8:3", "(pts", id="points not closed"),
        pytest.param(changed("(xy 1 2) ", "(xy 1 2)) "), "9:12", "too many", id="a bracket too many"),
        pytest.param(SOUND + ")", "22:1", "never opened", id="a bracket too many at the end"),
        pytest.param(SOUND + SOUND, "22:1", "one schematic only", id="two schematics"),
        pytest.param(changed("(at 1 2)", "(at a 2)"), "5:7", "'a' is not a number", id="a word for a number"),
        pytest.param(changed("(at 1 2)", '(at "1" 2)'), "5:7", "a number is expected", id="quotes for a number"),
        pytest.param(changed("(at 1 2)", "(at 1)"), "5:3", "a number is expected", id="a number missing"),
        pytest.param(changed("(at 1 2)", "(at 1 (x))"), "5:9", "a number is expected", id="a list for a number"),
        pytest.param(changed("(at 1 2)", "(at nan 2)"), "5:7", "'nan' is not a number", id="nan"),
        pytest.param(changed("(at 1 2)", "(at 1 inf)"), "5:9", "'inf' is not a number", id="inf"),
        pytest.param(changed("(at 1 2)", "(at 1 1e999)"), "5:9", "farther out", id="beyond any number"),
        pytest.param(changed("(at 1 2)", "(at 1 -160000)"), "5:9", "farther out", id="160 m away"),
        pytest.param(changed("(at 1 2)", "(at 1_0 2)"), "5:7", "is not a number", id="underscore"),
        pytest.param(changed("(at 10 10 0)", "(at 10 10 45)"), "14:13", "the angle is 45", id="45 degrees"),
        pytest.param(changed("(at 10 10 0)", "(at 10 10)"), "14:3", "an angle is expected", id="no angle"),
        pytest.param(changed("(at 10 10 0)", ""), "12:2", "no place", id="no place"),
        pytest.param(changed("(unit 1)", "(unit A)"), "15:9", "a whole number", id="unit"),
        pytest.param(changed("(unit 1)", "(mirror x y)"), "15:3", "mirror", id="mirror"),
        pytest.param(changed("(unit 1)", "(dnp perhaps)"), "15:8", "yes or no", id="neither yes nor no"),
        pytest.param(changed('(property "Reference" "J1")', "(property)"), "16:3", "text is missing", id="no name"),
        pytest.param(changed('"Reference" "J1"', '"Reference" (x)'), "16:25", "text is missing", id="list for a value"),
        pytest.param(changed("(xy 1 2) ", ""), "7:2", "has 1", id="wire with one end"),
        pytest.param(changed('"A"', "[A]"), "18:9", "outside of quotes", id="brackets outside of quotes"),
        pytest.param(changed('"A"', "'A"), "18:9", "outside of quotes", id="apostrophe outside of quotes"),
        pytest.param(changed("\t(wire", "\tfoo (wire"), "7:2", "a list is expected", id="stray word"),
        pytest.param(changed("\t(version 20250114)\n", ""), "1:1", "(version N) is missing", id="no version"),
        pytest.param(changed("20250114", '"x"'), "2:11", "a whole number", id="version is text"),
        pytest.param(changed("20250114", "20200310"), "2:11", "older than KiCad 6", id="too old"),
        pytest.param(changed('"A"', '"A\0"'), "18:11", "NUL", id="NUL"),
        pytest.param(changed('"A"', '"' + "(" * 9 + '" ' + "(" * 300), "18:219", "more than 200 deep", id="deep"),
        pytest.param("(" * 1_000_000, "1:201", "more than 200 deep", id="a million brackets"),
    ],
)
def test_damage_is_found(tmp_path: Path, text, place, words):
    file = tmp_path / "boat.kicad_sch"
    file.write_text(text, newline="")
    line = said(file)
    assert line.startswith(f"{file}:{place}: ")
    assert words in line


def test_bytes_that_are_no_utf_8_are_found(tmp_path: Path):
    file = tmp_path / "boat.kicad_sch"
    file.write_bytes(changed('"A"', '"é-ü"').encode().replace("ü".encode(), b"\xfc"))
    assert said(file).startswith(f"{file}:18:12: is not UTF-8")


@pytest.mark.parametrize("name", ["nothing.kicad_sch", "a\0b.kicad_sch", "x" * 5000, ""])
def test_a_file_that_cannot_be_opened_is_one_line(tmp_path: Path, name):
    assert "cannot be read" in said(os.path.join(tmp_path, name) if name else name)


def test_what_is_no_file_is_one_line(tmp_path: Path):
    (tmp_path / "folder.kicad_sch").mkdir()
    assert "is a folder" in said(tmp_path / "folder.kicad_sch")
    os.mkfifo(tmp_path / "pipe.kicad_sch")
    assert "is not an ordinary file" in said(tmp_path / "pipe.kicad_sch")
    (tmp_path / "loop.kicad_sch").symlink_to("loop.kicad_sch")
    assert "cannot be read" in said(tmp_path / "loop.kicad_sch")


@pytest.mark.skipif(os.geteuid() == 0, reason="root may read everything")
def test_a_file_without_permission_is_one_line(tmp_path: Path):
    file = tmp_path / "boat.kicad_sch"
    file.write_text(SOUND)
    file.chmod(stat.S_IWUSR)
    assert "permission denied" in said(file)


def test_a_huge_file_is_not_read(tmp_path: Path):
    file = tmp_path / "boat.kicad_sch"
    with file.open("wb") as f:
        f.truncate(257 * 1024 * 1024)  # sparse: takes no room
    assert "larger than 256 MB" in said(file)


def test_other_files_of_a_project_are_refused(tmp_path: Path):
    file = tmp_path / "boat.kicad_pro"
    file.write_text("{}")
    assert "name the .kicad_sch" in said(file)


def test_a_newer_file_is_read_with_a_warning(tmp_path: Path):
    file = tmp_path / "boat.kicad_sch"
    file.write_text(changed("20250114", "20990101"))
    (warning,) = load_hierarchy(file).warnings
    assert "20990101 is newer than 20260306" in warning


@pytest.mark.parametrize("seed", range(40))
def test_random_damage_is_read_or_said_in_one_line(tmp_path: Path, seed):
    """Characters dropped, doubled or exchanged anywhere: the file is read, or one line says where it is wrong."""
    chance = random.Random(seed)
    file = tmp_path / "boat.kicad_sch"
    for _ in range(25):
        text = list(FULL.replace("power.kicad_sch", "boat.kicad_sch"))
        for _ in range(chance.choice((1, 1, 2, 5))):
            at = chance.randrange(len(text))
            text[at] = chance.choice(("", "(", ")", '"', "\\", "\n", "x", "'", "[", ";", "#", "9", text[at] * 2))
        file.write_text("".join(text), encoding="utf-8")
        try:
            load_hierarchy(file)
        except TabsideError as error:
            assert str(error).startswith(f"{file}:"), seed
            assert error.line is not None, (seed, str(error))
