"""`tabside explain` at a terminal: all rules in short, one in full, 80 columns, and a wrong name in one line."""

import tomllib

import pytest

from tabside.cli import main
from tabside.documents.explanation import explanations

NAMES = sorted({rule for each in explanations() for rule in each.rules})


def test_all_rules_are_listed_with_what_each_means(capsys):
    assert main(["explain"]) == 0
    said = capsys.readouterr().out
    assert not [name for name in NAMES if name not in said]
    assert max(len(line) for line in said.splitlines()) <= 80


@pytest.mark.parametrize("name", NAMES)
def test_one_rule_is_explained_in_80_columns(name, capsys):
    assert main(["explain", name]) == 0
    said = capsys.readouterr().out
    for label in ("Example: ", "Fix: ", "Accept: ", "Source: "):
        assert label in said
    assert said.startswith(f"{name}\n") and max(len(line) for line in said.splitlines()) <= 80


def test_the_acceptance_shown_is_toml_and_absent_where_nothing_is_to_be_accepted(capsys):
    main(["explain", "look-alike"])
    shown = capsys.readouterr().out.partition("[[accept]]")
    assert tomllib.loads(shown[1] + shown[2])["accept"][0]["rule"] == "look-alike"
    main(["explain", "ways-mismatch"])
    assert "[[accept]]" not in capsys.readouterr().out


def test_a_wrong_name_is_one_line_and_exit_2(capsys):
    assert main(["explain", "fuse-mising"]) == 2
    assert capsys.readouterr().err == 'tabside: no rule is called "fuse-mising"; did you mean "fuse-missing"?\n'
