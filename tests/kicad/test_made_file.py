"""The scripts that make a file for KiCad say in one line where it is, or why it is not there."""

import pytest

from tabside.kicad import package, symbols


@pytest.mark.parametrize("script", [symbols, package])
def test_a_folder_that_is_not_there_is_one_line(script, tmp_path, capsys):
    assert script.main([str(tmp_path / "nowhere" / "made")]) == 2
    told = capsys.readouterr()
    assert told.out == "" and told.err.startswith("tabside: ") and told.err.count("\n") == 1
    assert "cannot be written: No such file or directory" in told.err


def test_the_symbols_are_what_the_library_says(tmp_path, capsys):
    target = tmp_path / "made.kicad_sym"
    assert symbols.main([str(target)]) == 0
    assert target.read_text("utf-8") == symbols.library_text((9, 0)) and capsys.readouterr().out == f"{target}\n"
