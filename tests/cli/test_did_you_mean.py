"""A misspelt word is refused in one line that names the right one."""

from __future__ import annotations

from pathlib import Path

import pytest

from tabside.cli import main

DEMO = Path(__file__).parents[2] / "fixtures" / "survey_boat" / "rev_b" / "survey_boat.kicad_sch"


@pytest.mark.parametrize(
    ("words", "meant"),
    [
        ("chekc tern.kicad_sch", '"check"'),
        ("boards shw", '"show"'),
        ("kicad instal", '"install"'),
        ("check tern.kicad_sch --fail-on eror", '"error"'),
        ("check tern.kicad_sch --jsn", "--json"),
        ("stamp tern.kicad_sch --dryrun", "--dry-run"),
        ("check tren.kicad_sch", '"tern.kicad_sch"'),
        ("boards show pilto.board.toml", '"pilot.board.toml"'),
        ("export {demo} --to made --only wirelist", '"wire-list"'),
        ("export {demo} --to made --as exel", '"xlsx"'),
        ("families jsth", "jst"),
        ("families zh2", "jst_zh"),
        ("explain mirored", '"mirrored"'),
        ("manual craftfile", '"craft-file"'),
        ("boards show odd.board.toml", '"receptacle"'),
    ],
)
def test_a_misspelt_word_is_answered_with_the_right_one(words, meant, tmp_path, monkeypatch, capsys):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "tern.kicad_sch").write_text("")
    (tmp_path / "pilot.board.toml").write_text("")
    plug = '[[plugs]]\nname = "A"\nkind = "recepticle"\nsignals = "A, B"\n'
    (tmp_path / "odd.board.toml").write_text(f'[board]\nname = "odd"\n{plug}')
    try:
        status = main(words.format(demo=DEMO).split())
    except SystemExit as error:
        status = error.code
    said = capsys.readouterr().err
    assert status == 2 and said.count("\n") == 1
    assert "did you mean" in said and meant in said


@pytest.mark.parametrize("words", [["manual", "../etc/passwd"], ["explain", "../etc/passwd"]])
def test_what_is_like_nothing_is_answered_without_a_guess(words, capsys):
    assert main(words) == 2
    said = capsys.readouterr().err
    assert said.count("\n") == 1 and "did you mean" not in said
